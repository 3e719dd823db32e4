"""The report of what questions about a rule set test, as text and as data."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.model.vocabulary import Vocabulary
from tactics.quiz.tested_facts import LOSS_THAT_COUNTS, TestedFact
from tactics.report.layout import Section, bullet, counted, table, wrapped

_FEW = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class FactsReport:
    """What was found. not_asked: ids of rules that no question was about."""

    questions: int
    rules: int
    not_asked: tuple[str, ...]
    facts: tuple[TestedFact, ...]


def as_sections(found: FactsReport, words: Vocabulary) -> tuple[Section, ...]:
    """Return the report in sections for 80 columns."""
    return (
        Section(title="What questions about these rules test", lines=_opening(found)),
        Section(title="", lines=_table(found.facts, words)),
        Section(title="Facts that are hardly tested", lines=_untested(found.facts, words)),
        Section(title="Rules that no question was about", lines=_bullets(found.not_asked)),
    )


def _opening(found: FactsReport) -> tuple[str, ...]:
    return wrapped(
        f"{counted(found.questions, 'question')} about {counted(found.rules, 'rule')}. Below, "
        "somebody who knows every rule but never looks at one fact answers those that rest on a "
        "rule asking for it: 1.00 is everything right, 0.00 is what a guess gives. "
        "n is the number of questions, turned of those whose answer the fact alone turns.",
        "  ",
    )


def _table(facts: Sequence[TestedFact], words: Vocabulary) -> tuple[str, ...]:
    rows = [
        (
            words.trait(each.fact).name,
            str(each.asked),
            str(each.turned),
            f"{each.score:.2f}" if each.asked else "-",
            "few questions" if 0 < each.asked < _FEW else "",
        )
        for each in facts
    ]
    header = ("fact not looked at", "n", "turned", "score", "")
    return table(header, rows, right=frozenset((1, 2, 3)))


def _untested(facts: Sequence[TestedFact], words: Vocabulary) -> tuple[str, ...]:
    names = [words.trait(each.fact).name for each in facts if not each.is_tested]
    if not names:
        return ()
    return (
        *bullet(", ".join(names), "  "),
        *wrapped(
            f"Not looking at one of these costs less than {LOSS_THAT_COUNTS:.2f}: what is advised "
            "is right whatever the fact is, or nothing was asked about it.",
            "  ",
        ),
    )


def _bullets(names: Sequence[str]) -> tuple[str, ...]:
    return bullet(", ".join(names), "  ") if names else ()


def as_data(found: FactsReport, words: Vocabulary) -> dict[str, object]:
    """Return the report as a JSON document."""
    return {
        "questions": found.questions,
        "rules": found.rules,
        "rules not asked about": list(found.not_asked),
        "facts": [
            {
                "fact": words.trait(each.fact).name,
                "questions": each.asked,
                "turned": each.turned,
                "score": round(each.score, 3) if each.asked else None,
                "is tested": each.is_tested,
            }
            for each in found.facts
        ],
    }
