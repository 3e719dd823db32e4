"""Where and with what spin a ball is struck, what can be turned, and what comes of it."""

from dataclasses import dataclass, replace
from enum import IntEnum, StrEnum
from typing import Self

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tactics.flight.constants import STILL_AIR, Air
from tactics.flight.court import FULL_SINGLES, Court
from tactics.flight.motion import Array, Motion, launches
from tactics.flight.trajectory import STEP_S, Flight, clearance_m, fly

SINK_TO_M = -8.0
NEVER_M = -100.0  # stands for a net that is not reached even below the ground


class Branch(StrEnum):
    """The low or the high one of two elevations that both do what is wanted."""

    DRIVE = "drive"
    LOB = "lob"


class Turn(IntEnum):
    """What can be changed about a launch: rows of the unknowns."""

    ELEVATION = 0
    AZIMUTH = 1
    PACE = 2


class Goal(IntEnum):
    """What can be wanted of it: rows of the effects, all in metres."""

    HEIGHT_OVER_NET = 0
    LANDING_X = 1
    LANDING_Y = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Strike:
    """Where n balls are met (m, hitter's frame, y < 0) and with what spin (rpm) they leave.

    Negative topspin is backspin; positive side spin curves to the left. Values broadcast together.
    """

    x_m: ArrayLike
    y_m: ArrayLike
    z_m: ArrayLike
    topspin_rpm: ArrayLike = 0.0
    sidespin_rpm: ArrayLike = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Setting:
    """A strike of n balls (5, n) on a court in some air."""

    strike: Array
    court: Court = FULL_SINGLES
    air: Air = STILL_AIR

    def only(self, which: NDArray[np.intp]) -> Self:
        """The same with the chosen balls only."""
        return replace(self, strike=self.strike[:, which])

    def launch(self, turns: Array, which: NDArray[np.intp]) -> Motion:
        """Launches of the chosen balls with elevation, azimuth (degrees) and pace (m/s): (3, m)."""
        x, y, z, topspin, sidespin = self.strike[:, which]
        return launches(
            x_m=x,
            y_m=y,
            z_m=z,
            pace_ms=turns[Turn.PACE],
            elevation_deg=turns[Turn.ELEVATION],
            azimuth_deg=turns[Turn.AZIMUTH],
            topspin_rpm=topspin,
            sidespin_rpm=sidespin,
        )

    def fly(self, turns: Array, which: NDArray[np.intp], step_s: float = STEP_S) -> Flight:
        """Their flights, on below the ground for balls that do not get to the net."""
        launch = self.launch(turns, which)
        return fly(launch, ball=self.court.ball, air=self.air, sink_to_m=SINK_TO_M, step_s=step_s)

    def effects(self, turns: Array, which: NDArray[np.intp], step_s: float = STEP_S) -> Array:
        """Height over the net, landing x and y (3, m) in m; a net never reached counts as -100."""
        return self.effects_of(self.fly(turns, which, step_s))

    def effects_of(self, flight: Flight) -> Array:
        """The same of flights flown already."""
        clearance = clearance_m(flight.crossing, self.court)
        clearance = np.where(np.isnan(clearance), NEVER_M, clearance)
        return np.stack([clearance, *flight.landing.position_m[:2]])

    def line_deg(self, goal: Goal, wanted: Array, which: NDArray[np.intp]) -> Array:
        """Elevation of the straight line from contact to the wanted point, in degrees."""
        _, y, z, _, _ = self.strike[:, which]
        if goal is Goal.HEIGHT_OVER_NET:
            rise = wanted + self.court.ball.radius_m + self.court.strap_height_m - z
            return np.asarray(np.degrees(np.arctan2(rise, -y)))
        return np.asarray(np.degrees(np.arctan2(self.court.ball.radius_m - z, wanted - y)))


def set_up(
    strike: Strike, court: Court, air: Air, *others: ArrayLike
) -> tuple[Setting, tuple[Array, ...]]:
    """The setting of a strike, and other numbers, all broadcast to the same n balls."""
    arrays = np.broadcast_arrays(
        strike.x_m, strike.y_m, strike.z_m, strike.topspin_rpm, strike.sidespin_rpm, *others
    )
    flat = [np.ravel(each).astype(float) for each in arrays]
    return Setting(strike=np.stack(flat[:5]), court=court, air=air), tuple(flat[5:])
