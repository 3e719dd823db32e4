"""Fixed boxes: right answers move a rule up a box, a miss sends it back to the first."""

from dataclasses import dataclass
from datetime import date, timedelta
from math import floor, log

from tactics.quiz.schedule import Memory, Rating, review_day

DAYS = (1, 2, 4, 8, 16, 24)
_AT_DUE = 0.9
"""Predicted share of being right on the day a box is due: an assumption, not a measurement."""


@dataclass(frozen=True, slots=True)
class Boxes:
    """The plain schedule, for comparison and for a computer without fsrs."""

    name: str = "boxes"

    def after(self, memory: Memory | None, day: date, rating: Rating) -> Memory:
        """Return the memory after a review."""
        today = review_day(memory, day)
        box = -1 if memory is None else int(memory.state)
        match rating:
            case Rating.MISSED:
                box = 0
            case Rating.UNSURE:
                box = max(box, 0)
            case Rating.KNOWN:
                box = min(box + 1, len(DAYS) - 1)
        due = today + timedelta(days=DAYS[box])
        return Memory(scheduler=self.name, state=str(box), last=today, due=due)

    def recall(self, memory: Memory, day: date) -> float:
        """Return the predicted share of being right on a day."""
        gone = max((day - memory.last).days, 0)
        return float(_AT_DUE ** (gone / DAYS[int(memory.state)]))

    def stability_days(self, memory: Memory) -> float:
        """Return the days of the box."""
        return float(DAYS[int(memory.state)])

    def holds_until(self, memory: Memory, share: float) -> date:
        """Return the last day on which the prediction is at least `share`."""
        days = DAYS[int(memory.state)] * log(share) / log(_AT_DUE)
        return memory.last + timedelta(days=floor(days + 1e-9))
