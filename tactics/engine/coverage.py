"""Which balls a rule set speaks about at all."""

from tactics.model.known import NOT_SEEN, Absent, Allowed, Known, OneOf, Within
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation


def is_covered(rules: RuleSet, situation: Situation) -> bool:
    """Say whether a situation can lie inside what the rule set applies to."""
    return all(_may_be(situation.get(fact), allowed) for fact, allowed in rules.applies_to)


def left_open(rules: RuleSet, situation: Situation) -> tuple[str, ...]:
    """Return the facts the rule set applies to that were not seen."""
    return tuple(fact for fact, _ in rules.applies_to if situation.get(fact) is NOT_SEEN)


def as_covered(rules: RuleSet, situation: Situation) -> Situation:
    """Return the situation with facts left open taken as what the rule set applies to."""
    taken = {
        fact: allowed
        for fact, allowed in rules.applies_to
        if situation.get(fact) is NOT_SEEN and isinstance(allowed, OneOf | Within)
    }
    return situation.with_facts(taken) if taken else situation


def _may_be(known: Known, allowed: Allowed) -> bool:
    match known, allowed:
        case OneOf(words), OneOf(wanted):
            return bool(words & wanted)
        case Within(intervals), Within(wanted_intervals):
            return any(a.meets(b) for a in intervals for b in wanted_intervals)
        case Absent(), _:
            return known is NOT_SEEN
        case _:
            return False
