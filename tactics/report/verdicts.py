"""A verdict in words: the grade, what it rests on, and what is still open."""

from collections.abc import Iterable, Sequence

from tactics.model.choice import Choice
from tactics.model.names import fold
from tactics.model.rule import Rule, RuleSet, Strength
from tactics.model.verdict import Finding, Grade, Reason, Verdict
from tactics.reading.wording import both
from tactics.report.layout import Section, labelled, wrapped
from tactics.report.sentences import choice_words
from tactics.report.words import say_beside, say_bounds

GRADE_ORDER = (Grade.SOUND, Grade.ACCEPTABLE, Grade.DOUBTFUL, Grade.UNSOUND, Grade.UNDECIDED)


def grade_line(verdict: Verdict) -> str:
    """Return the grade in one line, with what would decide an undecided one."""
    if verdict.grade is not Grade.UNDECIDED:
        return str(verdict.grade)
    match verdict.reason:
        case Reason.FACT_NOT_SEEN:
            facts = f": {verdict.missing[0]} decides" if verdict.missing else ""
            return f"undecided {grades_between(verdict.possible)}{facts}"
        case Reason.CONFLICT:
            return f"undecided: {both(verdict.clashing)} leave no common answer"
        case _:
            return "undecided: no rule speaks to what was charted of this choice"


def grades_between(possible: Iterable[Grade]) -> str:
    """Return `between sound and doubtful`."""
    grades = [grade for grade in GRADE_ORDER if grade in frozenset(possible)]
    return f"between {both(grades)}"


def verdict_lines(verdict: Verdict, rules: RuleSet, indent: str = "  ") -> tuple[str, ...]:
    """Return the grade, a line for each part, and the reason and cue of the deciding rule."""
    lines = [*wrapped(grade_line(verdict), indent, indent + "  ")]
    if len(verdict.missing) > 1:
        others = f"Also open: {', '.join(verdict.missing[1:])}."
        lines += wrapped(others, indent + "  ")
    lines += finding_lines(verdict.findings, rules, indent + "  ")
    return (*lines, *_why(verdict, rules, indent + "  "))


def finding_lines(findings: Sequence[Finding], rules: RuleSet, indent: str) -> tuple[str, ...]:
    """Return a line for each graded part: grade, what was charted, what was wanted, by which."""
    width = max((len(finding.part) for finding in findings), default=0)
    return tuple(
        line
        for finding in findings
        for line in labelled(finding.part, finding_text(finding, rules), width, indent)
    )


def finding_text(finding: Finding, rules: RuleSet) -> str:
    """Return what was found for one part in a sentence without its name."""
    trait = rules.vocabulary.trait(finding.part)
    charted = say_beside(finding.charted, finding.wanted, trait)
    wanted = "" if finding.wanted is None else f", wanted {say_bounds(finding.wanted, trait)}"
    return f"{finding.grade}: {charted}{wanted} [{_who(finding, rules)}]"


def _who(finding: Finding, rules: RuleSet) -> str:
    named = both(_named(rule, rules) for rule in finding.rules)
    if not finding.option_of:
        return named
    if finding.option_of in finding.rules:
        return f"an option of {finding.option_of}"
    return f"{named}; allowed by {finding.option_of}"


def _named(rule_id: str, rules: RuleSet) -> str:
    rule = find_rule(rules, rule_id)
    return rule_id if rule is None else f"{rule_id}, {rule.strength}"


def _why(verdict: Verdict, rules: RuleSet, indent: str) -> tuple[str, ...]:
    rule = find_rule(rules, verdict.deciding)
    if rule is None or verdict.grade in (Grade.SOUND, Grade.UNDECIDED):
        return ()
    why = wrapped(f"Why: {rule.because}", indent, indent + "  ") if rule.because else ()
    return (*why, *cue_lines(rule, indent))


def cue_lines(rule: Rule, indent: str) -> tuple[str, ...]:
    """Return the cue of a rule as a line, or nothing."""
    return wrapped(f"Cue: {rule.cue}", indent, indent + "  ") if rule.cue else ()


def find_rule(rules: RuleSet, rule_id: str) -> Rule | None:
    """Return the rule of that id in any spelling, or None."""
    return next((rule for rule in rules.rules if fold(rule.id) == fold(rule_id)), None)


def strength_word(strength: Strength) -> str:
    """Return what breaking a rule of that strength means."""
    match strength:
        case Strength.MUST:
            return "breaking it is unsound"
        case Strength.SHOULD:
            return "breaking it is doubtful"
        case Strength.MAY:
            return "an option, never required"


def verdict_section(choice: Choice, verdict: Verdict, rules: RuleSet) -> Section:
    """Return the verdict on a choice with what was chosen."""
    tried = wrapped(f"Chosen: {choice_words(choice, rules.vocabulary)}.", "  ")
    return Section(title="Verdict on the choice", lines=(*tried, *verdict_lines(verdict, rules)))
