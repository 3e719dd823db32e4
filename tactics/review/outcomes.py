"""The choice against what the ball did: two questions that are never answered for one another."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from tactics.model.audit import JudgedBall
from tactics.model.verdict import Kept


class Did(StrEnum):
    """Whether the ball did what was intended."""

    AS_INTENDED = "as intended"
    NOT_AS_INTENDED = "not as intended"
    NOT_NOTED = "not noted"


@dataclass(frozen=True, slots=True, kw_only=True)
class OutcomeTable:
    """Counts of (choice, ball), and how many balls were left out because something disturbed them.

    cells: (kept, did) -> balls.
    """

    cells: tuple[tuple[tuple[Kept, Did], int], ...]
    disturbed: int

    def count(self, kept: Kept, did: Did) -> int:
        """Return the number of balls in one cell."""
        return dict(self.cells).get((kept, did), 0)


def outcome_table(judged: Sequence[JudgedBall]) -> OutcomeTable:
    """Return the choice against what the ball did."""
    counted = [each for each in judged if not is_disturbed(each)]
    cells = Counter((each.verdict.kept, did(each)) for each in counted)
    return OutcomeTable(
        cells=tuple(((kept, done), cells[kept, done]) for kept in Kept for done in Did),
        disturbed=len(judged) - len(counted),
    )


def is_disturbed(each: JudgedBall) -> bool:
    """Say whether a net cord, a bad bounce, a gust or a let spoilt the ball."""
    return each.ball.outcome.disturbed not in ("", "no")


def did(each: JudgedBall) -> Did:
    """Return whether the ball did what was intended; "unsure" counts as not noted."""
    noted = each.ball.outcome.as_intended
    if noted == "yes":
        return Did.AS_INTENDED
    return Did.NOT_AS_INTENDED if noted == "no" else Did.NOT_NOTED
