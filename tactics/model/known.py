"""What is known of a fact: a set of possible values, or why there is none.

The same sets say what a rule asks for: `at least 1.3 m` is a set of numbers,
`[deep, very deep]` a set of words.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from math import inf

Cut = tuple[float, int]
"""A place between numbers: (t, 0) lies just before t, (t, 1) just after it."""


@dataclass(frozen=True, slots=True, order=True)
class Interval:
    """All numbers between two cuts: `Interval((1, 0), (2, 0))` is 1 <= x < 2."""

    low: Cut
    high: Cut

    def meets(self, other: "Interval") -> bool:
        """Say whether the two have a number in common."""
        return max(self.low, other.low) < min(self.high, other.high)


EVERYTHING = Interval((-inf, 0), (inf, 1))


def point(number: float) -> Interval:
    """Return the interval that holds one number only."""
    return Interval((number, 0), (number, 1))


def at_least(number: float) -> Interval:
    """Return x >= number."""
    return Interval((number, 0), (inf, 1))


def more_than(number: float) -> Interval:
    """Return x > number."""
    return Interval((number, 1), (inf, 1))


def at_most(number: float) -> Interval:
    """Return x <= number."""
    return Interval((-inf, 0), (number, 1))


def less_than(number: float) -> Interval:
    """Return x < number."""
    return Interval((-inf, 0), (number, 0))


def between(low: float, high: float) -> Interval:
    """Return low <= x <= high, as a coach means "A to B"."""
    return Interval((low, 0), (high, 1))


def merged(intervals: Iterable[Interval]) -> tuple[Interval, ...]:
    """Return the same set of numbers as few intervals in rising order."""
    result: list[Interval] = []
    for interval in sorted(intervals):
        if interval.low >= interval.high:
            continue
        if result and interval.low <= result[-1].high:
            result[-1] = Interval(result[-1].low, max(result[-1].high, interval.high))
        else:
            result.append(interval)
    return tuple(result)


def complement(intervals: Iterable[Interval]) -> tuple[Interval, ...]:
    """Return every number that is in none of the intervals."""
    gaps, low = [], EVERYTHING.low
    for interval in merged(intervals):
        gaps.append(Interval(low, interval.low))
        low = interval.high
    gaps.append(Interval(low, EVERYTHING.high))
    return merged(gaps)


@dataclass(frozen=True, slots=True)
class OneOf:
    """One of these words; each is a word of its fact, folded. Never empty."""

    words: frozenset[str]


@dataclass(frozen=True, slots=True)
class Within:
    """A number in one of these intervals, in the fact's stored unit. Merged, never empty."""

    intervals: tuple[Interval, ...]


@dataclass(frozen=True, slots=True)
class ScatterWithin:
    """Like `Within`, in multiples of the player's own sideways scatter."""

    intervals: tuple[Interval, ...]


class Absent(StrEnum):
    """Why there is no value: nobody saw it (any value is possible), or there is none."""

    NOT_SEEN = "not seen"
    NOT_APPLICABLE = "not applicable"


NOT_SEEN = Absent.NOT_SEEN
NOT_APPLICABLE = Absent.NOT_APPLICABLE

Allowed = OneOf | Within | ScatterWithin
Known = OneOf | Within | Absent


def word(name: str) -> OneOf:
    """Return the set that holds one word."""
    return OneOf(frozenset((name,)))


def number(value: float) -> Within:
    """Return the set that holds one number."""
    return Within((point(value),))
