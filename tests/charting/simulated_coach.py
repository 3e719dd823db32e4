"""A coach who saw everything and answers the form truthfully, one key after another."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.charting.noted import GAME_SITUATION, STANDING_FACTS, Answer, Noted, Told
from tactics.charting.question import OUTCOME, Question
from tactics.charting.questions import Form, seen_before
from tactics.model.ball import Ball
from tactics.model.known import Known
from tactics.source import Span
from tests.charting.lessons import TrueBall

NOWHERE = Span(file="lesson", line=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Charted:
    """A ball as it was charted, and how many keys that took."""

    ball: Ball
    keys: int


def chart_lesson(truths: Sequence[TrueBall], form: Form) -> list[Charted]:
    """Return the balls of a lesson as the quick form charts them.

    The game situation of the ball before is filled in: another one costs a key, the same none.
    """
    charted: list[Charted] = []
    balls: list[Ball] = []
    for truth in truths:
        phase = truth.situation.get(GAME_SITUATION)
        is_same = bool(balls) and balls[-1].situation.get(GAME_SITUATION) == phase
        noted, keys = _charted(truth, form, seen_before(balls, phase))
        charted.append(Charted(ball=noted.onto(Ball(situation=noted.situation,
                                                    choice=noted.choice, span=NOWHERE)),
                               keys=keys - is_same))  # fmt: skip
        balls.append(charted[-1].ball)
    return charted


def _charted(truth: TrueBall, form: Form, seen: dict[str, Known]) -> tuple[Noted, int]:
    standing = tuple(
        (name, known) for name, known in truth.situation.facts if name in STANDING_FACTS
    )
    noted = Noted(standing=standing)
    while (question := form.next_question(noted, seen)) is not None:
        noted = noted.with_answer(_answer(question, truth))
    return noted, len(noted.answers)


def _answer(question: Question, truth: TrueBall) -> Answer:
    if question.name == OUTCOME:
        name = truth.landed if truth.landed != "in" else "in, not as wanted"
        if truth.as_intended == "yes":
            name = "as wanted"
        return question.options_named(name)[0].answer
    shown = question.as_shown
    if shown is not None and _is_true(shown.told, truth):
        return shown
    return next(
        (each.answer for each in question.options if _is_true(each.answer.told, truth)),
        question.unseen,
    )


def _is_true(told: Told, truth: TrueBall) -> bool:
    return all(truth.situation.get(name) == known for name, known in told.facts) and all(
        truth.choice.get(name) == known for name, known in told.parts
    )
