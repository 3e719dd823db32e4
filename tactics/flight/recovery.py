"""Where to be when the opponent hits, and whether there is time to get there."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from tactics.flight.levels import Level
from tactics.flight.normal import Array
from tactics.flight.running import STROKE_END_S, run_distance_m, run_time_s
from tactics.flight.venue import Venue


def recovery_x_m(
    opponent_x_m: npt.ArrayLike,
    opponent_y_m: npt.ArrayLike,
    depth_m: npt.ArrayLike,
    venue: Venue,
) -> Array:
    """The x on the hitter's line at `depth_m` from the net that halves the opponent's angle.

    The fan is bounded by the straight lines from the opponent's contact (y > 0) through both
    baseline corners and through both sideline points one metre behind the service line,
    whichever is further out at that depth. Inputs broadcast.
    """
    x, y = np.asarray(opponent_x_m, dtype=np.float64), np.asarray(opponent_y_m, dtype=np.float64)
    depth = np.asarray(depth_m, dtype=np.float64)
    half = venue.court.half_width_m
    short = venue.service_line_m + venue.length_scale
    # who stands inside the court meets the deep ball before the baseline
    deep = np.minimum(venue.court.half_length_m, np.maximum(depth, short))
    across = depth + y
    right = np.maximum(_cut(x, y, half, deep, depth), _cut(x, y, half, short, depth))
    left = np.minimum(_cut(x, y, -half, deep, depth), _cut(x, y, -half, short, depth))
    middle = 0.5 * (np.arctan((right - x) / across) + np.arctan((left - x) / across))
    place: Array = x + across * np.tan(middle)
    return place


def _cut(x: Array, y: Array, mark_x: float, mark_depth: Array | float, depth: Array) -> Array:
    """Where the line from the opponent through a mark crosses the hitter's line."""
    cut: Array = x + (mark_x - x) * (depth + y) / (mark_depth + y)
    return cut


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovery:
    """The way home after a shot: the right place (m), the run there (m) and the time left (s).

    `covered_m` is how much of the run is done when the opponent hits; a negative `spare_s` is lack.
    """

    x_m: float
    depth_m: float
    run_m: float
    covered_m: float
    spare_s: float

    @property
    def short_m(self) -> float:
        """Metres still to go when the opponent hits; 0 when the hitter is home."""
        return max(0.0, self.run_m - self.covered_m)


def recovery(
    *,
    from_x_m: float,
    from_depth_m: float,
    opponent_x_m: float,
    opponent_y_m: float,
    time_s: float,
    depth_m: float,
    level: Level,
    venue: Venue,
    stroke_end_s: float = STROKE_END_S,
) -> Recovery:
    """The recovery after a shot which the opponent meets after `time_s` at (x, y > 0).

    Depths are distances from the net on the hitter's side; the run is a straight line.
    """
    x = float(recovery_x_m(opponent_x_m, opponent_y_m, depth_m, venue))
    run = float(np.hypot(x - from_x_m, depth_m - from_depth_m))
    running_s = time_s - stroke_end_s
    return Recovery(
        x_m=x,
        depth_m=depth_m,
        run_m=run,
        covered_m=min(run, float(run_distance_m(running_s, level))),
        spare_s=running_s - float(run_time_s(run, level)),
    )
