"""Each rule against itself: how its share kept moved, beside rules that the quiz has not asked yet.

Different rules have different shares, so shares of one group are never set against those of the
other: only changes are, each rule's own, weighted by its balls (Mantel and Haenszel 1959).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from tactics.review.comparing import wilson_of
from tactics.review.ledger import Heading, Ledger
from tactics.review.rates import SMALLEST_N
from tactics.review.spread import Spread, likeness, spread_of
from tactics.review.trend import Said

Lessons = NDArray[np.bool_]
_Side = tuple[float, float]
"""A share, and how many independent balls it rests on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """How far a share moved, -1 to 1, and its 95 % interval."""

    by: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Rules of one kind, and their balls before and since."""

    rules: int
    before: int
    since: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """How far both groups moved, and how much further the rules asked did."""

    asked: Moved
    not_yet: Moved
    apart: Moved

    @property
    def says(self) -> Said:
        """Return what may be said."""
        is_apart = self.apart.low > 0 or self.apart.high < 0
        return Said.BEYOND_CHANCE if is_apart else Said.COULD_BE_CHANCE


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnChange:
    """Rules asked, and rules not asked yet over the same dates; only those met before and since.

    The balls of rules not asked yet are the fewest at any day on which a rule was first asked.
    moved: None where there are not enough balls.
    """

    asked: Group
    not_yet: Group
    moved: Comparison | None


def own_change(
    ledger: Ledger, headings: Sequence[Heading], first_days: Mapping[str, date]
) -> OwnChange:
    """Return how rules moved from before the day they were first asked to since.

    headings: the rules that count; first_days: of those among them that the quiz asked.
    """
    return _Cut(ledger, headings, first_days).whole()


class _Cut:
    """Balls by rule and lesson, cut at the day each rule was first asked."""

    def __init__(
        self, ledger: Ledger, headings: Sequence[Heading], first_days: Mapping[str, date]
    ) -> None:
        self._days = np.array([day for _, day, _ in ledger.sessions], dtype="U10")
        self._dated = self._days != ""
        last = max((day for _, day, _ in ledger.sessions), default="")
        days = {rule: day.isoformat() for rule, day in first_days.items()}
        cut = {place: days[e.name] for place, e in enumerate(headings) if e.name in days}
        self._asked = [(place, day) for place, day in cut.items() if day <= last]
        self._waiting = [p for p in range(len(headings)) if cut.get(p, "9999") > last]
        self._spread = self._alike(spread_of(ledger, headings))

    def whole(self) -> OwnChange:
        """Return both groups and how they moved."""
        met = [each for each in self._asked if self._is_met(*each)]
        fit = [each for each in met if min(self._counts(self._beside(each[1]))) >= SMALLEST_N]
        asked = fit or met
        before, since = self._counts(asked)
        beside = [self._counts(self._beside(day)) for _, day in asked]
        fewest = [min((each[side] for each in beside), default=0) for side in (0, 1)]
        not_yet = {place for _, day in asked for place, _ in self._beside(day)}
        is_enough = min(before, since, *fewest) >= SMALLEST_N
        return OwnChange(
            asked=Group(rules=len(asked), before=before, since=since),
            not_yet=Group(rules=len(not_yet), before=fewest[0], since=fewest[1]),
            moved=self._compared(asked) if is_enough else None,
        )

    def _alike(self, spread: Spread) -> Spread:
        """Return the spread with the likeness of lessons on one side of a rule's own day."""
        sides = [
            (place, side) for place, day in self._asked for side in self._sides(day)
        ] + [(place, self._dated) for place in self._waiting]  # fmt: skip
        broken = [spread.broken[place][side] for place, side in sides]
        met = [spread.met[place][side] for place, side in sides]
        return Spread(broken=spread.broken, met=spread.met, alike=likeness(broken, met))

    def _sides(self, day: str) -> tuple[Lessons, Lessons]:
        late = self._days >= day
        return self._dated & ~late, self._dated & late

    def _is_met(self, place: int, day: str) -> bool:
        return min(self._counts([(place, day)])) > 0

    def _beside(self, day: str) -> list[tuple[int, str]]:
        """Return the rules not asked yet that were met before a day and since."""
        return [(place, day) for place in self._waiting if self._is_met(place, day)]

    def _counts(self, cut: Sequence[tuple[int, str]]) -> tuple[int, int]:
        both = [(place, *self._sides(day)) for place, day in cut]
        return (
            sum(int(self._spread.met[place][early].sum()) for place, early, _ in both),
            sum(int(self._spread.met[place][late].sum()) for place, _, late in both),
        )

    def _side(self, place: int, lessons: Lessons) -> _Side:
        met, broken = self._spread.met[place][lessons], self._spread.broken[place][lessons]
        return 1 - float(broken.sum() / met.sum()), self._spread.worth(place, lessons)

    def _pair(self, place: int, day: str) -> tuple[_Side, _Side]:
        early, late = self._sides(day)
        return self._side(place, early), self._side(place, late)

    def _compared(self, asked: Sequence[tuple[int, str]]) -> Comparison:
        """Return both changes; rules not asked yet are cut at the days of those asked.

        Their balls count again for every day, so the errors of the days are taken as fully alike.
        """
        pairs = [self._pair(*each) for each in asked]
        weights = [_weight(*each) for each in pairs]
        moved = _weighted(pairs)
        beside = [_weighted([self._pair(*e) for e in self._beside(day)]) for _, day in asked]
        not_yet = Moved(
            by=_mean(weights, [each.by for each in beside]),
            low=_mean(weights, [each.low for each in beside]),
            high=_mean(weights, [each.high for each in beside]),
        )
        return Comparison(asked=moved, not_yet=not_yet, apart=_apart(moved, not_yet))


def _mean(weights: Sequence[float], values: Sequence[float]) -> float:
    return sum(w * v for w, v in zip(weights, values, strict=True)) / sum(weights)


def _weight(before: _Side, since: _Side) -> float:
    return before[1] * since[1] / (before[1] + since[1])


def _weighted(pairs: Sequence[tuple[_Side, _Side]]) -> Moved:
    """Return the weighted change of several rules, with an interval from those of the shares.

    Squared distances to Wilson's ends are added as Newcombe (1998) does for one difference.
    """
    weights = [_weight(*each) for each in pairs]
    total = sum(weights)
    by = down = up = 0.0
    for weight, (before, since) in zip(weights, pairs, strict=True):
        share = weight / total
        (low_b, high_b), (low_s, high_s) = wilson_of(*before), wilson_of(*since)
        by += share * (since[0] - before[0])
        down += share**2 * ((since[0] - low_s) ** 2 + (high_b - before[0]) ** 2)
        up += share**2 * ((high_s - since[0]) ** 2 + (before[0] - low_b) ** 2)
    return _within(by, by - sqrt(down), by + sqrt(up), 1.0)


def _apart(one: Moved, other: Moved) -> Moved:
    """Return how much more one moved than the other (Newcombe's way once more)."""
    by = one.by - other.by
    down = sqrt((one.by - one.low) ** 2 + (other.high - other.by) ** 2)
    up = sqrt((one.high - one.by) ** 2 + (other.by - other.low) ** 2)
    return _within(by, by - down, by + up, 2.0)


def _within(by: float, low: float, high: float, most: float) -> Moved:
    return Moved(by=by, low=max(-most, low), high=min(most, high))
