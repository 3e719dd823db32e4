"""The coach's own marks and open facts on the columns of a season."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tactics.model.verdict import KEPT, Grade
from tactics.review.ledger import GRADE_CODES, Ledger, Rows


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MarkedRows:
    """Balls the coach marked: same word, same side, apart, or undecided by the rules."""

    same: Rows
    near: Rows
    apart: Rows
    open: Rows

    @property
    def marked(self) -> int:
        """Return how many balls carry the coach's own mark."""
        return len(self.same) + len(self.near) + len(self.apart) + len(self.open)


def marked_rows(ledger: Ledger) -> MarkedRows:
    """Return how the coach's marks go with the grades; neither overwrites the other."""
    found: dict[str, list[int]] = {"same": [], "near": [], "apart": [], "open": []}
    for row, ball in enumerate(ledger.balls):
        if ball.mark is not None:
            found[_compared(ball.mark, GRADE_CODES[ledger.grade[row]])].append(row)
    rows = {name: np.array(some, np.intp) for name, some in found.items()}
    return MarkedRows(**rows)


def _compared(mark: Grade, grade: Grade) -> str:
    if grade is Grade.UNDECIDED:
        return "open"
    if grade is mark:
        return "same"
    return "near" if (mark in KEPT) is (grade in KEPT) else "apart"


def quoted_words(notes: Sequence[str]) -> tuple[str, ...]:
    """Return what stands in quotation marks in notes: the player's own words, each once."""
    found = Counter(said for note in notes for said in _quotes(note))
    return tuple(found)


def _quotes(note: str) -> list[str]:
    straight = note.replace("\N{LEFT DOUBLE QUOTATION MARK}", '"')
    pieces = straight.replace("\N{RIGHT DOUBLE QUOTATION MARK}", '"').split('"')
    inside = pieces[1::2] if len(pieces) % 2 else pieces[1:-1:2]
    return [text.strip() for text in inside if text.strip()]
