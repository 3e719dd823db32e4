"""The schedule by fsrs: the only module that knows that package.

It is given noon UTC of the study day for every review, so that whole days count and no hour;
its steps within a day and its random shifts of days are switched off.
"""

from datetime import date, timedelta
from functools import cached_property

import fsrs

from tactics.quiz.days import noon
from tactics.quiz.schedule import Memory, Rating, review_day

_WANTED_RECALL = 0.9
_LONGEST_DAYS = 30
_SEARCH_DAYS = 36_500
_CARD = 1


class FsrsScheduler:
    """Predicts recall by a power law of forgetting; asks again when it falls to nine in ten.

    The state of a memory is its stability in days and its difficulty.
    """

    name = "fsrs"

    @cached_property
    def _scheduler(self) -> fsrs.Scheduler:
        return fsrs.Scheduler(
            desired_retention=_WANTED_RECALL,
            learning_steps=(),
            relearning_steps=(),
            maximum_interval=_LONGEST_DAYS,
            enable_fuzzing=False,
        )

    def after(self, memory: Memory | None, day: date, rating: Rating) -> Memory:
        """Return the memory after a review."""
        today = review_day(memory, day)
        # a card without a number of its own would sleep to find one
        new = fsrs.Card(card_id=_CARD, due=noon(today)) if memory is None else _card(memory)
        card, _ = self._scheduler.review_card(new, fsrs.Rating(int(rating)), noon(today))
        return Memory(
            scheduler=self.name,
            state=f"{card.stability!r} {card.difficulty!r}",
            last=today,
            due=card.due.date(),
        )

    def recall(self, memory: Memory, day: date) -> float:
        """Return the predicted share of being right on a day."""
        return self._recall(_card(memory), max(day, memory.last))

    def _recall(self, card: fsrs.Card, day: date) -> float:
        return float(self._scheduler.get_card_retrievability(card, noon(day)))

    def stability_days(self, memory: Memory) -> float:
        """Return how many days the prediction takes to fall to nine in ten."""
        return float(memory.state.split()[0])

    def holds_until(self, memory: Memory, share: float) -> date:
        """Return the last day on which the prediction is at least `share`."""
        card, low, high = _card(memory), 0, _SEARCH_DAYS
        while low < high:
            middle = (low + high + 1) // 2
            if self._recall(card, memory.last + timedelta(days=middle)) >= share:
                low = middle
            else:
                high = middle - 1
        return memory.last + timedelta(days=low)


def _card(memory: Memory) -> fsrs.Card:
    stability, difficulty = map(float, memory.state.split())
    return fsrs.Card(
        card_id=_CARD,
        state=fsrs.State.Review,
        stability=stability,
        difficulty=difficulty,
        due=noon(memory.due),
        last_review=noon(memory.last),
    )
