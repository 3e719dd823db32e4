"""The choice against what the ball did: two questions that are never answered for one another."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from tactics.model.ball import Ball
from tactics.model.verdict import Kept
from tactics.review.ledger import KEPT_CODES, Ledger, Rows


class Did(StrEnum):
    """Whether the ball did what was intended."""

    AS_INTENDED = "as intended"
    NOT_AS_INTENDED = "not as intended"
    NOT_NOTED = "not noted"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OutcomeTable:
    """The balls of each (choice, ball); disturbed: balls left out because something spoilt them."""

    cells: Mapping[tuple[Kept, Did], Rows]
    disturbed: Rows

    def count(self, kept: Kept, did: Did) -> int:
        """Return the number of balls in one cell."""
        return len(self.cells[kept, did])


def outcome_table(ledger: Ledger) -> OutcomeTable:
    """Return the choice against what the ball did."""
    count = len(ledger.balls)
    disturbed = np.fromiter((is_disturbed(ball) for ball in ledger.balls), np.bool_, count)
    done = np.array([did(ball) for ball in ledger.balls], dtype=object)
    return OutcomeTable(
        cells={
            (kept, each): np.flatnonzero(~disturbed & (ledger.kept == code) & (done == each))
            for code, kept in enumerate(KEPT_CODES)
            for each in Did
        },
        disturbed=np.flatnonzero(disturbed),
    )


def is_disturbed(ball: Ball) -> bool:
    """Say whether a net cord, a bad bounce, a gust or a let spoilt the ball."""
    return ball.outcome.disturbed not in ("", "no")


def did(ball: Ball) -> Did:
    """Return whether the ball did what was intended; "unsure" counts as not noted."""
    noted = ball.outcome.as_intended
    if noted == "yes":
        return Did.AS_INTENDED
    return Did.NOT_AS_INTENDED if noted == "no" else Did.NOT_NOTED
