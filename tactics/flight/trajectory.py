"""Flight of many balls at once: drag and the lift of spin, from a launch to net and ground.

Equations, with u = velocity - wind, k = density pi R² / (2 m) and S = R |w x u| / |u|²:

    dv/dt = (0, 0, -g) - k CD |u| u + k CL |u|² (w x u) / |w x u|,   CL = S / (1 + 2 S)

(Cross & Lindsey 2014; Stepanek 1988; spin barely decreases in flight, so it is constant here.)
Classical Runge-Kutta of order 4; cubic Hermite curves find events inside a step, which is why
steps of 70 ms land within a fifth of a millimetre. The net stops no ball: see `clearance_m`.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tactics.flight.bracket import Bracket
from tactics.flight.constants import (
    GRAVITY_MS2,
    LIFT_SATURATION,
    STILL_AIR,
    YELLOW,
    Air,
    BallKind,
)
from tactics.flight.court import Court
from tactics.flight.motion import Array, Motion, joined

STEP_S = 0.07
LONGEST_FLIGHT_S = 20.0  # thrown straight up at 80 m/s without air a ball is back after 16.3 s
BATCH = 5000  # balls stepped together, so that what they need stays in the cache
KEEP_SHARE = 0.9  # copying the balls still in the air pays once this few are left


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Flight:
    """Where n balls cross a plane of constant y on their way to the opponent, and where they land.

    Landing is the moment when the middle of a falling ball is one radius above the ground.
    """

    crossing: Motion
    landing: Motion


class Forces:
    """Acceleration of n balls of one kind in one air, each with its own constant spin."""

    __slots__ = ("_drag_factor", "_lift_factor", "_saturation", "_spin", "_wind")

    def __init__(self, spin_rad_s: Array, ball: BallKind, air: Air) -> None:
        k = air.density_kg_m3 * np.pi * ball.radius_m**2 / (2 * ball.mass_kg)
        self._drag_factor = k * ball.drag
        self._lift_factor = k * ball.lift_share * ball.radius_m
        self._saturation = LIFT_SATURATION * ball.radius_m
        self._spin = spin_rad_s
        wind = np.array([[air.wind_across_ms], [air.wind_along_ms], [0.0]])
        self._wind = wind if wind.any() else None

    def acceleration(self, velocity_ms: Array) -> Array:
        """Acceleration (3, n) in m/s² at the given velocities (3, n)."""
        u = velocity_ms if self._wind is None else velocity_ms - self._wind
        square = np.einsum("ij,ij->j", u, u)
        turn = np.empty_like(u)  # spin x u
        wx, wy, wz = self._spin
        np.subtract(wy * u[2], wz * u[1], out=turn[0])
        np.subtract(wz * u[0], wx * u[2], out=turn[1])
        np.subtract(wx * u[1], wy * u[0], out=turn[2])
        # k R (w x u) / (1 + 2 S): the default law needs no division by |w x u|
        saturated = np.sqrt(np.einsum("ij,ij->j", turn, turn))
        saturated *= self._saturation
        saturated += square
        saturated += np.finfo(float).tiny  # a ball at rest has neither spin force nor 0 / 0
        turn *= self._lift_factor * square / saturated
        turn -= u * (np.sqrt(square) * self._drag_factor)
        turn[2] -= GRAVITY_MS2
        return np.asarray(turn)

    def step(self, now: Array, h: float) -> Array:
        """Position, velocity, acceleration (9, n) one Runge-Kutta step of h seconds later.

        Air is the same everywhere, so acceleration depends on velocity alone and the four stages
        of the position fold into one sum.
        """
        v, a = now[3:6], now[6:]
        b = self.acceleration(v + (h / 2) * a)
        c = self.acceleration(v + (h / 2) * b)
        d = self.acceleration(v + h * c)
        then = np.empty_like(now)
        total = b + c
        d += total
        total += a
        then[:3] = now[:3] + h * (v + (h / 6) * total)
        d += total
        np.add(v, (h / 6) * d, out=then[3:6])
        then[6:] = self.acceleration(then[3:6])
        return then

    def begin(self, launch: Motion) -> Array:
        """Position, velocity, acceleration (9, n) at the launch."""
        velocity = launch.velocity_ms
        return np.concatenate([launch.position_m, velocity, self.acceleration(velocity)])

    def keep(self, which: NDArray[np.bool_]) -> None:
        """Forget the other balls."""
        self._spin = self._spin.compress(which, axis=1)


def fly(
    launch: Motion,
    *,
    ball: BallKind = YELLOW,
    air: Air = STILL_AIR,
    plane_y_m: float = 0.0,
    sink_to_m: float | None = None,
    step_s: float = STEP_S,
) -> Flight:
    """First crossing of the plane y = plane_y_m (growing y; the net by default) and the landing.

    With `sink_to_m` (say -8) a ball that lands short of the plane goes on below the ground down to
    there, so that a clearance, a negative one, exists for it too; the landing stays the first.
    """
    # Balls that are up for about as long are stepped together, so that few steps run half empty.
    order = np.argsort(_time_up_s(launch), kind="stable")
    batches = [order[i : i + BATCH] for i in range(0, len(launch), BATCH)]
    parts = [
        _fly_together(launch.only(batch), ball, air, plane_y_m, sink_to_m, step_s)
        for batch in batches
    ]
    back = np.argsort(order, kind="stable")
    return Flight(
        crossing=joined([part.crossing for part in parts]).only(back),
        landing=joined([part.landing for part in parts]).only(back),
    )


def _time_up_s(launch: Motion) -> Array:
    """Time in the air without any air: only good for sorting."""
    height, climb = launch.position_m[2], launch.velocity_ms[2]
    fall = np.maximum(climb**2 + 2 * GRAVITY_MS2 * height, 0.0)
    return np.asarray((climb + np.sqrt(fall)) / GRAVITY_MS2)


def clearance_m(crossing: Motion, court: Court) -> Array:
    """Height over the net (n,) in m: from the cord up to the underside of the ball.

    Negative for a ball that meets the net, nan for one that never gets there; from 0 on it clears.
    """
    x, _, z = crossing.position_m
    return np.asarray(z - court.ball.radius_m - court.net_height_m(x))


def _fly_together(
    launch: Motion,
    ball: BallKind,
    air: Air,
    plane_y_m: float,
    sink_to_m: float | None,
    step_s: float,
) -> Flight:
    ground = ball.radius_m
    net, land = Bracket.empty(len(launch), step_s), Bracket.empty(len(launch), step_s)
    forces = Forces(launch.spin_rad_s, ball, air)
    who = np.arange(len(launch))
    now = forces.begin(launch)
    for count in range(round(LONGEST_FLIGHT_S / step_s)):
        then = forces.step(now, step_s)
        time_s = launch.time_s[who] + count * step_s
        net.note((now[1] < plane_y_m) & (then[1] >= plane_y_m), who, time_s, now, then)
        land.note((now[2] >= ground) & (then[2] < ground), who, time_s, now, then)
        is_up = then[2] >= ground
        if sink_to_m is not None:
            is_up |= (then[2] >= sink_to_m) & (then[1] < plane_y_m)
        now = then
        if np.count_nonzero(is_up) < KEEP_SHARE * who.size:
            now, who = now.compress(is_up, axis=1), who[is_up]
            forces.keep(is_up)
        if not who.size:
            break
    landing = land.reach(2, ground, launch.spin_rad_s)
    crossing = net.reach(1, plane_y_m, launch.spin_rad_s)
    if sink_to_m is None:
        crossing = crossing.where(~(crossing.time_s > landing.time_s))
    return Flight(crossing=crossing, landing=landing)
