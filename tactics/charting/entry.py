"""Live charting as a state machine: state and key -> state, and what has to be on disk first.

Nothing here knows a terminal, a clock or a file. Whoever runs it carries out the writes of a
step before anything else is shown.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

from tactics.charting.noted import GAME_SITUATION, STANDING_FACTS, Answer, Noted
from tactics.charting.question import Question
from tactics.charting.questions import Form, seen_before, standing_questions
from tactics.model.ball import Ball
from tactics.model.choice import Choice
from tactics.model.known import NOT_SEEN, Known, word
from tactics.model.names import fold
from tactics.model.situation import Situation
from tactics.source import Span


class Page(StrEnum):
    """What is in front of the coach."""

    ASKING = "asking"
    MENU = "menu"
    WORDS = "words"
    PICKING = "picking"
    BALL = "ball"
    FIELD = "field"
    TEXT = "text"
    TODAY = "today"
    PAUSED = "paused"


@dataclass(frozen=True, slots=True, kw_only=True)
class Append:
    """A new ball goes to the end of the chart."""

    ball: Ball


@dataclass(frozen=True, slots=True, kw_only=True)
class Replace:
    """The ball at a place (counted from 0) is written anew."""

    place: int
    ball: Ball


@dataclass(frozen=True, slots=True, kw_only=True)
class Remove:
    """The ball at a place is taken out."""

    place: int


Write = Append | Replace | Remove


@dataclass(frozen=True, slots=True, kw_only=True)
class Sitting:
    """What does not change while somebody charts. date is ISO; shows_grades: right away."""

    form: Form
    date: str
    lesson: str = ""
    shows_grades: bool = True


@dataclass(frozen=True, kw_only=True)
class Entry:
    """Everything there is to know between two keys.

    balls: those on disk, oldest first. answers: of the ball being charted. taken_up: the place
    of a ball on disk that is being charted once more. histories: place -> the answers it was
    charted with, as far as this sitting knows. picked, field, text: what a page works on;
    back_to: the page behind it.
    """

    sitting: Sitting
    balls: tuple[Ball, ...] = ()
    player: str = ""
    standing: tuple[tuple[str, Known], ...] = ()
    standing_open: tuple[str, ...] = ()
    phase: Known = NOT_SEEN
    answers: tuple[Answer, ...] = ()
    histories: tuple[tuple[int, tuple[Answer, ...]], ...] = ()
    taken_up: int | None = None
    is_same_point: bool = False
    page: Page = Page.ASKING
    back_to: Page = Page.ASKING
    picked: int = -1
    field: str = ""
    text: str = ""
    notice: str = ""
    began_with: int = 0

    @cached_property
    def noted(self) -> Noted:
        """Return the ball being charted as far as it is known."""
        known = dict(self.standing)
        if self.taken_up is not None:
            known = _standing_of(self.balls[self.taken_up])
        if self.phase is not NOT_SEEN:
            known[GAME_SITUATION] = self.phase
        return Noted(standing=tuple(known.items()), answers=self.answers)

    @cached_property
    def question(self) -> Question | None:
        """Return the question in front of the coach: about the day first, then about the ball."""
        form = self.sitting.form
        if self.standing_open:
            questions = standing_questions(form, {})
            return next(each for each in questions if each.name == self.standing_open[0])
        before = [
            ball for ball in self.balls[: self.taken_up] if fold(ball.player) == fold(self.player)
        ]
        return form.next_question(self.noted, seen_before(before, self.phase))

    @property
    def is_at_start(self) -> bool:
        """Say whether nothing about the next ball has been said yet."""
        return not self.answers and self.taken_up is None and not self.standing_open


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What a key has led to; the writes come before anything is shown."""

    entry: Entry
    writes: tuple[Write, ...] = ()
    goes_on: bool = True


def begin(
    sitting: Sitting, balls: Sequence[Ball] = (), player: str = "", known: Situation | None = None
) -> Entry:
    """Return the first state: a fresh chart, or one that goes on where it stopped.

    known: facts about player and day that were given before; the others are taken from the last
    ball of that player, except what a new day may have changed, or asked.
    """
    last = balls[-1] if balls else None
    name = player or (last.player if last else "")
    given = _carried(_last_of(name, balls), sitting.date)
    given |= dict(() if known is None else known.facts)
    questions = standing_questions(sitting.form, given)
    return Entry(
        sitting=sitting,
        balls=tuple(balls),
        player=name,
        standing=tuple(given.items()),
        standing_open=_to_ask([each.name for each in questions], given),
        phase=last.situation.get(GAME_SITUATION) if last else NOT_SEEN,
        page=Page.ASKING if name or balls else Page.TEXT,
        field="" if name or balls else "player",
        began_with=len(balls),
    )


def _last_of(player: str, balls: Sequence[Ball]) -> Ball | None:
    return next((ball for ball in reversed(balls) if fold(ball.player) == fold(player)), None)


_CHANGES_BY_DAY = frozenset({"restricted today", "wind", "wind strength", "surface"})
_OF_THE_COURT = frozenset({"surface", "wind strength", "stage", "format"})


def _carried(last: Ball | None, date: str) -> dict[str, Known]:
    """Return the facts about player and day that still hold since the last ball."""
    if last is None:
        return {}
    is_new_day = last.date != date
    return {
        name: known
        for name, known in _standing_of(last).items()
        if not (is_new_day and name in _CHANGES_BY_DAY)
    }


def _standing_of(ball: Ball) -> dict[str, Known]:
    return {name: known for name, known in ball.situation.facts if name in STANDING_FACTS}


def for_player(entry: Entry, name: str) -> Entry:
    """Return the state in which another player is charted on the same court."""
    after = replace(entry, player=name, page=Page.ASKING, text="", notice="")
    if not entry.player or fold(name) == fold(entry.player):
        return after
    same_court = {fact: known for fact, known in entry.standing if fact in _OF_THE_COURT}
    given = _carried(_last_of(name, entry.balls), entry.sitting.date) | same_court
    questions = standing_questions(entry.sitting.form, given)
    return replace(
        after,
        standing=tuple(given.items()),
        standing_open=_to_ask([each.name for each in questions], given),
        answers=(),
        taken_up=None,
        is_same_point=False,
    )


def _to_ask(names: Sequence[str], standing: Mapping[str, Known]) -> tuple[str, ...]:
    """Return the questions about the day that are left: where no wind blows, not how hard."""
    is_calm = standing.get("wind") == word("none")
    return tuple(name for name in names if not (is_calm and name == "wind strength"))


def ball_of(entry: Entry) -> Ball:
    """Return the ball being charted, with its labels."""
    if entry.taken_up is not None:
        return entry.noted.onto(entry.balls[entry.taken_up])
    point, number = _numbers(entry)
    blank = Ball(
        situation=Situation(),
        choice=Choice(),
        date=entry.sitting.date,
        player=entry.player,
        lesson=entry.sitting.lesson,
        point=str(point),
        ball=str(number),
        span=Span(file="", line=1),
    )
    return entry.noted.onto(blank)


def _numbers(entry: Entry) -> tuple[int, int]:
    """Return the numbers of the point and of the ball in it."""
    last = next(
        (
            ball
            for ball in reversed(entry.balls)
            if (ball.date, ball.lesson) == (entry.sitting.date, entry.sitting.lesson)
        ),
        None,
    )
    if last is None or not last.point.isdecimal():
        return 1, 1
    if entry.is_same_point:
        return int(last.point), int(last.ball) + 1 if last.ball.isdecimal() else 2
    return int(last.point) + 1, 1


def with_answer(entry: Entry, answer: Answer) -> Step:
    """Return the state after an answer; a complete ball is to be written at once."""
    if entry.standing_open:
        standing = {**dict(entry.standing), **dict(answer.told.facts)}
        return Step(
            entry=replace(
                entry,
                standing=tuple(standing.items()),
                standing_open=_to_ask(entry.standing_open[1:], standing),
                notice="",
            )
        )
    phase = dict(answer.told.facts).get(GAME_SITUATION, entry.phase)
    further = replace(entry, answers=(*entry.answers, answer), phase=phase, notice="")
    return Step(entry=further) if further.question is not None else _complete(further)


def _complete(entry: Entry) -> Step:
    ball = ball_of(entry)
    if entry.taken_up is None:
        place, write = len(entry.balls), Append(ball=ball)
        balls = (*entry.balls, ball)
    else:
        place = entry.taken_up
        write_again = Replace(place=place, ball=ball)
        return Step(
            entry=_fresh(entry, replaced(entry.balls, place, ball), place),
            writes=(write_again,),
        )
    return Step(entry=_fresh(entry, balls, place), writes=(write,))


def _fresh(entry: Entry, balls: tuple[Ball, ...], place: int) -> Entry:
    """Return the state before the next ball, with the last situation filled in."""
    histories = {**dict(entry.histories), place: entry.answers}
    return replace(
        entry,
        balls=balls,
        answers=(),
        histories=tuple(histories.items()),
        taken_up=None,
        is_same_point=False,
        phase=balls[-1].situation.get(GAME_SITUATION),
    )


def replaced(balls: tuple[Ball, ...], place: int, ball: Ball) -> tuple[Ball, ...]:
    """Return the balls with another one at a place."""
    return (*balls[:place], ball, *balls[place + 1 :])


def undone(entry: Entry) -> Entry:
    """Return the state one answer earlier; before a ball, the last ball is taken up again.

    A ball taken up again stays on disk as it was until it is complete once more.
    """
    if entry.standing_open:
        return _asking_again(entry)
    if entry.answers:
        return _without_last(entry)
    if entry.taken_up is not None:
        return replace(
            entry, taken_up=None, notice="The ball stays as it was.",
            phase=entry.balls[-1].situation.get(GAME_SITUATION),
        )  # fmt: skip
    if not entry.balls:
        return replace(entry, notice="There is nothing to undo.")
    place = len(entry.balls) - 1
    history = dict(entry.histories).get(place)
    if not history:
        return replace(entry, page=Page.BALL, picked=place, notice="")
    again = replace(
        entry, taken_up=place, answers=history, notice=f"Ball {place + 1} again.",
        phase=entry.balls[place].situation.get(GAME_SITUATION),
    )  # fmt: skip
    return _without_last(again)


def _asking_again(entry: Entry) -> Entry:
    """Return the state before the last answer about player and day."""
    names = [each.name for each in standing_questions(entry.sitting.form, {})]
    before = names[: names.index(entry.standing_open[0])]
    if not before:
        return replace(entry, notice="There is nothing to undo.")
    return replace(entry, standing_open=(before[-1], *entry.standing_open), notice="")


def _without_last(entry: Entry) -> Entry:
    answers = entry.answers[:-1]
    if GAME_SITUATION in entry.answers[-1].settles:
        return replace(entry, answers=answers, phase=NOT_SEEN)
    return replace(entry, answers=answers)
