"""A grid of shots for one moment, and the best handful of them."""

from dataclasses import dataclass
from itertools import product
from typing import Final

import numpy as np

from tactics.flight.estimate import central_values, point_values
from tactics.flight.exchange import Exchanges, exchanges
from tactics.flight.launch import Aim, aim
from tactics.flight.moment import Moment
from tactics.flight.motion import Array
from tactics.flight.normal import Index, Mask
from tactics.flight.point import PointOrder, order_of
from tactics.flight.shares import QUICK_POWER
from tactics.flight.shots import Contact, Shots
from tactics.flight.strike import Strike

SHORTLIST: Final = 12
MOST_PACE: Final = 1.2  # of the level's rally pace (or of its first serve)
_ACROSS: Final = (-0.76, -0.5, 0.0, 0.5, 0.76)  # of half the court's width
_INSIDE_BASELINE_M: Final = (1.5, 2.5, 3.5, 4.485)  # the last a metre behind the service line
_HEIGHTS_M: Final = (0.3, 0.6, 1.0, 1.5, 2.2, 3.2, 4.2, 5.2)
_HEIGHTS_FLOWN: Final = 6  # the lowest that the level has the pace for
_LOB_HEIGHTS_M: Final = (4.5, 6.0)
_HEAVY_RPM: Final = 900.0  # more topspin than the rally ball
_SLICE_RPM: Final = -1200.0
_DROP_M: Final = ((0.3, 0.6), 2.3)  # heights over the net, landing depth
_SHORT_ANGLE: Final = (0.8, 6.2, (0.3, 0.7))  # of half the width, landing depth, heights
_IN_BOX_ACROSS: Final = (0.1, 0.3, 0.5, 0.7, 0.89)  # of the box's width, from the centre line
_IN_BOX_DEEP_M: Final = (0.6, 1.0, 1.5)  # inside the service line
_SERVE_PACES: Final = (0.7, 0.78, 0.86, 0.93, 1.0)  # of the level's flat first serve
_SERVE_SPINS_RPM: Final = ((500.0, 0.0), (900.0, 2000.0), (2400.0, 1200.0), (1200.0, 1200.0))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Grid:
    """n candidate shots that can be played, with the places they are aimed at (m)."""

    shots: Shots
    target_x_m: Array
    target_y_m: Array

    def only(self, which: Index | Mask) -> "Grid":
        """The candidates picked by a mask or by indices."""
        return Grid(
            shots=self.shots.only(which),
            target_x_m=self.target_x_m[which],
            target_y_m=self.target_y_m[which],
        )


def candidate_grid(moment: Moment, *, server_curves_left: bool = True) -> Grid:
    """At least 300 shots over direction, depth, height over the net and spin; the pace follows.

    Drives, lobs, drop shots and short angles; what needs more pace than the level has cannot be
    played. For a serve: targets in the box by pace and spin, with side spin to the left (a
    right-hander's) or to the right, and the height follows.
    """
    if moment.is_serve:
        return _served(moment, 1.0 if server_curves_left else -1.0)
    rows = np.array(_rally_shots(moment, _first_height(moment)))
    done, playable = _flown(moment, rows)
    x, y, _, spin = rows.T
    return _grid(moment.contact, x, y, spin, np.zeros_like(spin), done, playable)


def _flown(moment: Moment, rows: Array) -> tuple[Aim, Mask]:
    """The launches of rows of target x, y, height and topspin, and which the level has."""
    x, y, height, spin = rows.T
    done = aim(
        _strike(moment.contact, spin, np.zeros_like(spin)),
        target_x_m=x,
        height_over_net_m=height,
        landing_y_m=y,
        court=moment.venue.court,
        air=moment.venue.air,
    )
    return done, done.is_possible & (done.pace_ms <= MOST_PACE * moment.hitter_pace_ms)


def _first_height(moment: Moment) -> int:
    """Number of the lowest height at which a ball to the middle is within the level's pace."""
    along = moment.venue.length_scale
    depth = moment.venue.court.half_length_m - _INSIDE_BASELINE_M[1] * along
    spin = moment.hitter.rally_spin_rpm
    _, playable = _flown(
        moment, np.array([(0.0, depth, height * along, spin) for height in _HEIGHTS_M])
    )
    last = len(_HEIGHTS_M) - _HEIGHTS_FLOWN
    return min(int(playable.argmax()), last) if playable.any() else last


def _rally_shots(moment: Moment, first: int) -> list[tuple[float, float, float, float]]:
    """Target x, target y, height over the net (m) and topspin (rpm) of each candidate."""
    heights = [height * moment.venue.length_scale for height in _HEIGHTS_M]
    venue, rally_spin = moment.venue, moment.hitter.rally_spin_rpm
    half, length, along = venue.court.half_width_m, venue.court.half_length_m, venue.length_scale
    depths = [length - inside * along for inside in _INSIDE_BASELINE_M]
    spins = (rally_spin, rally_spin + _HEAVY_RPM, _SLICE_RPM)
    sides = [share * half for share in _ACROSS]
    rows = list(product(sides, depths, heights[first : first + _HEIGHTS_FLOWN], spins))
    rows += product(sides, depths[1:2], _LOB_HEIGHTS_M, (rally_spin,))
    drop_heights, drop_depth = _DROP_M
    rows += product(sides, (drop_depth * along,), drop_heights, (_SLICE_RPM,))
    share, depth, low = _SHORT_ANGLE
    rows += product((-share * half, share * half), (depth * along,), low, spins[1:2])
    return rows


def _served(moment: Moment, curve: float) -> Grid:
    venue, box = moment.venue, moment.box
    outer = box.x_high_m if abs(box.x_high_m) > abs(box.x_low_m) else box.x_low_m
    rows = [
        (across * outer, box.y_high_m - deep, share * moment.hitter.serve_pace_ms, *spin)
        for across, deep, share, spin in product(
            _IN_BOX_ACROSS, _IN_BOX_DEEP_M, _SERVE_PACES, _SERVE_SPINS_RPM
        )
    ]
    x, y, pace, topspin, side = np.array(rows).T
    done = aim(
        _strike(moment.contact, topspin, curve * side),
        target_x_m=x,
        pace_ms=pace,
        landing_y_m=y,
        court=venue.court,
        air=venue.air,
    )
    return _grid(moment.contact, x, y, topspin, curve * side, done, done.is_possible)


def _strike(contact: Contact, topspin_rpm: Array, sidespin_rpm: Array) -> Strike:
    return Strike(
        x_m=contact.x_m,
        y_m=-contact.depth_m,
        z_m=contact.height_m,
        topspin_rpm=topspin_rpm,
        sidespin_rpm=sidespin_rpm,
    )


def _grid(
    contact: Contact,
    x: Array,
    y: Array,
    topspin: Array,
    sidespin: Array,
    done: Aim,
    playable: Mask,
) -> Grid:
    shots = Shots(
        contact=contact,
        pace_ms=np.where(playable, done.pace_ms, np.nan),
        elevation_deg=np.where(playable, done.elevation_deg, np.nan),
        azimuth_deg=np.where(playable, done.azimuth_deg, np.nan),
        topspin_rpm=topspin,
        sidespin_rpm=sidespin,
    )
    return Grid(shots=shots, target_x_m=x, target_y_m=y).only(np.flatnonzero(playable))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Best:
    """The short list of a moment: candidates, their numbers, and their order (see `point.py`)."""

    candidates: Grid
    exchanges: Exchanges
    order: PointOrder


def fly_grid(grid: Grid, moment: Moment) -> Exchanges:
    """Shares (to about half a point) and both players' time to spare for the whole grid."""
    return exchanges(grid.shots, moment, QUICK_POWER)


def shortlist(grid: Grid, flown: Exchanges, moment: Moment, count: int = SHORTLIST) -> Index:
    """Numbers of the most promising candidates: share in, times the worth of the ball as aimed."""
    promise = flown.shares.into_court * central_values(grid.shots, moment)
    return np.argsort(-promise, kind="stable")[:count]


def best(moment: Moment, count: int = SHORTLIST, *, server_curves_left: bool = True) -> Best:
    """The most promising shots of the moment, in the order of the full estimate."""
    grid = candidate_grid(moment, server_curves_left=server_curves_left)
    flown = fly_grid(grid, moment)
    chosen = grid.only(shortlist(grid, flown, moment, count))
    return Best(
        candidates=chosen,
        exchanges=exchanges(chosen.shots, moment),
        order=order_of(point_values(chosen.shots, moment).chance),
    )
