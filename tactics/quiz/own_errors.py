"""What a player has been seen to do against the rules: what to drill, and with which answers."""

from collections import Counter
from collections.abc import Mapping

from tactics.model.audit import Audit, JudgedBall
from tactics.model.known import Known, OneOf, Within
from tactics.quiz.candidates import Values
from tactics.quiz.plain import Value, value_of

_MOST_A_RULE = 6
_ENDLESS = 1e6
"""A band without an end has no middle."""


def own_errors(audit: Audit) -> Mapping[str, tuple[Values, ...]]:
    """Return rule id -> choices of the player that broke it, the rule broken most often first.

    The latest choices come first, no two alike. A ball whose grade some fact not seen would
    change is charged to no rule, and so to none here.
    """
    balls = [each for each in audit.judged if each.verdict.charged]
    broken = Counter(rule for each in balls for rule in each.verdict.charged)
    found: dict[str, dict[tuple[tuple[str, Value], ...], Values]] = {rule: {} for rule in broken}
    for each in reversed(balls):
        values = _values(each)
        for rule in each.verdict.charged if values else ():
            if len(found[rule]) < _MOST_A_RULE:
                found[rule].setdefault(tuple(sorted(values.items())), values)
    return {rule: tuple(found[rule].values()) for rule, _ in broken.most_common()}


def _values(judged: JudgedBall) -> dict[str, Value]:
    """Return the parts of a choice in plain values; a band counts as its middle."""
    plain = {part: _value(known) for part, known in judged.ball.choice.parts}
    return {part: value for part, value in plain.items() if value is not None}


def _value(known: Known) -> Value:
    if isinstance(known, OneOf):
        return value_of(known)
    if isinstance(known, Within):
        low, high = known.intervals[0].low[0], known.intervals[-1].high[0]
        middle = (low + high) / 2
        return round(middle, 1) if abs(middle) < _ENDLESS else None
    return None
