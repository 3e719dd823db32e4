"""Execution scatter: how far a player's elevation, direction, speed and spin stray from the aim."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np

from tactics.flight.levels import Level

# All assumptions; the ranges are 1.1-1.4, 1.3-2.0, 1.0-1.4 and 0.5-0.7.
MOVING_FACTOR: Final = 1.25
LATE_FACTOR: Final = 1.6
AWKWARD_HEIGHT_FACTOR: Final = 1.2
LITTLE_TIME_FACTOR: Final = 1.2
SERVE_FACTOR: Final = 0.6
LATE_PACE_SHARE: Final = 0.85  # of rally pace that is comfortable when late; 0.75-0.95
PACE_GROWTH: Final = 1.0  # scatter growth above comfortable pace; 0-2


class Balance(StrEnum):
    """How the player meets the ball; jammed and late count as stretched."""

    SET = "set"
    MOVING = "moving"
    STRETCHED = "stretched"
    JAMMED = "jammed"


_BALANCE_FACTOR: Final = {
    Balance.SET: 1.0,
    Balance.MOVING: MOVING_FACTOR,
    Balance.STRETCHED: LATE_FACTOR,
    Balance.JAMMED: LATE_FACTOR,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Scatter:
    """Standard deviations of independent normal errors: degrees; fractions of speed and spin."""

    sd_elevation_deg: float
    sd_azimuth_deg: float
    sd_speed: float
    sd_spin: float

    def times(self, factor: float) -> "Scatter":
        """The same scatter under strain: angles and speed grow, spin does not."""
        return Scatter(
            sd_elevation_deg=self.sd_elevation_deg * factor,
            sd_azimuth_deg=self.sd_azimuth_deg * factor,
            sd_speed=self.sd_speed * factor,
            sd_spin=self.sd_spin,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Strain:
    """What makes a ball harder to hit well; the factors multiply."""

    balance: Balance = Balance.SET
    is_late: bool = False
    is_awkward_height: bool = False
    has_little_time: bool = False
    is_serve: bool = False

    @property
    def balance_factor(self) -> float:
        """1 set, 1.25 moving, 1.6 stretched, jammed or late."""
        return max(_BALANCE_FACTOR[self.balance], LATE_FACTOR if self.is_late else 1.0)

    @property
    def factor(self) -> float:
        """What the scatter of angles and speed is multiplied with."""
        return (
            self.balance_factor
            * (AWKWARD_HEIGHT_FACTOR if self.is_awkward_height else 1.0)
            * (LITTLE_TIME_FACTOR if self.has_little_time else 1.0)
            * (SERVE_FACTOR if self.is_serve else 1.0)
        )


def level_scatter(level: Level) -> Scatter:
    """The scatter a level is taken to have on a ball met set, at rally pace."""
    return Scatter(
        sd_elevation_deg=level.sd_elevation_deg,
        sd_azimuth_deg=level.sd_azimuth_deg,
        sd_speed=level.sd_speed,
        sd_spin=level.sd_spin,
    )


def comfortable_pace_share(
    balance_factor: float,
    late_pace_share: float = LATE_PACE_SHARE,
    late_factor: float = LATE_FACTOR,
) -> float:
    """Share of rally pace up to which scatter does not grow: 1 when set, less when late."""
    ease = (late_factor - balance_factor) / (late_factor - 1.0)
    return late_pace_share + (1.0 - late_pace_share) * float(np.clip(ease, 0.0, 1.0))


def pace_factor(
    pace_share: float, comfortable_share: float = 1.0, growth: float = PACE_GROWTH
) -> float:
    """Growth of scatter for a ball hit at that share of rally pace; 1 up to the comfortable one."""
    return 1.0 + growth * max(0.0, pace_share / comfortable_share - 1.0)


def strained_scatter(scatter: Scatter, strain: Strain, pace_share: float) -> Scatter:
    """Scatter of one ball: strain times the growth with pace (a serve has its own pace: no growth).

    `pace_share` is the ball's launch speed over the player's rally speed.
    """
    comfortable = comfortable_pace_share(strain.balance_factor)
    growth = 1.0 if strain.is_serve else pace_factor(pace_share, comfortable)
    return scatter.times(strain.factor * growth)
