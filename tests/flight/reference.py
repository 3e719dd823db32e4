"""A tight second opinion on a flight: the equations written out once more, and another solver."""

import numpy as np
from scipy.integrate import solve_ivp

from tactics.flight.constants import GRAVITY_MS2, STILL_AIR, YELLOW, Air, BallKind
from tactics.flight.motion import Motion


def accelerations(velocity, spin, ball: BallKind, air: Air):
    """Straight from the equations, with the coefficients named and every division done; (3, n)."""
    wind = np.array([[air.wind_across_ms], [air.wind_along_ms], [0.0]])
    u = velocity - wind
    speed = np.linalg.norm(u, axis=0)
    turn = np.cross(spin, u, axis=0)
    size = np.linalg.norm(turn, axis=0)
    is_turned = (size > 0) & (speed > 0)
    safe_speed, safe_size = np.where(speed > 0, speed, 1.0), np.where(is_turned, size, 1.0)
    spin_parameter = ball.radius_m * (size / safe_speed) / safe_speed
    lift_coefficient = ball.lift_share * spin_parameter / (1 + 2 * spin_parameter)
    k = air.density_kg_m3 * np.pi * ball.radius_m**2 / (2 * ball.mass_kg)
    drag = -k * ball.drag * speed * u
    lift = np.where(is_turned, k * lift_coefficient * speed**2 * turn / safe_size, 0.0)
    return drag + lift - np.array([[0.0], [0.0], [GRAVITY_MS2]])


def place_at(launch: Motion, time_s, ball: BallKind = YELLOW, air: Air = STILL_AIR):
    """Position (3, n) after a time of its own for every ball, by DOP853 at tight tolerances.

    Each ball's clock is scaled by its own time, so that one run serves thousands of balls.
    """
    n = len(launch)

    def slope(_, state):
        state = state.reshape(6, n)
        a = accelerations(state[3:], launch.spin_rad_s, ball, air)
        return (np.concatenate([state[3:], a]) * time_s).ravel()

    start = np.concatenate([launch.position_m, launch.velocity_ms]).ravel()
    done = solve_ivp(
        slope, (0.0, 1.0), start, method="DOP853", rtol=1e-11, atol=1e-12, max_step=0.05
    )
    return done.y[:, -1].reshape(6, n)[:3]
