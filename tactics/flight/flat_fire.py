"""Closed form of flat flight: quick bounds, and the replies of the opponent.

Good for elevations up to `STEEPEST_TANGENT`; drag along the path only, lift straight up, no wind.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from tactics.flight.constants import FOOTPRINT, GRAVITY_MS2, RAD_S_PER_RPM, BallKind
from tactics.flight.normal import Array, normal_share

STEEPEST_TANGENT: Final = 0.75
FLATTEST_LANDING: Final = 0.03
_LEAST_DRAG: Final = 1e-5  # 1/m: the formulas divide by the drag length


@dataclass(frozen=True, slots=True, kw_only=True)
class Drag:
    """Drag and lift per metre of path (1/m), and the ball's radius (m)."""

    slowing_per_m: float
    lift_per_m: float
    radius_m: float


def drag_of(ball: BallKind, density_kg_m3: float) -> Drag:
    """The two lengths that the closed form needs, from ball and air."""
    per_m = density_kg_m3 * np.pi * ball.radius_m**2 / (2.0 * ball.mass_kg)
    return Drag(
        slowing_per_m=max(float(per_m * ball.drag), _LEAST_DRAG),
        lift_per_m=float(per_m * ball.lift_share),
        radius_m=ball.radius_m,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatFire:
    """Shots that land at `distance_m`: all arrays of one shape.

    `tangent` of the elevation, `forward2` = square of the horizontal launch speed (m²/s²),
    `lift_per_m` with its sign (topspin positive), `landing_slope` = fall per metre at landing.
    """

    drag: Drag
    start_height_m: Array
    distance_m: Array
    tangent: Array
    forward2: Array
    lift_per_m: Array
    time_s: Array
    landing_slope: Array

    def picked(self, which: tuple[npt.NDArray[np.intp], ...]) -> "FlatFire":
        """Single shots out of a grid of them, by one index array per axis."""
        shape = np.broadcast_shapes(self.tangent.shape, self.distance_m.shape)
        start, far, tangent, forward2, lift, time, slope = (
            np.broadcast_to(each, shape)[which]
            for each in (
                self.start_height_m,
                self.distance_m,
                self.tangent,
                self.forward2,
                self.lift_per_m,
                self.time_s,
                self.landing_slope,
            )
        )
        return FlatFire(
            drag=self.drag,
            start_height_m=start,
            distance_m=far,
            tangent=tangent,
            forward2=forward2,
            lift_per_m=lift,
            time_s=time,
            landing_slope=slope,
        )

    def gravity_drop_m(self, along_m: npt.ArrayLike) -> Array:
        """Fall below the straight line without the part of lift, after that horizontal distance."""
        drop: Array = _bracket(np.asarray(along_m), self.drag.slowing_per_m) / self.forward2
        return drop

    def height_m(self, along_m: npt.ArrayLike) -> Array:
        """Height of the ball's middle after that horizontal distance."""
        along = np.asarray(along_m)
        lift_drop = 0.5 * self.lift_per_m * along * along
        height: Array = (
            self.start_height_m + along * self.tangent - self.gravity_drop_m(along) - lift_drop
        )
        return height

    def time_to_s(self, along_m: npt.ArrayLike) -> Array:
        """Seconds to that horizontal distance."""
        slow = self.drag.slowing_per_m
        time: Array = np.expm1(slow * np.asarray(along_m)) / (slow * np.sqrt(self.forward2))
        return time


def flat_fire(
    *,
    distance_m: npt.ArrayLike,
    start_height_m: npt.ArrayLike,
    pace_ms: npt.ArrayLike,
    topspin_rpm: npt.ArrayLike,
    drag: Drag,
) -> FlatFire:
    """The low shot from that height that lands at that horizontal distance; inputs broadcast.

    Backspin is negative topspin. A tangent above `STEEPEST_TANGENT` is outside the form's use.
    """
    far, low = np.asarray(distance_m, dtype=np.float64), np.asarray(start_height_m, np.float64)
    pace = np.asarray(pace_ms, dtype=np.float64)
    slow = drag.slowing_per_m
    growth = np.exp(slow * far)
    ratio = drag.radius_m * RAD_S_PER_RPM * np.asarray(topspin_rpm) * np.sqrt(growth) / pace
    lift = drag.lift_per_m * ratio / (1.0 + 2.0 * np.abs(ratio))
    bracket = GRAVITY_MS2 / (4.0 * slow * slow) * (growth * growth - 1.0 - 2.0 * slow * far)
    fixed = (drag.radius_m - low) / far + 0.5 * lift * far
    per_pace = bracket / (far * pace * pace)
    # Three passes; the last one's forward speed is kept, so that the path ends on the ground.
    first = fixed + per_pace
    second = fixed + per_pace * (1.0 + first * first)
    stretch = 1.0 + second * second
    tangent = fixed + per_pace * stretch
    forward2 = pace * pace / stretch
    slope = GRAVITY_MS2 / (2.0 * slow) * (growth * growth - 1.0) / forward2 + lift * far - tangent
    return FlatFire(
        drag=drag,
        start_height_m=low,
        distance_m=far,
        tangent=tangent,
        forward2=forward2,
        lift_per_m=lift,
        time_s=(growth - 1.0) / (slow * np.sqrt(forward2)),
        landing_slope=np.maximum(slope, FLATTEST_LANDING),
    )


def _bracket(along: Array, slow: float) -> Array:
    """Gravity drop times the square of the horizontal launch speed."""
    reach = 2.0 * slow * along
    bracket: Array = GRAVITY_MS2 / (4.0 * slow * slow) * (np.expm1(reach) - reach)
    return bracket


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatSpread:
    """What scatter does to a flat shot (m): sd of height at the net, of depth, and sideways."""

    at_net_m: Array
    depth_m: Array
    sideways_m: Array


def flat_spread(
    shot: FlatFire,
    net_distance_m: npt.ArrayLike,
    sd_elevation_rad: npt.ArrayLike,
    sd_azimuth_rad: npt.ArrayLike,
    sd_speed: npt.ArrayLike,
) -> FlatSpread:
    """Linear spread of a flat shot; `net_distance_m` is the horizontal distance to the net."""
    to_net, to_ground = np.asarray(net_distance_m), shot.distance_m
    turn = np.asarray(sd_elevation_rad) * (1.0 + shot.tangent * shot.tangent)
    speed = 2.0 * np.asarray(sd_speed)
    at_net = np.sqrt((to_net * turn) ** 2 + (shot.gravity_drop_m(to_net) * speed) ** 2)
    at_ground = np.sqrt((to_ground * turn) ** 2 + (shot.gravity_drop_m(to_ground) * speed) ** 2)
    return FlatSpread(
        at_net_m=at_net,
        depth_m=at_ground / shot.landing_slope,
        sideways_m=to_ground * np.asarray(sd_azimuth_rad),
    )


def flat_share_in(
    *,
    clearance_m: npt.ArrayLike,
    behind_m: npt.ArrayLike,
    target_x_m: npt.ArrayLike,
    half_width_m: float,
    spread: FlatSpread,
) -> Array:
    """Share of flat balls in: over the cord, not long, between the lines.

    `behind_m` is the room between the landing place and the line behind it.
    """
    foot, x = FOOTPRINT.value, np.asarray(target_x_m)
    clears = normal_share(np.asarray(clearance_m) / spread.at_net_m)
    short = normal_share((np.asarray(behind_m) + foot) / spread.depth_m)
    right = normal_share((half_width_m + foot - x) / spread.sideways_m)
    left = normal_share((-half_width_m - foot - x) / spread.sideways_m)
    share: Array = clears * short * (right - left)
    return share
