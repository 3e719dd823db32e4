"""Then and now: what changed between two periods, how sure that is, and what would make it sure."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from tactics.review.comparing import CHANCE, balls_needed, chance_of_change, holm, newcombe
from tactics.review.ledger import Heading, Ledger
from tactics.review.rates import Rate, Standing
from tactics.review.spread import Spread, design_effect, likeness, spread_of

USEFUL_STEP = 0.15
"""A change that a coach would like to see, as a share."""


class Said(StrEnum):
    """What may be said about a change."""

    NOT_ENOUGH = "not enough balls yet"
    COULD_BE_CHANCE = "chance alone could explain it"
    BEYOND_CHANCE = "beyond what chance would do"


@dataclass(frozen=True, slots=True, kw_only=True)
class Period:
    """Lessons from one day to another; without dates the days are empty."""

    first: str
    last: str
    lessons: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """The share that kept the rules under one heading, then and now.

    interval: of the change, with the likeness of balls of one lesson allowed for. chance: how
    often chance alone moves it so far, with everything compared allowed for. needed: balls in each
    period that would show a change by `USEFUL_STEP`.
    """

    kind: str
    name: str
    before: Rate
    after: Rate
    interval: tuple[float, float]
    chance: float
    needed: int

    @property
    def says(self) -> Said:
        """Return what may be said."""
        if Standing.NOT_ENOUGH in (self.before.standing, self.after.standing):
            return Said.NOT_ENOUGH
        return Said.BEYOND_CHANCE if self.chance < CHANCE else Said.COULD_BE_CHANCE


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """Two periods and what changed. compared: how many headings had enough balls in both.

    too_few: rules met that have not. undated: balls left out because they carry no date.
    """

    before: Period
    after: Period
    changes: tuple[Change, ...]
    compared: int
    too_few: int
    undated: int


def trend(ledger: Ledger, since: str = "") -> Trend | None:
    """Return what changed from the lessons before a day to those from it on; None with one lesson.

    since: ISO day; where it is empty the later half of the lessons is compared with the earlier.
    """
    early, late = _halves(ledger, since)
    if not early.any() or not late.any():
        return None
    situations = [ledger.all(), *ledger.by_situation()]
    rules = ledger.by_rule()
    changes = [
        *_changes("game situation", situations, ledger, early, late),
        *_changes("rule", rules, ledger, early, late),
    ]
    enough = [each for each in changes if each.says is not Said.NOT_ENOUGH]
    adjusted = holm([each.chance for each in enough])
    left_out = ~(early | late)
    return Trend(
        before=_period(ledger, early),
        after=_period(ledger, late),
        changes=tuple(replace(e, chance=c) for e, c in zip(enough, adjusted, strict=True)),
        compared=len(enough),
        too_few=sum(e.kind == "rule" and e.says is Said.NOT_ENOUGH for e in changes),
        undated=int(np.isin(ledger.session, np.flatnonzero(left_out)).sum()),
    )


def _halves(ledger: Ledger, since: str) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Return which lessons are early and which late; where some have a date, only those count."""
    days = [day for _, day, _ in ledger.sessions]
    dated = np.array([bool(day) for day in days], np.bool_)
    if since:
        late = np.array([day >= since for day in days], np.bool_) & dated
        return dated & ~late, late
    counted = dated if dated.any() else ~dated
    rank = np.cumsum(counted)
    early = counted & (rank <= counted.sum() // 2)
    return early, counted & ~early


def _period(ledger: Ledger, lessons: NDArray[np.bool_]) -> Period:
    days = [day for (_, day, _), is_in in zip(ledger.sessions, lessons, strict=True) if is_in]
    return Period(first=min(days), last=max(days), lessons=len(days))


def _changes(
    kind: str,
    headings: Sequence[Heading],
    ledger: Ledger,
    early: NDArray[np.bool_],
    late: NDArray[np.bool_],
) -> list[Change]:
    spread = _within(spread_of(ledger, headings), early, late)
    return [_change(kind, place, each, spread, early, late) for place, each in enumerate(headings)]


def _within(spread: Spread, *periods: NDArray[np.bool_]) -> Spread:
    """Return the spread with the likeness of lessons of one period.

    Over both periods a real change would itself look like lessons that differ, and hide.
    """
    broken = [each[period] for each in spread.broken for period in periods]
    met = [each[period] for each in spread.met for period in periods]
    return replace(spread, alike=likeness(broken, met))


def _change(
    kind: str,
    place: int,
    heading: Heading,
    spread: Spread,
    early: NDArray[np.bool_],
    late: NDArray[np.bool_],
) -> Change:
    before, after = _rate(spread, place, early), _rate(spread, place, late)
    shares = (before.count / max(1, before.n), after.count / max(1, after.n))
    worth = (spread.worth(place, early), spread.worth(place, late))
    effect = design_effect(spread.met[place], spread.alike)
    step = USEFUL_STEP if shares[0] <= 1 - USEFUL_STEP else -USEFUL_STEP
    return Change(
        kind=kind,
        name=heading.name,
        before=before,
        after=after,
        interval=newcombe(shares[0], worth[0], shares[1], worth[1]),
        chance=chance_of_change(shares[0], worth[0], shares[1], worth[1]),
        needed=round(effect * balls_needed(shares[0], shares[0] + step)),
    )


def _rate(spread: Spread, place: int, lessons: NDArray[np.bool_]) -> Rate:
    met = spread.met[place][lessons]
    n, broken = int(met.sum()), int(spread.broken[place][lessons].sum())
    return Rate(count=n - broken, n=n, lessons=int((met > 0).sum()))
