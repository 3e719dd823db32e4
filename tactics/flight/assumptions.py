"""What the estimate of a point assumes: a set of numbers, their ranges, and fixed draws."""

from dataclasses import dataclass, fields
from functools import cache
from math import sqrt
from typing import Final

import numpy as np

from tactics.flight.constants import DRAG
from tactics.flight.normal import Array, Index
from tactics.flight.running import REACH_M, SPLIT_STEP, STROKE_END_S
from tactics.flight.scatter import LATE_FACTOR, LATE_PACE_SHARE, PACE_GROWTH

DRAWS: Final = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumptions:
    """The free numbers of the exchange; the defaults are the middle of what is believed.

    `spread_time_s` blurs who reaches what, `set_spare_s` is the time to spare from which a ball is
    met set, `late_*` hold at no time to spare, `loss_when_late` and `gain_from_attack` move the
    chance of the hitter's answer; scatter and reaction are added to those of the levels.
    """

    reach_m: float = REACH_M
    split_step: float = SPLIT_STEP
    stroke_end_s: float = STROKE_END_S
    reaction_shift_s: float = 0.0
    hitter_scatter: float = 1.0
    opponent_scatter: float = 1.0
    drag: float = DRAG.value
    loss_when_late: float = 0.22
    spread_time_s: float = 0.15
    set_spare_s: float = 0.35
    late_factor: float = LATE_FACTOR
    late_pace_cap: float = 0.85
    late_pace_share: float = LATE_PACE_SHARE
    pace_growth: float = PACE_GROWTH
    gain_from_attack: float = 0.15


SET_PACE_CAP: Final = 1.15  # share of rally pace a set opponent hits at most

RANGES: Final = {
    "reach_m": (1.0, 1.35),
    "split_step": (0.80, 0.95),
    "stroke_end_s": (0.20, 0.40),
    "reaction_shift_s": (-0.06, 0.06),
    "hitter_scatter": (0.7, 1.3),
    "opponent_scatter": (0.7, 1.3),
    "drag": (DRAG.low, DRAG.high),
    "loss_when_late": (0.12, 0.32),
    "spread_time_s": (0.10, 0.20),
    "set_spare_s": (0.25, 0.50),
    "late_factor": (1.3, 2.0),
    "late_pace_cap": (0.75, 0.95),
    "late_pace_share": (0.75, 0.95),
    "pace_growth": (0.0, 2.0),
    "gain_from_attack": (0.05, 0.25),
}

MIDDLE: Final = Assumptions()

# Multiples of irrational square roots fill the unit interval evenly; these fifteen were picked so
# that no two columns of 40 draws are correlated by more than 0.23.
_ROOTS_OF: Final = (53, 37, 22, 7, 67, 3, 46, 34, 42, 26, 29, 79, 59, 47, 15)

SPOKEN: Final = (
    "an estimate: good for putting shots in order, not a forecast",
    "both players hit, run and react as their level does; each number varied over its likely range",
    "the opponent sees where you stand and picks the best reply; balls going out are left",
    "no disguise, no tiredness, no score, no strong or weak wing",
)
SPOKEN_IN_WIND: Final = "wind bends your shot, not the replies"
SPOKEN_IN_DOUBLES: Final = "the two partners are left out"
SPOKEN_ON_SMALL_COURTS: Final = "the balance between shots was set on the full court"


@cache
def drawn_assumptions(count: int = DRAWS) -> tuple[Assumptions, ...]:
    """That many sets from the ranges, the same on every call: each number in even steps.

    A Latin hypercube whose orders come from irrational multiples instead of a random generator.
    """
    names = [each.name for each in fields(Assumptions)]
    columns = [
        _even_steps(*RANGES[name], order) for name, order in zip(names, _orders(count), strict=True)
    ]
    rows = np.array(columns).T
    return tuple(
        Assumptions(**dict(zip(names, (float(each) for each in row), strict=True))) for row in rows
    )


def _orders(count: int) -> list[Index]:
    steps = np.arange(1, count + 1)
    return [np.argsort(np.argsort((steps * sqrt(root)) % 1.0)) for root in _ROOTS_OF]


def _even_steps(low: float, high: float, order: Index) -> Array:
    values: Array = low + (high - low) * (order + 0.5) / len(order)
    return values
