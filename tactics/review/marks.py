"""The coach's own mark beside the tool's grade; neither overwrites the other."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.model.audit import JudgedBall
from tactics.model.verdict import KEPT, Grade


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """Balls the coach marked and the rules decided: same word, same side of the line, or apart.

    open: marked by the coach, undecided by the rules.
    """

    same: int
    near: int
    apart: tuple[JudgedBall, ...]
    open: int

    @property
    def marked(self) -> int:
        """Return how many balls carry the coach's own mark."""
        return self.same + self.near + len(self.apart) + self.open


def compare_marks(judged: Sequence[JudgedBall]) -> Marks:
    """Return how the coach's marks go with the grades.

    near: both call it good, or both call it bad, in different words.
    """
    marked = [each for each in judged if each.ball.mark is not None]
    decided = [each for each in marked if each.verdict.grade is not Grade.UNDECIDED]
    same = sum(each.ball.mark is each.verdict.grade for each in decided)
    apart = tuple(each for each in decided if _is_good(each) is not (each.ball.mark in KEPT))
    return Marks(
        same=same,
        near=len(decided) - same - len(apart),
        apart=apart,
        open=len(marked) - len(decided),
    )


def _is_good(each: JudgedBall) -> bool:
    return each.verdict.grade in KEPT
