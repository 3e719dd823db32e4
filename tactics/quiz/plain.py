"""A drawn ball in plain values: fact -> word, number, or None where the fact does not exist."""

from collections.abc import Mapping
from functools import cache

from tactics.model.known import NOT_APPLICABLE, Allowed, Known, OneOf, Within, number, word
from tactics.model.situation import Situation

Value = str | float | None
Plain = Mapping[str, Value]


@cache
def known_of(value: Value) -> Known:
    """Return a value as a set with one member; equal values are one object."""
    if value is None:
        return NOT_APPLICABLE
    return word(value) if isinstance(value, str) else number(value)


def situation_of(ball: Plain) -> Situation:
    """Return the situation of a ball."""
    return Situation(tuple((name, known_of(ball[name])) for name in sorted(ball)))


def is_in(value: Value, allowed: Allowed) -> bool:
    """Say whether a value lies in a set; what does not exist lies in none."""
    match allowed:
        case OneOf(words):
            return value in words
        case Within(intervals):
            return isinstance(value, float | int) and any(
                each.low <= (value, 0) < each.high for each in intervals
            )
        case _:
            return False


def value_of(known: Known) -> Value:
    """Return the one member of a set of one word or number; None for everything else."""
    match known:
        case OneOf(words) if len(words) == 1:
            return next(iter(words))
        case Within((interval,)) if interval.low[0] == interval.high[0]:
            return interval.low[0]
        case _:
            return None
