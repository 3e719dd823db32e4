"""What is said to an answer: what it earns, why, what would turn it, and a line to keep."""

import re
from dataclasses import dataclass
from textwrap import shorten

from tactics.model.known import Allowed
from tactics.model.scenario import Ask, Credit, Scenario, credit_of
from tactics.model.verdict import Grade
from tactics.quiz.if_then import if_then
from tactics.quiz.steps import QuizState, Stage
from tactics.report.quiz_sheet import wrapped_to

COLUMNS, ROWS = 79, 2
"""Room for the reason, and for the change that turns the answer."""
WHY = "Why: "

_HEADINGS = {
    Grade.SOUND: "Sound. That is what the rules want here.",
    Grade.ACCEPTABLE: "Acceptable. There is a better one.",
    Grade.DOUBTFUL: "Doubtful. There is a better one.",
    Grade.UNSOUND: "Unsound. A firm rule stands against it.",
    Grade.UNDECIDED: "Undecided. The rules do not settle this one.",
}
_NAME_HEADINGS = {True: "That name fits.", False: "That name does not fit here."}
_NAME_WORDS = {True: "fits", False: "does not fit"}
_LEFT_OPEN = "Left open, which never costs anything."
_TOO_LATE = "The time was up, which never costs anything."

_STEADY = "Change any one thing about this ball: the answer stays the same."


@dataclass(frozen=True, slots=True, kw_only=True)
class Feedback:
    """What is said to an answer. credit: None where nothing was answered.

    lines: (grade word, text, is picked, is best) of the options as shown. why: the reason of the
    rule; flip: the changed fact that turns the answer; each at most two rows of 79 characters,
    with the word that stands in front. target: the advised shot, part by part. then: the rule as
    a plan to keep in mind. can_twin: the same picture with the one fact changed can come next.
    """

    credit: Credit | None
    heading: str
    lines: tuple[tuple[str, str, bool, bool], ...]
    why: str
    target: tuple[tuple[str, Allowed], ...] = ()
    flip: str = ""
    cue: str = ""
    then: str = ""
    can_twin: bool = False


def feedback(state: QuizState) -> Feedback | None:
    """Return what is said to the last answer; None before it is on disk."""
    scenario = state.current
    if state.stage is not Stage.FEEDBACK or scenario is None:
        return None
    answer = state.answers[-1]
    picked = None if state.pick is None else state.pick.number
    return Feedback(
        credit=None if answer.grade is None else credit_of(answer.grade),
        heading=_heading(scenario.ask, answer.grade, was_late=answer.timed_out),
        lines=tuple(
            (
                _grade_word(scenario.ask, option.grade),
                option.text,
                number == picked,
                number == scenario.sound,
            )
            for number, option in enumerate(scenario.options)
        ),
        why=fitting(scenario.because, WHY),
        target=scenario.aim,
        flip=flip_words(scenario),
        cue=scenario.cue,
        then=if_then(scenario),
        can_twin=state.twin is not None,
    )


def _heading(ask: Ask, grade: Grade | None, *, was_late: bool) -> str:
    if grade is None:
        return _TOO_LATE if was_late else _LEFT_OPEN
    return _NAME_HEADINGS[grade is Grade.SOUND] if ask is Ask.NAME else _HEADINGS[grade]


def _grade_word(ask: Ask, grade: Grade) -> str:
    return _NAME_WORDS[grade is Grade.SOUND] if ask is Ask.NAME else grade.value


def fits(text: str, start: str = "") -> bool:
    """Say whether a text and the word in front of it take at most two rows."""
    return len(wrapped_to(f"{start}{text}", COLUMNS)) <= ROWS


def fitting(text: str, start: str = "") -> str:
    """Return a text that takes at most two rows: its first sentences, else its first words."""
    if fits(text, start):
        return text
    sentences = re.split(r"(?<=[.!?]) ", text)
    for count in range(len(sentences) - 1, 0, -1):
        some = " ".join(sentences[:count])
        if fits(some, start):
            return some
    room = ROWS * COLUMNS - len(start)
    while not fits(cut := shorten(text, room, placeholder=" ..."), start):
        room -= 1
    return cut


def flip_words(scenario: Scenario) -> str:
    """Return the change that turns the answer; a long option is named by its number."""
    flip = scenario.flip
    if flip is None:
        return _STEADY if scenario.is_steady else ""
    if fits(flip.said):
        return flip.said
    if flip.answer is not None:
        return fitting(flip.said)
    return fitting(flip.said.replace(scenario.options[flip.sound].text, f"answer {flip.sound + 1}"))
