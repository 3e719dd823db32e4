"""What was proved about a rule set, in words: each finding as a problem with its witness."""

from collections.abc import Iterator

from tactics.checks.finding import Finding, Kind
from tactics.checks.witness import Witness
from tactics.model.rule import RuleSet
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem
from tactics.reading.wording import both
from tactics.report.gap_words import conflict_said, gap_said
from tactics.report.idle_words import (
    dead_rule_said,
    dead_term_said,
    idle_said,
    overruled_said,
    repeated_said,
)
from tactics.report.rule_words import condition_words
from tactics.report.witness_words import Said, told_words


def problem_of(finding: Finding, rules: RuleSet) -> Problem:
    """Return a finding as a problem with its place, what it means, a witness and a way out."""
    said = _said(finding, rules)
    return Problem(
        code=finding.kind,
        span=finding.span,
        sentence=said.sentence,
        hint=said.hint,
        severity=finding.severity,
        also=said.also,
        opener=finding.opener,
        notes=(*said.notes, *_edges(finding, rules.vocabulary)),
        paste=said.paste,
    )


def _said(finding: Finding, rules: RuleSet) -> Said:
    match finding.kind:
        case Kind.GAP:
            return gap_said(finding, rules)
        case Kind.CONFLICT:
            return conflict_said(finding, rules)
        case Kind.TERM_NEVER_HOLDS:
            return dead_term_said(finding, rules)
        case Kind.NEVER_APPLIES:
            return dead_rule_said(finding, rules)
        case Kind.ALWAYS_OVERRULED:
            return overruled_said(finding, rules)
        case Kind.IDLE_CONDITION | Kind.IDLE_EXCEPTION:
            return idle_said(finding, rules)
        case Kind.REPEATED_RULE:
            return repeated_said(finding, rules)
        case Kind.UNEVEN_HANDS:
            return _uneven(finding, rules)
        case Kind.MISSING_STAGE:
            return _stage(finding, rules)


def _uneven(finding: Finding, rules: RuleSet) -> Said:
    words = rules.vocabulary
    witness = finding.witnesses[0]
    mirror = Witness(
        situation=witness.situation.mirrored(), choice=witness.choice, telling=witness.telling
    )
    return Said(
        sentence=f'the rule "{finding.rules[0]}" treats a left-hander otherwise than the mirror '
        "image of a right-hander",
        notes=(
            f"Here and in its mirror image the advice differs. {told_words(witness, words)}",
            f"The mirror image: {told_words(mirror, words)}",
        ),
        hint='ask for "hands: same" or "hands: opposite", or for the wing a ball finds; or write '
        "the rule a second time for the other hand",
    )


def _stage(finding: Finding, rules: RuleSet) -> Said:
    asked = condition_words(finding.conditions[0], rules.vocabulary)
    return Said(
        sentence=f'the rule "{finding.rules[0]}" asks for {asked} whatever the stage',
        notes=(
            "What is thigh high on a grown player is under the net; on a child the net itself "
            "comes up to the chest.",
        ),
        hint='say whom the set is for ("applies to: {stage: full court}"), or ask for the stage '
        "or the contact height in the rule",
    )


def _edges(finding: Finding, words: Vocabulary) -> Iterator[str]:
    if finding.edges:
        names = both(words.trait(name).name for name in finding.edges)
        yield (
            f"It happens only where two limits of {names} meet: on the very number, one of them "
            'should say "more than" or "less than" instead, or the other way round.'
        )
