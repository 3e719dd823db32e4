"""What a number of simulated seasons shows for sure."""

from scipy.stats import beta

SURE = 0.95
"""One-sided: how sure a stated limit is, from the number of seasons that were tried."""


def at_most(count: int, n: int) -> float:
    """Return the share that the truth surely does not exceed (Clopper and Pearson)."""
    return 1.0 if count == n else float(beta.ppf(SURE, count + 1, n - count))


def at_least(count: int, n: int) -> float:
    """Return the share that the truth surely reaches."""
    return 0.0 if not count else float(beta.ppf(1 - SURE, count, n - count + 1))
