"""The page of a rule, a term or a drill, from its own data."""

from collections.abc import Sequence

from tactics.model.condition import TermTest, tests_in
from tactics.model.drill import Catalogue, Drill
from tactics.model.names import fold
from tactics.model.rule import Example, Rule, RuleSet, Strength, Term
from tactics.reading.wording import both
from tactics.report.layout import Section, bullet, definitions, wrapped
from tactics.report.rule_words import answer_pairs, answer_words, condition_lines, condition_words
from tactics.report.sentences import choice_words, facts_words
from tactics.report.verdicts import strength_word


def rule_page(rule: Rule, rules: RuleSet, drills: Catalogue) -> tuple[Section, ...]:
    """Return everything a rule says and what it has to do with others."""
    words = rules.vocabulary
    return (
        Section(title=f"{rule.title} [{rule.id}]", lines=_about(rule, rules)),
        Section(title="When", lines=_when_lines(rule, rules)),
        Section(title=_verb(rule), lines=definitions(answer_pairs(rule.advice, words))),
        Section(title="Aims at (never graded)", lines=definitions(answer_pairs(rule.aim, words))),
        Section(
            title="Also acceptable",
            lines=_bullets([answer_words(answer, words) for answer in rule.alternatives]),
        ),
        Section(title="Why", lines=_why_lines(rule)),
        Section(
            title="The usual mistake",
            lines=wrapped(answer_words(rule.usual_mistake, words), "  "),
        ),
        Section(title="Beside other rules", lines=_others(rule, rules)),
        Section(title="Trained by", lines=_drill_lines(rule, drills)),
        Section(
            title="Examples",
            lines=tuple(line for each in rule.examples for line in _example(each, rules)),
        ),
    )


def _verb(rule: Rule) -> str:
    return "Allows" if rule.strength is Strength.MAY else "Asks for"


def _about(rule: Rule, rules: RuleSet) -> tuple[str, ...]:
    author = rule.author or rules.author
    pairs = [
        ("strength", f"{rule.strength} ({strength_word(rule.strength)})"),
        ("concern", f"{rule.concern}, number {rules.rank(rule.concern) + 1} of "
                    f"{len(rules.precedence)} in the precedence"),
        ("rule set", rules.name),
    ]  # fmt: skip
    return definitions([*pairs, *([("author", author)] if author else [])])


def _when_lines(rule: Rule, rules: RuleSet) -> tuple[str, ...]:
    words = rules.vocabulary
    lines = [*condition_lines(rule.when, words)]
    for exception in rule.unless:
        lines += bullet(f"unless {condition_words(exception, words)}", "  ")
    if rule.choosing is not None:
        lines += bullet(f"only for a choice of {condition_words(rule.choosing, words)}", "  ")
    return tuple(lines)


def _why_lines(rule: Rule) -> tuple[str, ...]:
    texts = (
        rule.because,
        f"Cue: {rule.cue}" if rule.cue else "",
        f"Rests on: {rule.evidence}" if rule.evidence else "",
        f"Note: {rule.note}" if rule.note else "",
    )
    return tuple(line for text in texts for line in wrapped(text, "  "))


def _others(rule: Rule, rules: RuleSet) -> tuple[str, ...]:
    beaten_by = [other.id for other in rules.rules if rule.id in other.beats]
    said = []
    if rule.beats:
        said.append(f"sets aside {both(rule.beats)}")
    if beaten_by:
        said.append(f"is set aside by {both(beaten_by)}")
    return _bullets(said)


def _drill_lines(rule: Rule, drills: Catalogue) -> tuple[str, ...]:
    said = []
    for name in rule.drills:
        drill = drills.find(name)
        said.append(name if drill is None else f"{drill.title} [{name}], {drill.minutes} min")
    return _bullets(said)


def _example(example: Example, rules: RuleSet) -> tuple[str, ...]:
    words = rules.vocabulary
    given = facts_words(example.given, words)
    start = f"given {given}: " if given else ""
    return bullet(f"{start}{choice_words(example.choose, words)} is {example.grade}", "  ")


def _bullets(texts: Sequence[str]) -> tuple[str, ...]:
    return tuple(line for text in texts for line in bullet(text, "  "))


def term_page(term: Term, rules: RuleSet) -> tuple[Section, ...]:
    """Return what a term means and which rules use it."""
    users = [rule.id for rule in rules.rules if _uses(rule, term)]
    return (
        Section(
            title=f"{term.name}: a term of {rules.name}",
            lines=wrapped(f"Means: {term.means}." if term.means else "", "  "),
        ),
        Section(title="Holds when", lines=condition_lines(term.condition, rules.vocabulary)),
        Section(title="Used by", lines=_bullets(users)),
    )


def _uses(rule: Rule, term: Term) -> bool:
    conditions = (rule.when, *rule.unless)
    return any(
        isinstance(test, TermTest) and fold(test.term) == fold(term.name)
        for condition in conditions
        for test in tests_in(condition)
    )


def drill_page(drill: Drill) -> tuple[Section, ...]:
    """Return how a drill is laid out and scored."""
    texts = (
        ("minutes", str(drill.minutes)),
        ("set-up", drill.set_up),
        ("scoring", drill.scoring),
        ("harder", drill.harder),
        ("easier", drill.easier),
        ("safety", drill.safety),
        ("not with", f"a restriction on {both(drill.strains)}" if drill.strains else ""),
        ("trains", ", ".join(drill.trains)),
    )
    lines = definitions([(name, text) for name, text in texts if text])
    return (Section(title=f"{drill.title} [{drill.id}]", lines=lines),)
