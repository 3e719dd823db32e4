"""Events inside a step: cubic Hermite curves through both of its ends."""

from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray

from tactics.flight.motion import Array, Motion

NEWTON_STEPS = 5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bracket:
    """For n balls the two ends of the step in which something happens.

    `start`, `end` (9, n): position, velocity, acceleration; `time_s` (n,): time at the start,
    nan where it never happens; `step_s`: length of the step.
    """

    time_s: Array
    start: Array
    end: Array
    step_s: float

    @classmethod
    def empty(cls, n: int, step_s: float) -> Self:
        """Room for n balls, none of which has got there."""
        nothing = np.full((9, n), np.nan)
        never = np.full(n, np.nan)
        return cls(time_s=never, start=nothing, end=nothing.copy(), step_s=step_s)

    def note(
        self, hit: NDArray[np.bool_], who: NDArray[np.intp], time_s: Array, now: Array, then: Array
    ) -> None:
        """Keep the step from now to then (9, m) of balls that are hit, if it is their first."""
        found = np.flatnonzero(hit)
        found = found[np.isnan(self.time_s[who[found]])]
        if found.size:
            ids = who[found]
            self.time_s[ids] = time_s[found]
            self.start[:, ids] = now.take(found, axis=1)
            self.end[:, ids] = then.take(found, axis=1)

    def reach(self, row: int, level: float, spin_rad_s: Array) -> Motion:
        """The moment inside the step when a row (0-2 place, 3-5 velocity) has the given value.

        Newton on the cubic, from the end of the step: for a falling ball that side never misses.
        """
        low, high, h = self.start, self.end, self.step_s
        s = np.ones_like(self.time_s)
        for _ in range(NEWTON_STEPS):
            value, slope = hermite(low[row], low[row + 3] * h, high[row], high[row + 3] * h, s)
            s = s - (value - level) / np.where(slope == 0.0, 1.0, slope)
        return self.at(np.clip(s, 0.0, 1.0), spin_rad_s)

    def at(self, s: Array, spin_rad_s: Array) -> Motion:
        """Motion at the share s (n,) of the step."""
        h = self.step_s
        values, _ = hermite(self.start[:6], self.start[3:] * h, self.end[:6], self.end[3:] * h, s)
        return Motion(
            time_s=self.time_s + s * h,
            position_m=values[:3],
            velocity_ms=values[3:],
            spin_rad_s=np.where(np.isnan(self.time_s), np.nan, spin_rad_s),
        )


def hermite(p: Array, m: Array, q: Array, n: Array, s: Array) -> tuple[Array, Array]:
    """Value and slope at s of the cubic with values p, q and slopes m, n at 0 and 1."""
    bend = 3 * (q - p) - 2 * m - n
    twist = 2 * (p - q) + m + n
    return p + s * (m + s * (bend + s * twist)), m + s * (2 * bend + 3 * s * twist)
