"""Every judged ball of one or more charts as columns, so that a whole season counts in no time.

A number in a report is a set of rows here: whatever is counted can be opened to its balls.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tactics.model.ball import Ball, Chart
from tactics.model.choice import Cause
from tactics.model.known import Known, OneOf
from tactics.model.standard import STANDARD
from tactics.model.verdict import Grade, Kept
from tactics.review.rates import Rate
from tactics.review.tallies import (
    GAME_SITUATION,
    OPEN_SITUATION,
    SITUATIONS,
    Session,
    Tally,
    session_of,
)

Rows = NDArray[np.intp]
Codes = NDArray[np.int8]
Marks = NDArray[np.bool_]

KEPT_CODES = (Kept.YES, Kept.NO, Kept.OPEN)
GRADE_CODES = tuple(Grade)
SITUATION_CODES = (*SITUATIONS, OPEN_SITUATION)
CAUSE_CODES = tuple(Cause)
ABSENT = -1
_YES, _NO, _OPEN = 0, 1, 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Heading:
    """The rows under one heading; open: could not be decided."""

    name: str
    kept: Rows
    broken: Rows
    open: Rows
    lessons: int

    @property
    def tally(self) -> Tally:
        """Return how many balls there are of each kind."""
        return Tally(
            name=self.name,
            kept=len(self.kept),
            broken=len(self.broken),
            open=len(self.open),
            lessons=self.lessons,
        )

    @property
    def kept_rate(self) -> Rate:
        """Return the share of decided balls that kept the rules."""
        return self.tally.kept_rate

    @property
    def broken_rate(self) -> Rate:
        """Return the share of decided balls that broke them."""
        return self.tally.broken_rate


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ledger:
    """N judged balls; every column has shape (N,), those of `met` and `broken` (rules, N).

    session: place in `sessions`, which are in the order of their dates. kept, grade, situation,
    cause: places in the *_CODES above, ABSENT where there is none. parts: part -> kept code,
    ABSENT where it was not graded. met: the ball is decided, and the rule spoke or only warns and
    was left alone; broken: the rule was charged; waiting: it spoke and the ball is not decided.
    None of them looks at what the ball did. warnings: the rules that only warn.
    """

    rule_set: str
    charts: tuple[Chart, ...]
    balls: tuple[Ball, ...]
    not_covered: tuple[Ball, ...]
    assumed: tuple[tuple[str, int], ...]
    sessions: tuple[Session, ...]
    session: Rows
    kept: Codes
    grade: Codes
    situation: Codes
    cause: Codes
    cause_is_proposed: Marks
    parts: Mapping[str, Codes]
    rules: tuple[str, ...]
    met: Marks
    broken: Marks
    waiting: Marks
    warnings: frozenset[str] = frozenset()

    @property
    def players(self) -> tuple[str, ...]:
        """Return the names on the chart, each once."""
        return tuple(sorted({player for player, _, _ in self.sessions if player}))

    def all(self) -> Heading:
        """Return every ball."""
        return self._heading("all", self.kept)

    def by_situation(self) -> tuple[Heading, ...]:
        """Return the game situations that occur, in the order of a point."""
        masks = ((name, self.situation == code) for code, name in enumerate(SITUATION_CODES))
        return tuple(
            self._heading(name, np.where(mask, self.kept, ABSENT))
            for name, mask in masks
            if mask.any()
        )

    def by_part(self) -> tuple[Heading, ...]:
        """Return the parts that were graded, in the order of the vocabulary."""
        names = (trait.folded for trait in STANDARD.parts if trait.folded in self.parts)
        found = (self._heading(name, self.parts[name]) for name in names)
        return tuple(each for each in found if each.tally.total)

    def by_rule(self) -> tuple[Heading, ...]:
        """Return the rules that decided a part: the most often broken first."""
        spoken = np.flatnonzero((self.met | self.broken | self.waiting).any(axis=1)).tolist()
        found = [self.rule(place) for place in spoken]
        return tuple(sorted(found, key=lambda e: (-len(e.broken), -len(e.kept), e.name)))

    def rule(self, place: int) -> Heading:
        """Return the balls that one rule decided."""
        codes = np.full(len(self.kept), ABSENT, np.int8)
        codes[self.waiting[place]] = _OPEN
        codes[self.met[place]] = _YES
        codes[self.broken[place]] = _NO
        return self._heading(self.rules[place], codes)

    def by_cause(self) -> tuple[tuple[Cause, Rows, Rows], ...]:
        """Return (cause, rows where the coach said so, rows where it is only proposed)."""
        found = (
            (cause, np.flatnonzero(mask & ~self.cause_is_proposed),
             np.flatnonzero(mask & self.cause_is_proposed))
            for cause, mask in ((cause, self.cause == c) for c, cause in enumerate(CAUSE_CODES))
        )  # fmt: skip
        return tuple(each for each in found if len(each[1]) or len(each[2]))

    def by_session(self) -> tuple[tuple[Session, Heading], ...]:
        """Return every lesson or match in the order of its date."""
        order = np.argsort(self.session, kind="stable")
        bounds = np.searchsorted(self.session[order], np.arange(len(self.sessions) + 1))
        return tuple(
            (each, self._of_rows(each[1], order[bounds[place] : bounds[place + 1]]))
            for place, each in enumerate(self.sessions)
        )

    def _of_rows(self, name: str, rows: Rows) -> Heading:
        kept = self.kept[rows]
        return Heading(
            name=name,
            kept=rows[kept == _YES],
            broken=rows[kept == _NO],
            open=rows[kept == _OPEN],
            lessons=1,
        )

    def _heading(self, name: str, codes: NDArray[np.signedinteger]) -> Heading:
        kept, broken = np.flatnonzero(codes == _YES), np.flatnonzero(codes == _NO)
        decided = np.concatenate((kept, broken))
        return Heading(
            name=name,
            kept=kept,
            broken=broken,
            open=np.flatnonzero(codes == _OPEN),
            lessons=int(np.count_nonzero(np.bincount(self.session[decided]))),
        )


def sessions_of(balls: Sequence[Ball]) -> tuple[tuple[Session, ...], Rows]:
    """Return the lessons in the order of their dates, and each ball's place among them.

    Lessons of one day, and those without a date, stay in the order of the chart.
    """
    first: dict[Session, int] = {}
    found = [first.setdefault(session_of(ball), len(first)) for ball in balls]
    ordered = sorted(first, key=lambda each: (each[1], first[each]))
    place = np.empty(len(first), np.intp)
    for rank, each in enumerate(ordered):
        place[first[each]] = rank
    return tuple(ordered), place[np.array(found, np.intp)]


def situations_of(balls: Iterable[Ball]) -> Codes:
    """Return the code of each ball's game situation."""
    return _codes(SITUATION_CODES.index(_phase(b.situation.get(GAME_SITUATION))) for b in balls)


def _phase(known: Known) -> str:
    if isinstance(known, OneOf) and len(known.words) == 1:
        return next(iter(known.words))
    return OPEN_SITUATION


def _codes(values: Iterable[int]) -> Codes:
    return np.fromiter(values, np.int8)
