"""Looking for the launch that does what is wanted: a grid of elevations, then Newton's method."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tactics.flight.motion import Array
from tactics.flight.strike import Branch, Goal, Setting, Turn

SEARCH_STEP_S = 0.1
# Degrees above the straight line to the wanted point, dense where drives are, wide for lobs.
FLAT_DEG = (-6, -2, 0, 1.5, 3, 4.5, 6, 8, 10, 12.5, 15, 18, 21)
STEEP_DEG = (25, 29, 33, 37, 41, 46, 51, 57, 63, 70, 77, 84, 91)
STEEPEST_DEG = 88.0
FINE_POINTS = 17
STEEP_M = 5.0  # an effect that changes more between two elevations is looked at closely
HALVINGS = 8
NEWTON_ROUNDS = 8
TOLERANCE_M = 1e-4
NUDGE_DEG = 0.02
NUDGE_SHARE = 0.0005
LARGEST_STEP_DEG = 5.0
LARGEST_STEP_SHARE = 0.2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Search:
    """Elevations (n,) in degrees near which a goal is met at the azimuth and pace of turns (3, n).

    The drive is the first rise through the wanted value (n,) in m, the lob the last fall
    through it.
    """

    setting: Setting
    turns: Array
    goal: Goal
    wanted: Array
    branch: Branch = Branch.DRIVE

    def find(self) -> Array:
        """The elevations, nan where none does it."""
        found = np.full(self.wanted.size, np.nan)
        if self.branch is Branch.DRIVE:
            everyone = np.arange(self.wanted.size)
            grid = self._grid(np.array(FLAT_DEG), everyone)
            found = self._pass_through(grid, self._values(grid, everyone), everyone)
        lost = np.flatnonzero(np.isnan(found))
        if lost.size:
            found[lost] = self._find_anywhere(lost)
        return found

    def _find_anywhere(self, which: NDArray[np.intp]) -> Array:
        grid = self._grid(np.array(FLAT_DEG + STEEP_DEG), which)
        values = self._values(grid, which)
        found = self._pass_through(grid, values, which)
        lost = np.flatnonzero(np.isnan(found))
        if lost.size:  # the wanted value may lie between the best grid point and the true best
            best = np.clip(values[:, lost].argmax(axis=0), 1, len(grid) - 2)
            share = np.linspace(0.0, 1.0, FINE_POINTS)[:, np.newaxis]
            low, high = grid[best - 1, lost], grid[best + 1, lost]
            fine = low + share * (high - low)
            found[lost] = self._pass_through(fine, self._values(fine, which[lost]), which[lost])
        return found

    def _grid(self, above_deg: Array, which: NDArray[np.intp]) -> Array:
        line = self.setting.line_deg(self.goal, self.wanted[which], which)
        return np.asarray(np.minimum(line + above_deg[:, np.newaxis], STEEPEST_DEG))

    def _values(self, grid: Array, which: NDArray[np.intp]) -> Array:
        many = np.tile(self.turns[:, which], len(grid))
        many[Turn.ELEVATION] = grid.ravel()
        effects = self.setting.effects(many, np.tile(which, len(grid)), SEARCH_STEP_S)
        return np.asarray(effects[self.goal].reshape(grid.shape))

    def _pass_through(self, grid: Array, values: Array, which: NDArray[np.intp]) -> Array:
        wanted, ball = self.wanted[which], np.arange(which.size)
        below = values < wanted
        if self.branch is Branch.DRIVE:
            hit = below[:-1] & ~below[1:]
            i = hit.argmax(axis=0)
        else:
            hit = ~below[:-1] & below[1:]
            i = len(hit) - 1 - hit[::-1].argmax(axis=0)
        low, high = grid[i, ball], grid[i + 1, ball]
        before, after = values[i, ball], values[i + 1, ball]
        share = (wanted - before) / np.where(after == before, 1.0, after - before)
        place = np.where(hit.any(axis=0), low + share * (high - low), np.nan)
        steep = np.flatnonzero(~np.isnan(place) & (np.abs(after - before) > STEEP_M))
        if steep.size:
            place[steep] = self._halved(low[steep], high[steep], which[steep])
        return place

    def _halved(self, low: Array, high: Array, which: NDArray[np.intp]) -> Array:
        """Elevations between two where the effect jumps too far for a straight line between."""
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            is_below = self._values(middle[np.newaxis], which)[0] < self.wanted[which]
            is_before = is_below if self.branch is Branch.DRIVE else ~is_below
            low, high = np.where(is_before, middle, low), np.where(is_before, high, middle)
        return (low + high) / 2


def refine(
    setting: Setting, turns: Array, free: tuple[Turn, ...], goals: dict[Goal, Array]
) -> Array:
    """Turns (3, n) after Newton's method in as many free rows as there are goals (n,) each.

    nan where it does not settle within a tenth of a millimetre.
    """
    turns = turns.copy()
    rows, aims = list(goals), np.stack(list(goals.values()))
    which = np.flatnonzero(~np.isnan(turns).any(axis=0))
    settled = np.zeros(turns.shape[1], bool)
    for _ in range(NEWTON_ROUNDS):
        if not which.size:
            break
        here = turns[:, which]
        nudges = _nudges(here)
        stack = [here]
        for turn in free:
            nudged = here.copy()
            nudged[turn] += nudges[turn]
            stack.append(nudged)
        effects = setting.effects(np.concatenate(stack, axis=1), np.tile(which, len(stack)))
        effects = effects.reshape(3, len(stack), which.size)[rows]
        miss = effects[:, 0] - aims[:, which]
        close = np.asarray((np.abs(miss) < TOLERANCE_M).all(axis=0))
        settled[which[close]] = True
        slopes = (effects[:, 1:] - effects[:, :1]) / nudges[list(free)]
        turns[:, which] = _moved(here, free, slopes, miss, ~close)
        which = which[~close]
    turns[:, ~settled] = np.nan
    return turns


def _nudges(here: Array) -> Array:
    """Small changes (3, n) of launches, the same for a launch and its mirror image."""
    nudges = np.full_like(here, NUDGE_DEG)
    nudges[Turn.AZIMUTH] = np.copysign(NUDGE_DEG, here[Turn.AZIMUTH])
    nudges[Turn.PACE] = NUDGE_SHARE * here[Turn.PACE]
    return nudges


def _moved(
    here: Array, free: tuple[Turn, ...], slopes: Array, miss: Array, open_: NDArray[np.bool_]
) -> Array:
    """One Newton step, no longer than is sane, for the balls that still need one."""
    moved = here.copy()
    matrix = np.moveaxis(slopes, -1, 0)
    solvable = np.isfinite(matrix).all(axis=(1, 2)) & np.isfinite(miss).all(axis=0) & open_
    solvable &= np.abs(np.linalg.det(np.where(solvable[:, None, None], matrix, 0.0))) > 1e-9
    if not solvable.any():
        return moved
    step = -np.linalg.solve(matrix[solvable], miss[:, solvable].T[..., np.newaxis])[..., 0].T
    for row, turn in enumerate(free):
        most = LARGEST_STEP_DEG
        if turn is Turn.PACE:
            most = LARGEST_STEP_SHARE * here[turn, solvable]
        moved[turn, solvable] += np.clip(step[row], -most, most)
    return moved
