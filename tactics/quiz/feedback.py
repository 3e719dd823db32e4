"""What is said to an answer: what it earns, why, what would turn it, and a line to keep."""

import re
from dataclasses import dataclass
from textwrap import shorten, wrap

from tactics.model.known import Allowed, Known, Within
from tactics.model.scenario import Ask, Credit, Flip, Option, Scenario, credit_of
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Trait
from tactics.model.verdict import Grade
from tactics.quiz.plain import is_in, value_of
from tactics.quiz.steps import QuizState, Stage
from tactics.report.phrases import PHRASES
from tactics.report.sentences import GAME_SITUATION, situation_sentence
from tactics.report.visible import visible
from tactics.report.words import say_short

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
_PHASES = {
    "serving": "I serve", "returning": "I return", "baseline rally": "both of us are back",
    "approaching or at net": "I am coming in or at the net",
    "opponent at net": "the opponent is at the net",
}  # fmt: skip
_HANDS = {"own hand": "I play with the {} hand", "opponent hand": "the opponent plays with the {}"}
_SERVES = ("serve number", "serve side")
_MINE = {"your": "my", "you": "me"}
_VERBS = {
    Ask.AIM: "I aim", Ask.HEIGHT: "I go", Ask.SERVE: "I serve", Ask.NAME: "I say:",
    Ask.AFTER: "I", Ask.PLAY_ON: "I",
}  # fmt: skip


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
    return len(wrap(f"{start}{text}", COLUMNS)) <= ROWS


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


def if_then(scenario: Scenario) -> str:
    """Return the answer as a plan, from the fact that decides; empty where none does.

    Facts of the rule set's own are said by name, and only where their value is a word.
    """
    flip = scenario.flip
    if flip is None:
        return ""
    case = _deciding(flip)
    start = _PHASES.get(str(value_of(scenario.situation.get(GAME_SITUATION))), "")
    both = " and ".join(each for each in (start, case) if each)
    return visible(f"IF {both} THEN {_done(scenario)}.") if case else ""


def _deciding(flip: Flip) -> str:
    """Return the fact that decides, as a clause."""
    trait = next((each for each in STANDARD.facts if each.folded == flip.fact), None)
    if trait is None:
        own = value_of(flip.was)
        return f"{flip.fact} is {own}" if isinstance(own, str) else ""
    was = _in_band(flip, trait)
    if not any(phrase.fact == flip.fact for phrase in PHRASES):
        return _HANDS.get(flip.fact, f"the {trait.name} is {{}}").format(say_short(was, trait))
    said = situation_sentence(Situation.of({flip.fact: was}), STANDARD, "you").rstrip(".")
    said = said[:1].lower() + said[1:]
    if said.startswith("the ball, "):
        return said.replace("the ball, ", "the ball is ")
    if said.startswith(("you are", "the opponent is")):
        return said.replace("you are", "I am")
    return f"it is the {said}" if flip.fact in _SERVES else f"it is {said}"


def _in_band(flip: Flip, trait: Trait) -> Known:
    """Return the band a number lies in, where the change leaves that band."""
    was, now = value_of(flip.was), value_of(flip.now)
    for word in trait.words if trait.kind is Kind.NUMBER else ():
        band = Within((word.interval,))
        if is_in(was, band):
            return flip.was if is_in(now, band) else band
    return flip.was


def _done(scenario: Scenario) -> str:
    option = scenario.options[scenario.sound]
    verb = _VERBS.get(scenario.ask) or _shot_verb(option)
    text = option.text[:1].lower() + option.text[1:]
    mine = re.sub(r"\b(your|you)\b", lambda found: _MINE[found[0]], text)
    return f"{verb} {mine}"


def _shot_verb(option: Option) -> str:
    """Return how a shot begins: intents are verbs of their own, strokes and places are played."""
    first = option.text.partition(",")[0]
    return "I" if STANDARD.trait("intent").word_named(first) else "I play:"
