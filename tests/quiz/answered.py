"""Answers and a question for tests of what is remembered."""

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import strategies as st

from tactics.model.choice import Choice
from tactics.model.known import word
from tactics.model.scenario import Answer, Ask, Credit, Option, Origin, Quiz, Scenario
from tactics.model.situation import Situation
from tactics.model.verdict import Grade
from tactics.quiz.boxes import Boxes
from tactics.quiz.memory_fsrs import FsrsScheduler
from tactics.quiz.schedule import Scheduler

FIRST = date(2026, 3, 2)
GRADES = {Credit.FULL: Grade.SOUND, Credit.HALF: Grade.ACCEPTABLE, Credit.NONE: Grade.UNSOUND}
SCHEDULERS: tuple[Scheduler, ...] = (FsrsScheduler(), Boxes())


def on(day: int) -> date:
    """Return the study day so many days after the first."""
    return FIRST + timedelta(days=day)


def answer(
    day: int,
    credit: Credit | None = Credit.FULL,
    *,
    sure: bool = True,
    rule: str = "low-ball-up",
    revision: str = "one",
    confused_with: str = "",
) -> Answer:
    """Return an answer so many days after the first day."""
    return Answer(
        day=on(day),
        ask=Ask.SHOT,
        rule=rule,
        revision=revision,
        pair=f"seed/{day}",
        picked=None if credit is None else (Credit.FULL, Credit.HALF, Credit.NONE).index(credit),
        grade=None if credit is None else GRADES[credit],
        credit=credit,
        sure=None if credit is None else sure,
        confused_with=confused_with,
    )


def question(rule: str = "low-ball-up", *, revision: str = "one", neighbour: str = "") -> Scenario:
    """Return a plain question about a rule."""
    texts = ("Build, crosscourt", "Build, to the middle", "Finish, straight")
    grades = (Grade.SOUND, Grade.ACCEPTABLE, Grade.UNSOUND)
    return Scenario(
        ask=Ask.SHOT,
        situation=Situation.of({"game situation": word("baseline rally")}),
        told=("game situation",),
        context=Choice(),
        prompt="Which shot would you play?",
        facts="Baseline rally; a low ball.",
        options=tuple(
            Option(text=text, grade=grade, origin=Origin.VARIATION)
            for text, grade in zip(texts, grades, strict=True)
        ),
        sound=0,
        rule=rule,
        revision=revision,
        because="A low ball has to go up first.",
        neighbour=neighbour,
        seed="hand-made",
    )


def quiz(*scenarios: Scenario) -> Quiz:
    """Return a quiz of some questions."""
    return Quiz(scenarios=scenarios, seed="hand-made", rules_hash="abc", generator=1)


RULES = ("low-ball-up", "wide-go-high", "short-ball-in")
days = st.integers(0, 400)
answers = st.builds(
    answer,
    days,
    st.sampled_from((*Credit, None)),
    sure=st.booleans(),
    rule=st.sampled_from(RULES),
    revision=st.sampled_from(("one", "two")),
    confused_with=st.sampled_from(("", *RULES)),
)
histories = st.lists(answers, max_size=40)


def shifted(given: Answer, days_on: int) -> Answer:
    """Return the answer on another day."""
    return replace(given, day=given.day + timedelta(days=days_on))
