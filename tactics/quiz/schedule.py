"""When a rule comes back: what every schedule has to answer, and how an answer is rated."""

from dataclasses import dataclass
from datetime import date
from enum import IntEnum
from typing import Protocol

from tactics.model.scenario import Answer, Credit


class Rating(IntEnum):
    """How well a rule was remembered at the first meeting of a day."""

    MISSED = 1
    UNSURE = 2
    KNOWN = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Memory:
    """What a schedule keeps of one rule. state: its own numbers, as text. last: day of review."""

    scheduler: str
    state: str
    last: date
    due: date


class Scheduler(Protocol):
    """Says when a rule comes back. Days only: no hour ever counts."""

    @property
    def name(self) -> str:
        """Return the name under which its memories are kept."""

    def after(self, memory: Memory | None, day: date, rating: Rating) -> Memory:
        """Return the memory after a review; a day before the last one counts as the last one."""

    def recall(self, memory: Memory, day: date) -> float:
        """Return the predicted share of being right on a day, 0 to 1."""

    def stability_days(self, memory: Memory) -> float:
        """Return how many days the prediction takes to fall to nine in ten."""

    def holds_until(self, memory: Memory, share: float) -> date:
        """Return the last day on which the prediction is at least `share`."""


def rating_of(answer: Answer) -> Rating | None:
    """Return the rating of an answer; None where nothing was answered, which is never rated.

    Being right and unsure, or half right, is as good as it gets without being sure.
    """
    match answer.credit:
        case None:
            return None
        case Credit.NONE:
            return Rating.MISSED
        case Credit.HALF:
            return Rating.UNSURE
        case Credit.FULL:
            return Rating.KNOWN if answer.sure else Rating.UNSURE


def review_day(memory: Memory | None, day: date) -> date:
    """Return the day of a review; a clock that was set back does not undo one."""
    return day if memory is None else max(day, memory.last)
