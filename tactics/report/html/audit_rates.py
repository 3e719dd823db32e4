"""The numbers of an audit as the template places them: each with its balls."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from tactics.model.rule import RuleSet
from tactics.model.verdict import Kept
from tactics.report.html.ball_cards import BallList, Deck
from tactics.report.html.dots import ShownRate, shown_rate
from tactics.report.verdicts import find_rule
from tactics.review.ledger import KEPT_CODES, Heading, Ledger, Marks, Rows
from tactics.review.outcomes import Did


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A count and the balls behind it; more: what it asks for, in a few words."""

    says: str
    balls: BallList
    more: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RateRow:
    """A heading with its share kept, and its balls: against, open, kept."""

    name: str
    title: str
    rate: ShownRate
    numbers: tuple[Number, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """A row of a table of numbers."""

    name: str
    cells: tuple[Number, ...]


_CHOICE = {
    Kept.YES: "choice kept the rules",
    Kept.NO: "choice did not keep them",
    Kept.OPEN: "choice undecided",
}
_ASKS = {
    (Kept.YES, Did.AS_INTENDED): "say so, and go on",
    (Kept.YES, Did.NOT_AS_INTENDED): "keep the choice, work on stroke and timing",
    (Kept.NO, Did.AS_INTENDED): "worth a word although it came off",
    (Kept.NO, Did.NOT_AS_INTENDED): "the choice first, the stroke later",
}
_DONE = {"yes": Did.AS_INTENDED, "no": Did.NOT_AS_INTENDED}


def rate_row(heading: Heading, deck: Deck, title: str = "") -> RateRow:
    """Return a heading as a row."""
    pairs = (("against", heading.broken), ("open", heading.open), ("kept", heading.kept))
    return RateRow(
        name=heading.name,
        title=title,
        rate=shown_rate(heading.kept_rate),
        numbers=tuple(
            Number(says=f"{len(rows)} {said}", balls=deck.list_of(rows))
            for said, rows in pairs
            if len(rows)
        ),
    )


def rule_rows(ledger: Ledger, deck: Deck, rules: RuleSet) -> tuple[RateRow, ...]:
    """Return every rule that decided a ball, the most often broken first."""
    return tuple(
        rate_row(heading, deck, getattr(find_rule(rules, heading.name), "title", ""))
        for heading in ledger.by_rule()
    )


def outcome_rows(ledger: Ledger, deck: Deck) -> tuple[tuple[TableRow, ...], int]:
    """Return the choice against what the ball did, and how many disturbed balls are left out."""
    disturbed = _marks(ledger, lambda ball: ball.outcome.disturbed not in ("", "no"))
    done = np.array([_done(ball.outcome.as_intended) for ball in ledger.balls], dtype=object)
    rows = []
    for code, kept in enumerate(KEPT_CODES):
        mine = (ledger.kept == code) & ~disturbed
        if mine.any():
            cells = ((did, np.flatnonzero(mine & (done == did))) for did in Did)
            numbers = tuple(_cell(balls, deck, _ASKS.get((kept, did), "")) for did, balls in cells)
            rows.append(TableRow(name=_CHOICE[kept], cells=numbers))
    return tuple(rows), int(disturbed.sum())


def _cell(balls: Rows, deck: Deck, asks: str = "") -> Number:
    return Number(says=str(len(balls)), balls=deck.list_of(balls), more=asks if len(balls) else "")


def _done(noted: str) -> Did:
    return _DONE.get(noted, Did.NOT_NOTED)


def _marks(ledger: Ledger, holds: Callable[..., bool]) -> Marks:
    return np.fromiter((holds(ball) for ball in ledger.balls), np.bool_, len(ledger.balls))


def cause_rows(ledger: Ledger, deck: Deck) -> tuple[TableRow, ...]:
    """Return the causes: said by the coach, and proposed."""
    return tuple(
        TableRow(
            name=str(cause),
            cells=tuple(_cell(rows, deck) for rows in (said, proposed)),
        )
        for cause, said, proposed in ledger.by_cause()
    )


def grade_rows(ledger: Ledger, deck: Deck, grades: Sequence[str]) -> Iterator[Number]:
    """Yield each grade with its balls."""
    for code, grade in enumerate(grades):
        rows = np.flatnonzero(ledger.grade == code)
        yield Number(says=f"{len(rows)} {grade}", balls=deck.list_of(rows))
