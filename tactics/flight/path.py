"""The whole way of a ball, for drawings and for finding where a player can meet it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tactics.flight.bracket import Bracket, hermite
from tactics.flight.constants import STILL_AIR, YELLOW, Air, BallKind
from tactics.flight.motion import Array, Motion
from tactics.flight.trajectory import LONGEST_FLIGHT_S, STEP_S, Forces


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Path:
    """Flight of n balls from a launch or a bounce until the last of them is on the ground.

    `states` (k, 9, n): position, velocity, acceleration after each step of `step_s` seconds. A ball
    that is down earlier than others goes on below the ground here: ask `landing` for its end.
    """

    start: Motion
    states: Array
    step_s: float
    ground_m: float

    def at(self, time_s: ArrayLike) -> Motion:
        """Motion at times (n,) or (m, n) since the hitter's contact; arrays (3, n) or (3, m, n).

        Times before the start or after the last step give nan.
        """
        times = np.broadcast_to(
            np.asarray(time_s, float), np.broadcast_shapes(np.shape(time_s), (len(self.start),))
        )
        steps = (times - self.start.time_s) / self.step_s
        known = (steps >= 0) & (steps <= len(self.states) - 1)
        number = np.clip(np.nan_to_num(steps).astype(int), 0, len(self.states) - 2)
        ball = np.arange(len(self.start))
        low = np.moveaxis(self.states[number, :, ball], -1, 0)
        high = np.moveaxis(self.states[number + 1, :, ball], -1, 0)
        values, _ = hermite(
            low[:6], low[3:] * self.step_s, high[:6], high[3:] * self.step_s, steps - number
        )
        spin = self.start.spin_rad_s if times.ndim == 1 else self.start.spin_rad_s[:, np.newaxis]
        return Motion(
            time_s=np.where(known, times, np.nan),
            position_m=np.where(known, values[:3], np.nan),
            velocity_ms=np.where(known, values[3:], np.nan),
            spin_rad_s=np.where(known, spin, np.nan),
        )

    def landing(self) -> Motion:
        """When the middle of the falling ball is one radius above the ground."""
        return self.falls_to(self.ground_m)

    def falls_to(self, height_m: float) -> Motion:
        """First fall of the ball's middle through a height (m); nan where it is never so high."""
        z = self.states[:, 2]
        return self._first((z[:-1] >= height_m) & (z[1:] < height_m), 2, height_m)

    def crossing(self, y_m: float = 0.0) -> Motion:
        """First way through the plane y = y_m (growing y) before landing."""
        y = self.states[:, 1]
        found = self._first((y[:-1] < y_m) & (y[1:] >= y_m), 1, y_m)
        return found.where(~(found.time_s > self.landing().time_s))

    def apex(self) -> Motion:
        """The highest point; the start itself for a ball that never gets above it."""
        climb = self.states[:, 5]
        top = self._first((climb[:-1] > 0) & (climb[1:] <= 0), 5, 0.0)
        is_higher = top.position_m[2] > self.start.position_m[2]
        return Motion(
            time_s=np.where(is_higher, top.time_s, self.start.time_s),
            position_m=np.where(is_higher, top.position_m, self.start.position_m),
            velocity_ms=np.where(is_higher, top.velocity_ms, self.start.velocity_ms),
            spin_rad_s=self.start.spin_rad_s,
        )

    def _first(self, hit: NDArray[np.bool_], row: int, level: float) -> Motion:
        number, ball = hit.argmax(axis=0), np.arange(len(self.start))
        happens = hit.any(axis=0)
        bracket = Bracket(
            time_s=np.where(happens, self.start.time_s + number * self.step_s, np.nan),
            start=np.where(happens, self.states[number, :, ball].T, np.nan),
            end=np.where(happens, self.states[number + 1, :, ball].T, np.nan),
            step_s=self.step_s,
        )
        return bracket.reach(row, level, self.start.spin_rad_s)


def trace(
    launch: Motion, *, ball: BallKind = YELLOW, air: Air = STILL_AIR, step_s: float = STEP_S
) -> Path:
    """The paths of n balls with everything in between; `fly` is for landings alone."""
    forces = Forces(launch.spin_rad_s, ball, air)
    states = [forces.begin(launch)]
    for _ in range(round(LONGEST_FLIGHT_S / step_s)):
        states.append(forces.step(states[-1], step_s))
        if not (states[-1][2] >= ball.radius_m).any():
            break
    return Path(start=launch, states=np.stack(states), step_s=step_s, ground_m=ball.radius_m)
