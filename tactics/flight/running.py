"""How far a player runs in a time, and how long a distance takes."""

from functools import cache
from typing import Final

import numpy as np
import numpy.typing as npt

from tactics.flight.levels import Level
from tactics.flight.normal import Array

SPLIT_STEP: Final = 0.87  # share of the run time left after a split step (2.70 m: 13.1 % faster)
REACH_M: Final = 1.20  # assumption, 1.0-1.35
STROKE_END_S: Final = 0.25  # from contact to the first recovery step; assumption, 0.2-0.4

_TABLE_STEPS: Final = 4096
_TABLE_END: Final = 8.0  # square root of distance over (top speed x time constant)


def run_distance_m(time_s: npt.ArrayLike, level: Level) -> Array:
    """Metres covered from a standing start in that time; 0 before the start."""
    constant_s = level.top_speed_ms / level.acceleration_ms2
    running = np.maximum(np.asarray(time_s, dtype=np.float64), 0.0)
    covered: Array = level.top_speed_ms * (running + constant_s * np.expm1(-running / constant_s))
    return covered


def run_time_s(distance_m: npt.ArrayLike, level: Level) -> Array:
    """Seconds a standing start needs for that distance: the inverse of `run_distance_m`."""
    return run_time(distance_m, level.acceleration_ms2, level.top_speed_ms)


def run_time(distance_m: npt.ArrayLike, acceleration_ms2: float, top_speed_ms: float) -> Array:
    """As `run_time_s`, from the two numbers of the run; within 1e-6 s of the exact inverse."""
    constant_s = top_speed_ms / acceleration_ms2
    scaled = np.maximum(np.asarray(distance_m, dtype=np.float64), 0.0)
    place = np.sqrt(scaled * (1.0 / (top_speed_ms * constant_s))) * (_TABLE_STEPS / _TABLE_END)
    place = np.minimum(place, _TABLE_STEPS - 1e-6)
    low = np.fmax(place, 0.0).astype(np.int32)  # nan stays nan through `place`
    table, slope = _inverse_table()
    time: Array = constant_s * (table.take(low) + (place - low) * slope.take(low))
    return time


@cache
def _inverse_table() -> tuple[Array, Array]:
    """Scaled time x with x - 1 + exp(-x) = u^2 on an even grid of u, and its differences."""
    target = np.linspace(0.0, _TABLE_END, _TABLE_STEPS + 1) ** 2
    time = target + np.sqrt(2.0 * target)
    for _ in range(60):
        gap = time + np.expm1(-time) - target
        time = np.maximum(time - gap / np.maximum(-np.expm1(-time), 1e-9), 0.0)
    time[0] = 0.0
    return time, np.diff(time)
