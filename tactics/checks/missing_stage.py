"""Heights written for grown players in a set that children on smaller courts fall under too."""

from collections.abc import Iterator

from tactics.checks.conditions import place_in
from tactics.checks.finding import Finding, Kind, Step
from tactics.checks.proof import Proof
from tactics.model.condition import Condition, TermTest, Test, tests_in
from tactics.model.known import OneOf
from tactics.model.names import fold
from tactics.model.rule import Rule, RuleSet
from tactics.problem import Severity

STAGE = "stage"
GROWN = "full court"
_ON_THE_BODY = "body height"


def find_missing_stage(proof: Proof) -> Iterator[Step]:
    """Yield a finding for each rule that reads a height on the body alike for child and adult.

    What is thigh high for a grown player is under the net; for a child on the red court the net
    comes up to the chest. So a set that is for both, and a rule that asks for a height on the
    body without asking for the stage (or the stature, or the height over the ground), misjudge
    one of them.
    """
    if not _is_for_both(proof.rules):
        return
    for rule in proof.rules.rules:
        asked = _asked(proof.rules, rule)
        if _ON_THE_BODY in asked and not asked.keys() & {STAGE, "stature", "contact height"}:
            yield Finding(
                kind=Kind.MISSING_STAGE,
                severity=Severity.WARNING,
                span=place_in(asked[_ON_THE_BODY]) or rule.span,
                opener=rule.span.line,
                rules=(rule.id,),
                conditions=(asked[_ON_THE_BODY],),
            )


def _is_for_both(rules: RuleSet) -> bool:
    allowed = dict(rules.applies_to).get(STAGE)
    return not isinstance(allowed, OneOf) or (GROWN in allowed.words and len(allowed.words) > 1)


def _asked(rules: RuleSet, rule: Rule) -> dict[str, Condition]:
    """Return fact -> the first test of it in a rule, terms opened; a term stands for its tests."""
    terms = {fold(term.name): term.condition for term in rules.terms}

    def opened(condition: Condition, shown: Condition | None) -> Iterator[tuple[str, Condition]]:
        for test in tests_in(condition):
            if isinstance(test, Test):
                yield test.name, shown or test
            elif isinstance(test, TermTest):
                yield from opened(terms[fold(test.term)], shown or test)

    found: dict[str, Condition] = {}
    for condition in (rule.when, *rule.unless):
        for name, test in opened(condition, None):
            found.setdefault(name, test)
    return found
