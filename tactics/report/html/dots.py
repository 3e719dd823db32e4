"""A share as a dot with its interval, and the same in words; nothing is drawn below ten balls."""

from dataclasses import dataclass

from tactics.report.rates import percent, rate_words
from tactics.review.rates import Rate, Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """Places on a scale of 0 to 100."""

    low: int
    at: int
    high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownRate:
    """A share in words and as a dot; dot: None where there are too few balls."""

    says: str
    dot: Dot | None


def shown_rate(rate: Rate) -> ShownRate:
    """Return how a share is shown."""
    if rate.standing is Standing.NOT_ENOUGH:
        return ShownRate(says=rate_words(rate), dot=None)
    return ShownRate(says=rate_words(rate), dot=dot_at(rate.share, rate.interval))


def dot_at(share: float, interval: tuple[float, float]) -> Dot:
    """Return a share, 0 to 1, and its interval as places on the scale."""
    low, high = interval
    return Dot(low=percent(low), at=percent(share), high=percent(high))
