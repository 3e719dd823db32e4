"""How much room a shot has: elevations between net and far line, directions between sidelines.

A closed window is said to be closed; its width is no number. The edges are the outer edges of the
lines for the middle of the ball: the footprint that makes a touching ball good is left in reserve.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tactics.flight.constants import STILL_AIR, Air
from tactics.flight.court import FULL_SINGLES, Area, Box, Court
from tactics.flight.launch import first_guess
from tactics.flight.motion import Array
from tactics.flight.search import Search, refine
from tactics.flight.strike import Branch, Goal, Setting, Strike, Turn, set_up


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Window:
    """Lowest and highest angle (n,) in degrees that keep n balls in; nan where there is no shot.

    `needed_deg` is what the lower edge asks for and `allowed_deg` what the upper edge permits, also
    of a closed window, where the first is the larger; nan where the pace meets neither.
    """

    needed_deg: Array
    allowed_deg: Array

    @property
    def is_open(self) -> NDArray[np.bool_]:
        """Whether there is a shot at all, (n,)."""
        return np.asarray(self.allowed_deg > self.needed_deg)

    @property
    def width_deg(self) -> Array:
        """Width (n,) in degrees, nan for no shot."""
        return np.where(self.is_open, self.allowed_deg - self.needed_deg, np.nan)


def vertical_window(
    strike: Strike,
    *,
    pace_ms: ArrayLike,
    azimuth_deg: ArrayLike = 0.0,
    area: Area = Area.COURT,
    court: Court = FULL_SINGLES,
    air: Air = STILL_AIR,
) -> Window:
    """Elevations from just clearing the net to the far line, at a given direction.

    A ball too slow to reach the far line may rise until it comes down on the net from above.
    """
    setting, (pace, azimuth) = set_up(strike, court, air, pace_ms, azimuth_deg)
    turns = np.stack([np.zeros_like(pace), azimuth, pace])
    over, far = np.zeros_like(pace), np.full_like(pace, _far_line_m(court, area))
    needed = _elevation(setting, turns, Goal.HEIGHT_OVER_NET, over, Branch.DRIVE)
    allowed = _elevation(setting, turns, Goal.LANDING_Y, far, Branch.DRIVE)
    short = np.flatnonzero(np.isnan(allowed) & ~np.isnan(needed))
    if short.size:
        few = setting.only(short)
        allowed[short] = _elevation(
            few, turns[:, short], Goal.HEIGHT_OVER_NET, over[short], Branch.LOB
        )
    return Window(needed_deg=needed, allowed_deg=allowed)


def lateral_window(
    strike: Strike,
    *,
    pace_ms: ArrayLike,
    elevation_deg: ArrayLike,
    azimuth_deg: ArrayLike = 0.0,
    area: Area = Area.COURT,
    court: Court = FULL_SINGLES,
    air: Air = STILL_AIR,
) -> Window:
    """Directions from one sideline of the area to the other, at a given elevation."""
    setting, (pace, azimuth, elevation) = set_up(
        strike, court, air, pace_ms, azimuth_deg, elevation_deg
    )
    box = _box(court, area)
    turns = np.stack([elevation, azimuth, pace])
    edges = [
        refine(setting, turns, (Turn.AZIMUTH,), {Goal.LANDING_X: np.full_like(pace, edge)})
        for edge in (box.x_low_m, box.x_high_m)
    ]
    return Window(needed_deg=edges[0][Turn.AZIMUTH], allowed_deg=edges[1][Turn.AZIMUTH])


def closing_pace_ms(
    strike: Strike,
    *,
    azimuth_deg: ArrayLike = 0.0,
    area: Area = Area.COURT,
    court: Court = FULL_SINGLES,
    air: Air = STILL_AIR,
) -> Array:
    """Pace (n,) in m/s from which on no elevation clears the net and stays in; nan for none.

    The ball that grazes the cord and the far line at once.
    """
    setting, (azimuth,) = set_up(strike, court, air, azimuth_deg)
    over, far = np.zeros_like(azimuth), np.full_like(azimuth, _far_line_m(court, area))
    turns = first_guess(setting, azimuth, over, far)
    goals = {Goal.HEIGHT_OVER_NET: over, Goal.LANDING_Y: far}
    return np.asarray(refine(setting, turns, (Turn.ELEVATION, Turn.PACE), goals)[Turn.PACE])


def _elevation(setting: Setting, turns: Array, goal: Goal, wanted: Array, branch: Branch) -> Array:
    search = Search(setting=setting, turns=turns, goal=goal, wanted=wanted, branch=branch)
    guess = turns.copy()
    guess[Turn.ELEVATION] = search.find()
    return np.asarray(refine(setting, guess, (Turn.ELEVATION,), {goal: wanted})[Turn.ELEVATION])


def _box(court: Court, area: Area) -> Box:
    box = court.box(area)
    if box is None:
        raise ValueError("this court has no service line: give it one first")
    return box


def _far_line_m(court: Court, area: Area) -> float:
    return _box(court, area).y_high_m
