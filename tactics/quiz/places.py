"""Numbers for facts: inside one cell of the rule set, near its limit and never on it.

A number keeps so far from every limit that nobody has to tell them apart by a hair: what is
drawn one step further on the screen would be judged alike.
"""

from dataclasses import dataclass
from functools import cached_property
from random import Random

from tactics.engine.cells import Axis, cells_of
from tactics.model.known import Allowed, Interval, Within
from tactics.model.trait import Trait
from tactics.model.units import Unit

_STEPS = {
    "court depth": 0.5, "opponent depth": 0.5, "incoming depth": 0.5,
    "court width": 0.9, "opponent width": 0.9, "body height": 0.04, "contact height": 0.05,
}  # fmt: skip
"""How far from a limit a number has to keep; widths are drawn on a coarser scale than depths."""

_STEPS_BY_UNIT = {
    Unit.METRE: 0.3, Unit.SECOND: 0.1, Unit.KMH: 4.0, Unit.STATURE: 0.04, Unit.PERCENT: 4.0,
    Unit.STEPS: 0.0,
}  # fmt: skip
_DECIMALS = {Unit.METRE: 1, Unit.SECOND: 1, Unit.STATURE: 2, Unit.STEPS: 0, Unit.KMH: 0}

_USUAL = {
    "court depth": (1.5, 16.5), "opponent depth": (1.5, 16.0), "court width": (-6.0, 6.0),
    "opponent width": (-5.6, 5.6), "incoming depth": (1.0, 11.6), "body height": (0.15, 1.25),
    "incoming time": (0.5, 2.4), "steps to the ball": (0.0, 8.0), "wind strength": (0.0, 40.0),
    "stature": (1.2, 2.1),
}  # fmt: skip
"""The range from which an ordinary quiz ball is drawn."""

_NEAR = 2.0
_BIAS_TO_LIMIT = 0.7


@dataclass(frozen=True)
class Ruler:
    """The numbers that may be drawn for one fact."""

    axis: Axis

    @property
    def trait(self) -> Trait:
        """Return the fact."""
        return self.axis.trait

    @cached_property
    def step(self) -> float:
        """Return how far a number keeps from a limit, in the fact's unit."""
        unit = self.trait.unit
        by_unit = _STEPS_BY_UNIT.get(unit, 0.0) if unit else 0.0
        return _STEPS.get(self.trait.folded, by_unit)

    @cached_property
    def range(self) -> tuple[float, float]:
        """Return the ends between which numbers are drawn."""
        low, high = _USUAL.get(self.trait.folded, (self.trait.low, self.trait.high))
        return max(low, self.trait.low, -1000.0), min(high, self.trait.high, 1000.0)

    @cached_property
    def rooms(self) -> dict[int, tuple[float, float]]:
        """Return cell -> the numbers of it that keep clear of both its limits, where any do."""
        found = {}
        for place in range(self.axis.size):
            room = self._room(place)
            if room is not None:
                found[1 << place] = room
        return found

    def _room(self, place: int) -> tuple[float, float] | None:
        (low, low_side), (high, high_side) = self.axis.cuts[place], self.axis.cuts[place + 1]
        is_first, is_last = place == 0, place == self.axis.size - 1
        start = low if is_first else low + max(self.step, self._least if low_side else 0.0)
        end = high if is_last else high - max(self.step, 0.0 if high_side else self._least)
        start, end = max(start, self.range[0]), min(end, self.range[1])
        start, end = self._up(start), self._down(end)
        return (start, end) if start <= end else None

    @cached_property
    def _decimals(self) -> int:
        return _DECIMALS.get(self.trait.unit, 2) if self.trait.unit else 2

    @property
    def _least(self) -> float:
        return float(10**-self._decimals)

    def _up(self, number: float) -> float:
        rounded = round(number, self._decimals)
        return rounded if rounded >= number - 1e-9 else round(number + self._least, self._decimals)

    def _down(self, number: float) -> float:
        rounded = round(number, self._decimals)
        return rounded if rounded <= number + 1e-9 else round(number - self._least, self._decimals)

    def draw(self, allowed: Allowed | None, rng: Random) -> float | None:
        """Return a number of the set (of any cell where it is None), often near a limit."""
        cells = self._cells(allowed)
        if not cells:
            return None
        return self.draw_in(cells[rng.randrange(len(cells))], rng)

    def _cells(self, allowed: Allowed | None) -> list[int]:
        mask = self.axis.everything if allowed is None else self.axis.mask_of(allowed)
        inside = [cell for cell in cells_of(mask) if cell in self.rooms]
        if isinstance(allowed, Within):
            inside = [cell for cell in inside if self._is_within(cell, allowed)]
        return inside

    def _is_within(self, cell: int, allowed: Within) -> bool:
        place = cell.bit_length() - 1
        low, high = self.axis.cuts[place], self.axis.cuts[place + 1]
        return any(each.low <= low and high <= each.high for each in allowed.intervals)

    def draw_in(self, cell: int, rng: Random) -> float:
        """Return a number of a cell, often near one of its limits."""
        start, end = self.rooms[cell]
        if rng.random() < _BIAS_TO_LIMIT and self.step:
            reach = _NEAR * self.step
            place = cell.bit_length() - 1
            has_limit_below, has_limit_above = place > 0, place < self.axis.size - 1
            if has_limit_above and (not has_limit_below or rng.random() < 0.5):
                start = max(start, end - reach)
            elif has_limit_below:
                end = min(end, start + reach)
        return self._rounded(start + (end - start) * rng.random(), start, end)

    def draw_inside(self, fitting: Within, rng: Random) -> float | None:
        """Return a number of a narrow set that keeps clear of every limit, or None."""
        low, high = fitting.intervals[0].low[0], fitting.intervals[0].high[0]
        both = [
            (max(start, self._up(low)), min(end, self._down(high)))
            for start, end in self.rooms.values()
        ]
        rooms = [(start, end) for start, end in both if start <= end]
        if not rooms:
            return None
        start, end = rooms[rng.randrange(len(rooms))]
        return self._rounded(start + (end - start) * rng.random(), start, end)

    def _rounded(self, number: float, start: float, end: float) -> float:
        return min(max(round(number, self._decimals), start), end)

    def middle_of(self, low: float, high: float) -> float | None:
        """Return the number nearest the middle of a range that keeps clear of every limit."""
        middle = (low + high) / 2
        rooms = [(max(start, low), min(end, high)) for start, end in self.rooms.values()]
        found = [
            self._rounded(middle, start, end) for start, end in rooms if start <= end
        ]  # fmt: skip
        return min(found, key=lambda number: abs(number - middle), default=None)

    @cached_property
    def middles(self) -> tuple[float, ...]:
        """Return a number in the middle of every band in which a quiz ball may lie."""
        found = (self.middle_of(word.low, word.high) for word in self.trait.words)
        return tuple(number for number in found if number is not None)

    def beside(self, number: float) -> tuple[tuple[int, float], ...]:
        """Return (cell, number) on the near side of each neighbouring cell."""
        here = self.axis.mask_of(Within((Interval((number, 0), (number, 1)),)))
        found = []
        for cell in (here >> 1, here << 1):
            if cell in self.rooms:
                start, end = self.rooms[cell]
                reach = min(end - start, self.step)
                found.append(
                    (cell, self._rounded(end - reach if cell < here else start + reach, start, end))
                )
        return tuple(found)
