"""Two shares side by side: intervals of a difference, tails, and many comparisons at once."""

from collections.abc import Sequence
from math import erfc, sqrt

from tactics.review.exact import beta_share
from tactics.review.rates import Z_95

CHANCE = 0.05
"""A finding that chance alone would bring less often than this counts as beyond chance."""
_Z_POWER_80 = 0.841621
"""Normal quantile of a chance of 80 % to see what is really there."""


def wilson_of(share: float, n: float) -> tuple[float, float]:
    """Return the 95 % score interval (Wilson 1927) of a share; n need not be whole, 0 gives all."""
    if n <= 0:
        return (0.0, 1.0)
    z2 = Z_95 * Z_95
    middle = (share + z2 / (2 * n)) / (1 + z2 / n)
    half = Z_95 / (1 + z2 / n) * sqrt(share * (1 - share) / n + z2 / (4 * n * n))
    return (max(0.0, middle - half), min(1.0, middle + half))


def newcombe(before: float, n_before: float, after: float, n_after: float) -> tuple[float, float]:
    """Return the 95 % interval of after - before (Newcombe 1998, method 10), -1 to 1."""
    low_b, high_b = wilson_of(before, n_before)
    low_a, high_a = wilson_of(after, n_after)
    change = after - before
    return (
        max(-1.0, change - sqrt((after - low_a) ** 2 + (high_b - before) ** 2)),
        min(1.0, change + sqrt((high_a - after) ** 2 + (before - low_b) ** 2)),
    )


def chance_of_more(share: float, n: float, rest: float, n_rest: float) -> float:
    """Return how often chance alone lifts `share` so far above `rest`, 0 to 1.

    Exact tail of a binomial share (fractional n by the incomplete beta function) against a rest
    that is itself uncertain: it is taken half a standard error too high, on the safe side.
    """
    if n <= 0 or n_rest <= 0 or share <= rest:
        return 1.0
    middle = (rest * n_rest + 0.5) / (n_rest + 1)
    safe = min(1.0, middle + sqrt(middle * (1 - middle) / n_rest) / 2)
    return beta_share(max(share * n, 1e-9), n - share * n + 1, safe)


def chance_of_change(before: float, n_before: float, after: float, n_after: float) -> float:
    """Return how often chance alone moves a share so far, either way (pooled score test)."""
    if n_before <= 0 or n_after <= 0:
        return 1.0
    pooled = (before * n_before + after * n_after) / (n_before + n_after)
    error = sqrt(pooled * (1 - pooled) * (1 / n_before + 1 / n_after))
    return 1.0 if error == 0 else erfc(abs(after - before) / error / sqrt(2))


def holm(chances: Sequence[float]) -> tuple[float, ...]:
    """Return the chances as they stand when all were looked at together (Holm 1979).

    A finding may then be called beyond chance when its number is below `CHANCE`, and the chance
    that even one of them is false stays below it too.
    """
    order = sorted(range(len(chances)), key=lambda place: chances[place])
    adjusted = [1.0] * len(chances)
    least = 0.0
    for rank, place in enumerate(order):
        least = max(least, min(1.0, (len(chances) - rank) * chances[place]))
        adjusted[place] = least
    return tuple(adjusted)


def balls_needed(before: float, after: float) -> int:
    """Return the balls in each period that show such a change in 4 seasons of 5 (two-sided 5 %).

    Balls are taken as independent; multiply by the design effect of the lessons.
    """
    middle = (before + after) / 2
    flat = Z_95 * sqrt(2 * middle * (1 - middle))
    slope = _Z_POWER_80 * sqrt(before * (1 - before) + after * (1 - after))
    return -int(-((flat + slope) ** 2) // (after - before) ** 2)
