"""What cannot happen on a court, in words: as a reason for a finding, and as a page."""

from collections.abc import Iterable, Iterator

from tactics.model.legality import FOLLOWING, LEGALITY, Impossible
from tactics.model.rule import RuleSet
from tactics.model.vocabulary import Vocabulary
from tactics.report.layout import Section, wrapped
from tactics.report.rule_words import condition_words

CANNOT_HAPPEN = "cannot happen"


def reason_texts(ids: Iterable[str], rules: RuleSet) -> Iterator[str]:
    """Yield the reason behind each line of what cannot happen, with its id."""
    because = {line.id: line.because for line in (*LEGALITY, *rules.cannot_happen)}
    because |= {each.id: each.because for each in FOLLOWING}
    for each in ids:
        yield f"It cannot be otherwise: {because[each]} ({each})."


def legality_page(words: Vocabulary, own: tuple[Impossible, ...] = ()) -> tuple[Section, ...]:
    """Return the page of everything that no proof counts, and why; `own`: of the rule set."""
    return (
        Section(
            title="What cannot happen",
            lines=wrapped(
                "Proofs leave these situations out, and the scenarios of a quiz never show one. A "
                'rule set adds its own lines under "cannot happen".',
                "  ",
            ),
        ),
        Section(title="For every rule set", lines=_lines(LEGALITY, words)),
        Section(title="In this rule set", lines=_lines(own, words)),
        Section(
            title="Facts that follow from others",
            lines=tuple(
                line
                for each in FOLLOWING
                for line in wrapped(f"{each.id}: {each.because}", "  ", "    ")
            ),
        ),
    )


def line_page(line_id: str, words: Vocabulary) -> tuple[Section, ...]:
    """Return the page of one line, nothing where there is none of that id."""
    for line in LEGALITY:
        if line.id == line_id:
            said = condition_words(line.when, words)
            lines = (*wrapped(f"{said[:1].upper()}{said[1:]}.", "  "), *_because(line.because))
            return (Section(title=f"{line.id}: cannot happen", lines=lines),)
    for each in FOLLOWING:
        if each.id == line_id:
            lines = _because(each.because)
            return (Section(title=f"{each.id}: follows from other facts", lines=lines),)
    return ()


def _because(because: str) -> tuple[str, ...]:
    return wrapped(f"{because[:1].upper()}{because[1:]}.", "  ")


def line_ids() -> tuple[str, ...]:
    """Return the ids of all lines that have a page."""
    return (*(line.id for line in LEGALITY), *(each.id for each in FOLLOWING))


def _lines(lines: Iterable[Impossible], words: Vocabulary) -> tuple[str, ...]:
    return tuple(
        text
        for line in lines
        for text in wrapped(
            f"{line.id}: {condition_words(line.when, words)}; because {line.because}",
            "  ",
            "    ",
        )
    )
