"""Exact intervals of a share (Clopper and Pearson 1934), from the incomplete beta function."""

from collections.abc import Callable
from functools import lru_cache
from math import exp, lgamma, log

_TAIL = 0.025
_TINY = 1e-300
_STEPS = 60
_MOST_TERMS = 10_000
_CLOSE = 1e-14


@lru_cache(maxsize=4096)
def exact_interval(count: int, n: int) -> tuple[float, float]:
    """Return the exact 95 % interval of a share; (0, 1) where n is 0.

    Each end leaves 2.5 % at most. It takes balls as independent, which balls of one lesson are
    not quite, so the truth is wider.
    """
    low = 0.0 if count == 0 else _where(lambda p: at_least(count, n, p) >= _TAIL)
    high = 1.0 if count == n else _where(lambda p: at_least(count + 1, n, p) >= 1 - _TAIL)
    return low, high


def at_least(count: int, n: int, p: float) -> float:
    """Return the probability of `count` or more of `n`, each with probability `p`; count >= 1."""
    return beta_share(count, n - count + 1, p)


def _where(is_above: Callable[[float], bool]) -> float:
    """Return the probability at which a rising test turns true, by halving."""
    low, high = 0.0, 1.0
    for _ in range(_STEPS):
        middle = (low + high) / 2
        low, high = (low, middle) if is_above(middle) else (middle, high)
    return (low + high) / 2


def beta_share(a: float, b: float, x: float) -> float:
    """Return the regularised incomplete beta function, 0 to 1; a and b above 0."""
    if x <= 0.0 or x >= 1.0:
        return min(1.0, max(0.0, x))
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log(1.0 - x))
    if x < (a + 1.0) / (a + b + 2.0):
        return front * _fraction(a, b, x) / a
    return 1.0 - front * _fraction(b, a, 1.0 - x) / b


def _fraction(a: float, b: float, x: float) -> float:
    """Return the continued fraction of the incomplete beta function, front to back.

    The product form keeps numerator and denominator apart from nought (Thompson and Barnett 1986).
    """
    upper, lower = 1.0, _off_nought(1.0 - (a + b) * x / (a + 1.0))
    lower = 1.0 / lower
    value = lower
    for m in range(1, _MOST_TERMS):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        change = 1.0
        for term in (even, odd):
            lower = 1.0 / _off_nought(1.0 + term * lower)
            upper = _off_nought(1.0 + term / upper)
            change = lower * upper
            value *= change
        if abs(change - 1.0) < _CLOSE:
            break
    return value


def _off_nought(number: float) -> float:
    return number if abs(number) > _TINY else _TINY
