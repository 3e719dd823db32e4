"""One player at one quiz: every answer is kept before it is answered back."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Protocol

from tactics.model.scenario import Answer, Option, Scenario
from tactics.quiz.feedback import Feedback, feedback
from tactics.quiz.steps import (
    Disagree,
    Event,
    Next,
    Pick,
    QuizState,
    Saved,
    Stage,
    Stop,
    Twin,
    next_step,
)
from tactics.report.court_picture import Spot


class Keeper(Protocol):
    """Where answers are kept. Each returns a sentence where that did not work, else nothing."""

    def keep(self, scenario: Scenario, answer: Answer) -> str:
        """Put an answer on disk; only then is it answered back."""
        ...

    def remark(self, text: str) -> str:
        """Put a line for the coach beside the last answer."""
        ...


class Rest(Protocol):
    """The questions after the first, which may be in the making while that one is read."""

    def begin(self) -> None:
        """Start making them, if that has not been done."""
        ...

    def ready(self) -> tuple[Scenario, ...]:
        """Return them, and wait for them if need be."""
        ...


class NoMore:
    """No questions after those that are there already."""

    def begin(self) -> None:
        """Do nothing."""

    def ready(self) -> tuple[Scenario, ...]:
        """Return no question."""
        return ()


GradeSpot = Callable[[Scenario, Spot], Option]
"""Grades a target of the player's own."""


@dataclass(slots=True)
class Sitting:
    """The state of a quiz, and what moves it.

    trouble: why an answer could not be kept; the quiz ends there.
    """

    state: QuizState
    keeper: Keeper
    now: Callable[[], datetime]
    grade: GradeSpot
    rest: Rest = field(default_factory=NoMore)
    trouble: str = ""

    @property
    def is_last(self) -> bool:
        """Say whether no question comes after this one."""
        return self.state.number >= self.state.total and not self.state.waiting

    @property
    def scenario(self) -> Scenario:
        """Return the question on the table."""
        if self.state.current is None:
            raise ValueError("there is no question")
        return self.state.current

    @property
    def reply(self) -> Feedback | None:
        """Return what is said to the answer, once it is kept."""
        return feedback(self.state)

    @property
    def is_over(self) -> bool:
        """Say whether there is nothing more to show."""
        return self.state.stage is Stage.OVER or bool(self.trouble)

    def does(self, event: Event) -> None:
        """Take a step; an answer it gives is kept at once."""
        self._step(event)
        answer = self.state.unsaved
        if answer is None:
            return
        self.trouble = self.keeper.keep(self.scenario, answer)
        if not self.trouble:
            self._step(Saved())

    def aims(self, spot: Spot) -> None:
        """Answer with a place on the court."""
        self.does(Pick(number=None, free=self.grade(self.scenario, spot)))

    def goes_on(self, *, with_twin: bool = False) -> None:
        """Go to the next question, or to the same one with one fact changed."""
        if not self.state.waiting:
            more = self.rest.ready()
            self.rest = NoMore()
            total = self.state.number + len(more)
            self.state = replace(self.state, waiting=more, total=total)
        self.does(Twin() if with_twin else Next())

    def disagrees(self, text: str) -> None:
        """Leave a line for the coach."""
        self._step(Disagree(text=text))
        self.trouble = self.keeper.remark(text)

    def stops(self) -> None:
        """End the quiz; everything answered so far stays."""
        if not self.is_over:
            self._step(Stop())

    def _step(self, event: Event) -> None:
        self.state = next_step(self.state, event, self.now())
