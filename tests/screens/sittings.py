"""A quiz of hand-made questions, a clock that is moved by hand, and answers kept in a list."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta

from tactics.model.scenario import Answer, Option, Origin, Quiz, Scenario
from tactics.model.standard import STANDARD
from tactics.model.verdict import Grade
from tactics.quiz.steps import start
from tactics.report.court_picture import Spot
from tactics.report.quiz_court import ASCII, GLYPHS
from tactics.screens.quiz import QuizScreen
from tactics.screens.quiz_closing import Ahead
from tactics.screens.quiz_plain import QuizLines
from tactics.screens.quiz_sitting import Rest, Sitting
from tests.screens.questions import ALL

AHEAD = Ahead(
    due={"wide-go-high": date(2026, 3, 15), "serve-to-the-backhand": date(2026, 3, 22)},
    titles={"wide-go-high": "Pulled wide, lift it high", "serve-to-the-backhand": "Serve to it"},
    today=date(2026, 3, 14),
)
NOON = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)


@dataclass(slots=True)
class Hand:
    """A clock that stands until it is moved."""

    now: datetime = NOON

    def __call__(self) -> datetime:
        return self.now

    def moves(self, seconds: float) -> None:
        self.now += timedelta(seconds=seconds)


@dataclass(slots=True)
class Notebook:
    """Keeps answers in memory; `full` is what a full disk would say."""

    kept: list[Answer] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    full: str = ""

    def keep(self, scenario: Scenario, answer: Answer) -> str:
        if not self.full:
            self.kept.append(answer)
        return self.full

    def remark(self, text: str) -> str:
        if not self.full:
            self.remarks.append(text)
        return self.full


@dataclass(slots=True)
class Behind:
    """Questions after the first; counts how often they were begun."""

    scenarios: tuple[Scenario, ...]
    begun: int = 0

    def begin(self) -> None:
        self.begun += 1

    def ready(self) -> tuple[Scenario, ...]:
        return self.scenarios


def graded(scenario: Scenario, spot: Spot) -> Option:
    """Grade a target by its side: sound on the left of the court."""
    grade = Grade.SOUND if spot.x_m < -1.0 else Grade.DOUBTFUL
    return Option(text="the marked place", grade=grade, origin=Origin.VARIATION)


@dataclass(slots=True)
class Set:
    """A sitting and everything around it."""

    sitting: Sitting
    notebook: Notebook
    hand: Hand


def seated(*scenarios: Scenario, behind: Rest | None = None, planned: int = 0) -> Set:
    """Return a player in front of these questions (else of all), the first one on the table."""
    asked = scenarios or ALL
    hand, notebook = Hand(), Notebook()
    quiz = Quiz(scenarios=asked, seed="hand-made", rules_hash="", generator=0)
    state = start(quiz, hand.now)
    sitting = Sitting(
        state=replace(state, total=planned or len(asked)),
        keeper=notebook,
        now=hand,
        grade=graded,
    )
    if behind is not None:
        sitting.rest = behind
    return Set(sitting, notebook, hand)


def screen(seats: Set, limit_s: float | None = None, *, ascii_only: bool = False) -> QuizScreen:
    """Return the full screen of a sitting."""
    return QuizScreen(
        sitting=seats.sitting,
        words=STANDARD,
        marks=ASCII if ascii_only else GLYPHS,
        nickname="Robin",
        limit_s=limit_s,
    )


def lines(seats: Set) -> QuizLines:
    """Return the plain lines of a sitting."""
    return QuizLines(seats.sitting, STANDARD, "Robin")


def pressed(press: Callable[[str], bool], *keys: str) -> list[bool]:
    """Press keys one by one; return what each said."""
    return [press(key) for key in keys]
