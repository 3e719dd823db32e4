"""Balls at a moment: time, place, velocity and spin of many at once, and how they are launched."""

from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tactics.flight.constants import RAD_S_PER_RPM

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Motion:
    """Time since the hitter's contact, place, velocity and spin of n balls, component first.

    `time_s` (n,) in s; `position_m`, `velocity_ms`, `spin_rad_s` (3, n) in m, m/s and rad/s, in the
    hitter's frame. All numbers of a ball are nan where the event it describes never happens.
    """

    time_s: Array
    position_m: Array
    velocity_ms: Array
    spin_rad_s: Array

    def __len__(self) -> int:
        """Number of balls."""
        return int(self.time_s.size)

    @property
    def happens(self) -> NDArray[np.bool_]:
        """Whether the event happens at all, (n,)."""
        return ~np.isnan(self.time_s)

    @property
    def speed_ms(self) -> Array:
        """Speed in m/s, (n,)."""
        return np.asarray(np.sqrt((self.velocity_ms**2).sum(axis=0)))

    def only(self, which: NDArray[np.bool_] | NDArray[np.intp]) -> Self:
        """The balls picked by a mask or by indices, in that order."""
        # take, because [:, index] turns the memory around, and every later step runs at half speed
        index = np.flatnonzero(which) if which.dtype == np.bool_ else which
        return type(self)(
            time_s=self.time_s[index],
            position_m=self.position_m.take(index, axis=1),
            velocity_ms=self.velocity_ms.take(index, axis=1),
            spin_rad_s=self.spin_rad_s.take(index, axis=1),
        )

    def where(self, condition: NDArray[np.bool_]) -> Self:
        """The same balls, with nan for those that miss the condition (n,)."""
        return type(self)(
            time_s=np.where(condition, self.time_s, np.nan),
            position_m=np.where(condition, self.position_m, np.nan),
            velocity_ms=np.where(condition, self.velocity_ms, np.nan),
            spin_rad_s=np.where(condition, self.spin_rad_s, np.nan),
        )


def launches(
    *,
    x_m: ArrayLike,
    y_m: ArrayLike,
    z_m: ArrayLike,
    pace_ms: ArrayLike,
    elevation_deg: ArrayLike,
    azimuth_deg: ArrayLike = 0.0,
    topspin_rpm: ArrayLike = 0.0,
    sidespin_rpm: ArrayLike = 0.0,
) -> Motion:
    """Balls leaving the racket; all inputs broadcast together to n balls.

    Azimuth is positive to the right, topspin negative for backspin, and side spin positive for a
    ball that curves to the left. The hitter's y is negative.
    """
    x, y, z, pace, elevation, azimuth, topspin, sidespin = (
        np.ravel(each)
        for each in np.broadcast_arrays(
            x_m,
            y_m,
            z_m,
            pace_ms,
            np.radians(elevation_deg),
            np.radians(azimuth_deg),
            topspin_rpm,
            sidespin_rpm,
        )
    )
    sin_e, cos_e, sin_a, cos_a = (
        np.sin(elevation),
        np.cos(elevation),
        np.sin(azimuth),
        np.cos(azimuth),
    )
    ahead = np.stack([sin_a * cos_e, cos_a * cos_e, sin_e])
    right = np.stack([cos_a, -sin_a, np.zeros_like(sin_a)])
    up = np.stack([-sin_a * sin_e, -cos_a * sin_e, cos_e])  # right x ahead
    return Motion(
        time_s=np.zeros(x.size),
        position_m=np.stack([x, y, z]).astype(float),
        velocity_ms=pace * ahead,
        spin_rad_s=(sidespin * up - topspin * right) * RAD_S_PER_RPM,
    )


def joined(parts: list[Motion]) -> Motion:
    """Balls of several motions one after the other."""
    if not parts:
        return launches(x_m=[], y_m=[], z_m=[], pace_ms=[], elevation_deg=[])
    return Motion(
        time_s=np.concatenate([each.time_s for each in parts]),
        position_m=np.concatenate([each.position_m for each in parts], axis=1),
        velocity_ms=np.concatenate([each.velocity_ms for each in parts], axis=1),
        spin_rad_s=np.concatenate([each.spin_rad_s for each in parts], axis=1),
    )
