"""A share of balls, how far chance may have moved it, and how much it can be trusted."""

from dataclasses import dataclass
from enum import StrEnum
from math import sqrt

SMALLEST_N = 10
PATTERN_N = 30
PATTERN_LESSONS = 3
_DECIMALS = 12
Z_95 = 1.959964
"""Normal quantile of a two-sided 95 % interval."""


class Standing(StrEnum):
    """What may be said about a share."""

    NOT_ENOUGH = "not enough balls yet"
    EARLY_SIGN = "early sign"
    PATTERN = "pattern"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """`count` of `n` balls, seen in so many lessons."""

    count: int
    n: int
    lessons: int

    @property
    def standing(self) -> Standing:
        """Return what may be said: nothing below 10 balls, a pattern from 30 over 3 lessons."""
        if self.n < SMALLEST_N:
            return Standing.NOT_ENOUGH
        if self.n < PATTERN_N or self.lessons < PATTERN_LESSONS:
            return Standing.EARLY_SIGN
        return Standing.PATTERN

    @property
    def share(self) -> float:
        """Return the share, 0 to 1; only with at least one ball."""
        return self.count / self.n

    @property
    def interval(self) -> tuple[float, float]:
        """Return the Wilson 95 % interval of the share, 0 to 1."""
        return wilson(self.count, self.n)


def wilson(count: int, n: int) -> tuple[float, float]:
    """Return the 95 % score interval of a share (Wilson 1927); (0, 1) where n is 0.

    It takes balls as independent. Balls of one lesson are not quite, so the truth is wider.
    """
    if not n:
        return (0.0, 1.0)
    share, z2 = count / n, Z_95 * Z_95
    middle = (share + z2 / (2 * n)) / (1 + z2 / n)
    half = Z_95 / (1 + z2 / n) * sqrt(share * (1 - share) / n + z2 / (4 * n * n))
    low, high = round(middle - half, _DECIMALS), round(middle + half, _DECIMALS)
    return (max(0.0, low), min(1.0, high))
