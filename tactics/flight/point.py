"""Who wins the point: an order of shots, and ranges that say how far it can be trusted.

First `point_order` (fast), then `drawn_values` one by one (so that progress can be shown), then
`point_ranges`. A single value is never handed out without its range and its assumptions.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from tactics.flight.assumptions import (
    SPOKEN,
    SPOKEN_IN_DOUBLES,
    SPOKEN_IN_WIND,
    SPOKEN_ON_SMALL_COURTS,
    drawn_assumptions,
)
from tactics.flight.estimate import FINE_POWER, point_values
from tactics.flight.moment import Moment
from tactics.flight.motion import Array
from tactics.flight.shots import Shots

SURVIVES: Final = 0.8  # an order that holds in fewer draws is no difference
STEP_POINTS: Final = 5  # estimates are spoken in steps of this many points
RANGE_POWER: Final = 4  # 32 balls a shot and draw
RANGE_SAMPLE_S: Final = 0.2
TIE: Final = 0.01  # with 128 balls one ball is 0.8 points


@dataclass(frozen=True, slots=True, kw_only=True)
class PointOrder:
    """Shots from best to worst by the middle assumptions: their numbers, no values.

    `behind_points` says how far each is behind the best, in steps of five points of a hundred;
    `tied_with_best` are those within one point. Shots that cannot be played are left out.
    """

    numbers: tuple[int, ...]
    behind_points: tuple[int, ...]
    tied_with_best: tuple[int, ...]


def point_order(shots: Shots, moment: Moment, power: int = FINE_POWER) -> PointOrder:
    """The order of n shots from one moment, all flown with the same errors."""
    return order_of(point_values(shots, moment, power=power).chance)


def order_of(chance: Array) -> PointOrder:
    """The order of n estimated chances (nan: no shot)."""
    known = np.flatnonzero(~np.isnan(chance))
    ranked = known[np.argsort(-chance[known], kind="stable")]
    if not ranked.size:
        return PointOrder(numbers=(), behind_points=(), tied_with_best=())
    gaps = chance[ranked[0]] - chance[ranked]
    return PointOrder(
        numbers=tuple(int(each) for each in ranked),
        behind_points=tuple(_in_steps(each) for each in gaps),
        tied_with_best=tuple(
            int(number) for number, gap in zip(ranked, gaps, strict=True) if gap <= TIE
        ),
    )


def drawn_values(
    shots: Shots,
    moment: Moment,
    *,
    power: int = RANGE_POWER,
    sample_s: float = RANGE_SAMPLE_S,
) -> Iterator[Array]:
    """Chances (n,) of the shots under each set of drawn assumptions, one set at a time."""
    for assumed in drawn_assumptions():
        yield point_values(shots, moment, assumed, power=power, sample_s=sample_s).chance


@dataclass(frozen=True, slots=True, kw_only=True)
class PointRange:
    """Chance to win the point of one shot as 10th and 90th percentile of the draws, in percent.

    Rounded to five points; `assumptions` belong to it and are shown with it.
    """

    low_pct: int
    high_pct: int
    assumptions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """How often the first of two shots is the better one over all draws, and by how much.

    `low_points`, `high_points` are the 10th and 90th percentile of the difference.
    """

    share_first: float
    low_points: int
    high_points: int

    @property
    def survives(self) -> bool:
        """Whether there is a difference worth saying, either way."""
        return max(self.share_first, 1.0 - self.share_first) >= SURVIVES


def point_ranges(draws: Iterable[Array], moment: Moment) -> tuple[PointRange | None, ...]:
    """Ranges of n shots from their drawn values; None for a shot that cannot be played."""
    values, assumptions = np.stack(list(draws)), spoken_assumptions(moment)
    return tuple(_range(column, assumptions) for column in values.T)


def spoken_assumptions(moment: Moment) -> tuple[str, ...]:
    """What every estimate of this moment takes for granted, in words."""
    air, court = moment.venue.air, moment.venue.court
    also = {
        SPOKEN_IN_WIND: air.wind_across_ms != 0.0 or air.wind_along_ms != 0.0,
        SPOKEN_IN_DOUBLES: court.half_width_m > court.service_half_width_m,
        SPOKEN_ON_SMALL_COURTS: moment.venue.length_scale < 1.0,
    }
    return SPOKEN + tuple(words for words, applies in also.items() if applies)


def compare_shots(draws: Sequence[Array], first: int, second: int) -> Comparison | None:
    """The order of two shots over the draws; None where one of them cannot be played.

    A draw in which both are exactly equal counts half for each.
    """
    values = np.stack(list(draws))
    gap = values[:, first] - values[:, second]
    if np.isnan(gap).any():
        return None
    low, high = np.percentile(gap, (10.0, 90.0))
    return Comparison(
        share_first=float(np.mean(gap > 0.0) + 0.5 * np.mean(gap == 0.0)),
        low_points=_in_steps(low),
        high_points=_in_steps(high),
    )


def _range(values: Array, assumptions: tuple[str, ...]) -> PointRange | None:
    if np.isnan(values).any():
        return None
    low, high = np.percentile(values, (10.0, 90.0))
    return PointRange(low_pct=_in_steps(low), high_pct=_in_steps(high), assumptions=assumptions)


def _in_steps(share: float) -> int:
    return STEP_POINTS * round(100.0 * float(share) / STEP_POINTS)


def serve_chance(first: Array, first_in: Array, second: Array) -> Array:
    """Chance with two serves: the first, or the second after a fault; arrays broadcast."""
    return first + (1.0 - first_in) * second
