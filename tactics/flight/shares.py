"""Aim and scatter to shares of balls in, in the net, long and wide, without random draws.

A full quadratic in the four errors is fitted to 33 flights of each shot and evaluated at fixed
quasi-random points; against direct simulation it is good to 0.3 points.
"""

from dataclasses import dataclass
from functools import cache
from itertools import combinations
from typing import Final

import numpy as np
import numpy.typing as npt

from tactics.flight.constants import FOOTPRINT
from tactics.flight.court import Box
from tactics.flight.normal import Array, Mask, quasi_normals
from tactics.flight.shots import Shots, Spread
from tactics.flight.trajectory import clearance_m, fly
from tactics.flight.venue import Venue

FINE_POWER: Final = 12  # 2**12 points and their mirror images: 8192 balls a shot
QUICK_POWER: Final = 9
SINK_M: Final = -8.0  # a ball that dies before the net still gets a (negative) height over it
_STEP_S: Final = 0.1  # lands within half a millimetre: far finer than the fit needs
_AXIS_STEP: Final = 1.8
_PAIR_STEP: Final = 1.4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shares:
    """For n shots the shares (0 to 1, adding to 1) of balls; nan where there is no shot.

    `sd_depth_m` and `sd_sideways_m` are the spreads of the landing place.
    """

    into_court: Array
    into_net: Array
    long: Array
    wide: Array
    sd_depth_m: Array
    sd_sideways_m: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ErrorSurface:
    """Landing x and y and height over the net as full quadratics in the four errors.

    `coefficients` has shape (3, 15, n).
    """

    coefficients: Array

    def at(self, normals: Array) -> npt.NDArray[np.float32]:
        """Values (3, m, n) at the errors `normals` (m, 4), in single precision."""
        features = _features(normals).astype(np.float32)
        return np.asarray(features @ self.coefficients.astype(np.float32))


def error_surface(shots: Shots, spread: Spread, venue: Venue) -> ErrorSurface:
    """The quadratics of n shots, from 33 flights each."""
    design, solver = _design()
    flight = fly(
        shots.scattered(design, spread),
        ball=venue.ball,
        air=venue.air,
        sink_to_m=SINK_M,
        step_s=_STEP_S,
    )
    x, y, _ = flight.landing.position_m
    seen = np.stack([x, y, clearance_m(flight.crossing, venue.court)])
    return ErrorSurface(
        coefficients=solver @ seen.reshape(3, len(shots), len(design)).swapaxes(1, 2)
    )


def shares_of_balls(
    shots: Shots, spread: Spread, venue: Venue, box: Box, power: int = FINE_POWER
) -> Shares:
    """Shares of n shots that land in the box; a ball that misses it twice counts once.

    The order is net, long, wide; `power` sets the number of points, 2**(power + 1).
    """
    x, y, clearance = error_surface(shots, spread, venue).at(mirrored_normals(power))
    clears = (clearance >= 0.0) & (y > 0.0)
    short_enough = clears & (y <= np.float32(box.y_high_m + FOOTPRINT.value))
    reach = np.float32(FOOTPRINT.value)
    inside = short_enough & (x >= box.x_low_m - reach) & (x <= box.x_high_m + reach)
    over, not_long, in_box = (_share(each) for each in (clears, short_enough, inside))
    none = np.where(shots.exists, 0.0, np.nan)
    return Shares(
        into_court=in_box + none,
        into_net=1.0 - over + none,
        long=over - not_long + none,
        wide=not_long - in_box + none,
        sd_depth_m=y.std(axis=0, dtype=np.float64),
        sd_sideways_m=x.std(axis=0, dtype=np.float64),
    )


def _share(hits: Mask) -> Array:
    share: Array = np.count_nonzero(hits, axis=0) / hits.shape[0]
    return share


@cache
def mirrored_normals(power: int) -> Array:
    """2**power fixed points and as many with the sideways error mirrored, shape (2**(power+1), 4).

    The mirror images make left and right exactly alike.
    """
    points = quasi_normals(power)
    both = np.concatenate([points, points * np.array([1.0, -1.0, 1.0, 1.0])])
    both.setflags(write=False)
    return both


def _features(normals: Array) -> Array:
    """1, the four errors and their ten products, shape (m, 15)."""
    columns = [np.ones(len(normals)), *normals.T]
    pairs = [(i, j) for i in range(4) for j in range(i, 4)]
    columns += [normals[:, i] * normals[:, j] for i, j in pairs]
    return np.stack(columns, axis=1)


@cache
def _design() -> tuple[Array, Array]:
    """The 33 errors flown (33, 4) and the least-squares solver (15, 33)."""
    rows = [np.zeros(4)]
    rows += [sign * _AXIS_STEP * np.eye(4)[axis] for axis in range(4) for sign in (1.0, -1.0)]
    for first, second in combinations(range(4), 2):
        for one in (1.0, -1.0):
            for other in (1.0, -1.0):
                rows.append(_PAIR_STEP * (one * np.eye(4)[first] + other * np.eye(4)[second]))
    design = np.array(rows)
    return design, np.asarray(np.linalg.pinv(_features(design)), dtype=np.float64)
