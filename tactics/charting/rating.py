"""A second coach's sitting: one ball after another, in an order that gives nothing away."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random

from tactics.charting.keys import keys_for
from tactics.reading.ratings import RATINGS

KEYS = tuple(zip(keys_for(RATINGS), RATINGS, strict=True))
_LONGEST_REASON = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Rated:
    """An answer: number of the ball in its chart, the word, and why."""

    place: int
    rating: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sitting:
    """Where a sitting stands.

    waiting: balls to come, the current one first. done: how many are rated. picked: the word
    chosen for the current ball, whose reason is being written. last: what undo takes back.
    """

    waiting: tuple[int, ...]
    done: int = 0
    picked: str = ""
    text: str = ""
    last: Rated | None = None

    @property
    def current(self) -> int | None:
        """Return the number of the ball to rate, or None at the end."""
        return self.waiting[0] if self.waiting else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """The sitting after a key, and what has to be on disk before anything else is asked."""

    sitting: Sitting
    save: Rated | None = None


def shuffled(count: int, seed: str) -> tuple[int, ...]:
    """Return the numbers of all balls in an order that the seed alone decides."""
    order = list(range(count))
    Random(f"rating {seed}").shuffle(order)
    return tuple(order)


def start(order: Sequence[int], rated: frozenset[int]) -> Sitting:
    """Return a sitting that goes on where it was left."""
    waiting = tuple(place for place in order if place not in rated)
    return Sitting(waiting=waiting, done=len(order) - len(waiting))


def pick(sitting: Sitting, word: str) -> Sitting:
    """Return the sitting with a word for the current ball; its reason comes next."""
    return replace(sitting, picked=word, text="")


def typed(sitting: Sitting, text: str) -> Sitting:
    """Return the sitting with more of a reason written."""
    kept = "".join(sign for sign in text if sign.isprintable())
    return replace(sitting, text=(sitting.text + kept)[:_LONGEST_REASON])


def finish(sitting: Sitting) -> Step:
    """Return the sitting at the next ball, and the answer to be saved."""
    place = sitting.current
    if place is None or not sitting.picked:
        return Step(sitting=sitting)
    rated = Rated(place=place, rating=sitting.picked, reason=sitting.text.strip())
    after = Sitting(waiting=sitting.waiting[1:], done=sitting.done + 1, last=rated)
    return Step(sitting=after, save=rated)


def undo(sitting: Sitting) -> Sitting:
    """Return the sitting one answer back: a word not yet finished, else the last ball again.

    The ball comes again and its new answer counts; what stands on disk is not taken away.
    """
    if sitting.picked:
        return replace(sitting, picked="", text="")
    if sitting.last is None:
        return sitting
    return Sitting(waiting=(sitting.last.place, *sitting.waiting), done=sitting.done - 1)
