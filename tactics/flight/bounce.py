"""The bounce on flat ground, and where the opponent meets the ball after it.

Sliding friction as in Brody 1984; a ball that grips keeps a little sideways spring (Cross 2002).
"""

import numpy as np

from tactics.flight.constants import HARD, STILL_AIR, YELLOW, Air, BallKind, Surface
from tactics.flight.court import Court
from tactics.flight.motion import Array, Motion
from tactics.flight.path import trace

WAIST_HEIGHT_M = 0.9  # where an opponent who can choose meets the falling ball
LATEST_BEHIND_M = 2.0  # and how far behind the baseline at the latest


def bounce(landing: Motion, *, surface: Surface = HARD, ball: BallKind = YELLOW) -> Motion:
    """The same n balls leaving the ground at the same time and place, ready for `fly`.

    All spin counts for the slip of the ball's lowest point. Friction works until that point grips.
    """
    vx, vy, vz = landing.velocity_ms
    wx, wy, wz = landing.spin_rad_s
    radius, a = ball.radius_m, ball.inertia_share
    restitution = surface.restitution * ball.liveliness
    slip_x, slip_y = vx - radius * wy, vy + radius * wx
    slip = np.hypot(slip_x, slip_y)
    share = _friction_share(-vz * (1 + restitution) * surface.friction, slip, a, surface)
    push_x, push_y = -share * slip_x, -share * slip_y
    return Motion(
        time_s=landing.time_s,
        position_m=landing.position_m,
        velocity_ms=np.stack([vx + push_x, vy + push_y, -restitution * vz]),
        spin_rad_s=np.stack([wx + push_y / (a * radius), wy - push_x / (a * radius), wz]),
    )


def grip_share(landing: Motion, *, surface: Surface = HARD, ball: BallKind = YELLOW) -> Array:
    """Friction as a share of what gripping takes, (n,): 1 for a grip, less for a slide."""
    vx, vy, vz = landing.velocity_ms
    wx, wy, _ = landing.spin_rad_s
    slip = np.hypot(vx - ball.radius_m * wy, vy + ball.radius_m * wx)
    limit = -vz * (1 + surface.restitution * ball.liveliness) * surface.friction
    full = _full_grip(ball.inertia_share, surface)
    return np.asarray(_friction_share(limit, slip, ball.inertia_share, surface) / full)


def _full_grip(a: float, surface: Surface) -> float:
    return (1 + surface.grip_restitution) * a / (1 + a)


def _friction_share(limit_ms: Array, slip_ms: Array, a: float, surface: Surface) -> Array:
    """Friction's impulse a mass as a share of the slip: all that gripping takes, or the limit."""
    sliding = limit_ms / np.where(slip_ms > 0.0, slip_ms, 1.0)
    return np.where(slip_ms > 0.0, np.minimum(sliding, _full_grip(a, surface)), 0.0)


def meet(
    after: Motion,
    court: Court,
    *,
    height_m: float = WAIST_HEIGHT_M,
    latest_behind_m: float = LATEST_BEHIND_M,
    ball: BallKind | None = None,
    air: Air = STILL_AIR,
) -> Motion:
    """Where the opponent hits the bounced ball: falling through a height, or at its top if lower.

    A ball that is not there yet is hit at the latest so far (m) behind the baseline, rising or not.
    """
    path = trace(after, ball=court.ball if ball is None else ball, air=air)
    latest = path.crossing(court.half_length_m + latest_behind_m).time_s
    falling = path.falls_to(height_m).time_s
    wanted = np.where(np.isnan(falling), path.apex().time_s, falling)
    return path.at(np.fmin(wanted, latest))


def pace_rating(surface: Surface, *, temperature_c: float = 23.0) -> float:
    """Court pace rating as its test reads it: 30 m/s without spin at 16 degrees, yellow ball.

    100 (1 - mu) + 150 (0.81 - e), with mu and e as measured from that bounce (federation's court
    pace test). A ball that grips hides the rest of the friction: nothing reads far below 20.
    """
    angle = np.radians(16.0)
    before = Motion(
        time_s=np.zeros(1),
        position_m=np.zeros((3, 1)),
        velocity_ms=30.0 * np.array([[0.0], [np.cos(angle)], [-np.sin(angle)]]),
        spin_rad_s=np.zeros((3, 1)),
    )
    after = bounce(before, surface=surface)
    (along,), (fall,) = before.velocity_ms[1], -before.velocity_ms[2]
    (along_after,), (rise,) = after.velocity_ms[1], after.velocity_ms[2]
    restitution = rise / fall
    friction = (along - along_after) / (fall * (1 + restitution))
    adjusted = restitution + 0.003 * (23.0 - temperature_c)
    return float(100 * (1 - friction) + 150 * (0.81 - adjusted))
