"""Rules that speak in multiples of a player's sideways scatter, put into metres for that player."""

from collections.abc import Mapping
from dataclasses import replace

from tactics.model.known import Allowed, Interval, OneOf, ScatterWithin, Within
from tactics.model.rule import Answer, Rule, RuleSet


def speaks_in_scatter(rules: RuleSet) -> bool:
    """Say whether a graded answer is given in multiples of scatter."""
    return any(map(_speaks, rules.rules))


def in_metres(rules: RuleSet, unit_m: float) -> RuleSet:
    """Return the rules with every graded `1.4 scatter` in metres, one scatter being `unit_m`.

    To be done before a rule set is compiled. Aims stay as written: they are shown, never graded.
    """
    if not speaks_in_scatter(rules):
        return rules
    return replace(rules, rules=tuple(_resolved(rule, unit_m) for rule in rules.rules))


def level_it_applies_to(rules: RuleSet) -> str:
    """Return the one level a rule set is for, or nothing."""
    applied = dict(rules.applies_to).get("level")
    words = applied.words if isinstance(applied, OneOf) else frozenset[str]()
    return next(iter(words)) if len(words) == 1 else ""


def usual_scatter_m(level: str) -> float:
    """Return one `scatter` (m) of a level's players; of a club player where no level is named."""
    from tactics.engine.margins import level_sideways_m  # the flight model takes long to load
    from tactics.flight.levels import CLUB, LEVELS

    return level_sideways_m(LEVELS.get(level, CLUB))


def metres(allowed: Allowed, unit_m: float) -> Allowed:
    """Return multiples of a scatter of `unit_m` as metres, anything else as it is."""
    if not isinstance(allowed, ScatterWithin):
        return allowed
    return Within(tuple(_scaled(interval, unit_m) for interval in allowed.intervals))


def all_metres(values: Mapping[str, Allowed], unit_m: float) -> dict[str, Allowed]:
    """Return the same parts with multiples of scatter in metres."""
    return {part: metres(allowed, unit_m) for part, allowed in values.items()}


def _scaled(interval: Interval, unit_m: float) -> Interval:
    (low, low_side), (high, high_side) = interval.low, interval.high
    return Interval((round(low * unit_m, 2), low_side), (round(high * unit_m, 2), high_side))


def _speaks(rule: Rule) -> bool:
    return any(
        isinstance(allowed, ScatterWithin)
        for answer in (rule.advice, *rule.alternatives)
        for _, allowed in answer
    )


def _resolved(rule: Rule, unit_m: float) -> Rule:
    return replace(
        rule,
        advice=_answer(rule.advice, unit_m),
        alternatives=tuple(_answer(answer, unit_m) for answer in rule.alternatives),
    )


def _answer(answer: Answer, unit_m: float) -> Answer:
    return tuple((part, metres(allowed, unit_m)) for part, allowed in answer)
