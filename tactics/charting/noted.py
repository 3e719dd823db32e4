"""What has been noted of the ball being charted: answers in the order they were given."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from tactics.model.ball import Ball
from tactics.model.choice import Cause, Choice
from tactics.model.known import Known, OneOf
from tactics.model.situation import Situation
from tactics.model.verdict import Grade

GAME_SITUATION = "game situation"
MARK, CAUSE = "coach's mark", "cause"

STANDING_FACTS = (
    "own hand", "opponent hand", "backhand grip", "stature", "level", "stage", "format",
    "surface", "wind", "wind strength", "restricted today",
)  # fmt: skip
"""Facts of a player or a day: asked once, then true until somebody says otherwise."""


_NOTHING_ASKED = {"landed": "", "as_intended": "", "ending": "", "disturbed": "no"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What one answer says. Outcome words go by the folded names of the vocabulary."""

    facts: tuple[tuple[str, Known], ...] = ()
    parts: tuple[tuple[str, Known], ...] = ()
    outcome: tuple[tuple[str, str], ...] = ()

    @classmethod
    def all_of(cls, several: Iterable["Told"]) -> "Told":
        """Return everything together; what was told later counts."""
        facts: dict[str, Known] = {}
        parts: dict[str, Known] = {}
        outcome: dict[str, str] = {}
        for each in several:
            facts |= dict(each.facts)
            parts |= dict(each.parts)
            outcome |= dict(each.outcome)
        return cls(
            facts=tuple(facts.items()), parts=tuple(parts.items()), outcome=tuple(outcome.items())
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """An answer, and the names of the questions it settles, be it with "not seen"."""

    settles: tuple[str, ...]
    told: Told = Told()


@dataclass(frozen=True, kw_only=True)
class Noted:
    """A ball as far as it is charted. standing: facts that hold for the whole lesson."""

    standing: tuple[tuple[str, Known], ...] = ()
    answers: tuple[Answer, ...] = ()

    @cached_property
    def told(self) -> Told:
        """Return what the answers say together."""
        return Told.all_of(answer.told for answer in self.answers)

    @cached_property
    def settled(self) -> frozenset[str]:
        """Return the names of the questions that have been answered."""
        return frozenset(name for answer in self.answers for name in answer.settles)

    @cached_property
    def situation(self) -> Situation:
        """Return the situation as far as it is known."""
        return Situation.of({**dict(self.standing), **dict(self.told.facts)})

    @cached_property
    def choice(self) -> Choice:
        """Return the choice as far as it is known."""
        return Choice.of(self.told.parts)

    def with_answer(self, answer: Answer) -> "Noted":
        """Return the ball with one more answer."""
        return replace(self, answers=(*self.answers, answer))

    def onto(self, ball: Ball) -> Ball:
        """Return a ball with its situation, choice and outcome as noted; marks not noted stay."""
        said = dict(self.told.outcome)
        cause, mark = said.pop(CAUSE, ""), said.pop(MARK, "")
        outcome = {
            **_NOTHING_ASKED,
            **{name.replace(" ", "_"): each for name, each in said.items()},
        }
        if not self.is_played:
            outcome["landed"] = "no stroke"
        return replace(
            ball,
            situation=self.situation,
            choice=self.choice,
            outcome=replace(ball.outcome, **outcome),
            cause=Cause(cause) if cause else ball.cause,
            mark=Grade(mark) if mark else ball.mark,
        )

    @cached_property
    def is_played(self) -> bool:
        """Say whether the ball was played, as far as anybody has said."""
        response = self.choice.get("response")
        return not isinstance(response, OneOf) or "played" in response.words
