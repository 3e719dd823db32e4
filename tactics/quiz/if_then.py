"""The rule of a question as a plan to keep in mind: IF the fact that decides, THEN the answer."""

import re

from tactics.model.known import Known, Within
from tactics.model.scenario import Ask, Flip, Option, Scenario
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Trait
from tactics.quiz.plain import is_in, value_of
from tactics.report.phrases import PHRASES
from tactics.report.quiz_places import clauses
from tactics.report.sentences import GAME_SITUATION, situation_sentence
from tactics.report.visible import visible
from tactics.report.words import say_short

_PHASES = {
    "serving": "I serve", "returning": "I return", "baseline rally": "both of us are back",
    "approaching or at net": "I am coming in or at the net",
    "opponent at net": "the opponent is at the net or on the way",
}  # fmt: skip
_HANDS = {
    "own hand": "I play with the {} hand",
    "opponent hand": "the opponent plays with the {} hand",
}
_SERVES = ("serve number", "serve side")
_SPOKEN = frozenset(phrase.fact for phrase in PHRASES)
_IN_THE_SENTENCE = ("You are ", "The opponent is ", "The ball", "A ", "An ")
"""How clauses begin that tell of facts everybody has, never of one of the rule set's own."""
_SOMEBODY = ("I am ", "the opponent is ")
_MINE = (
    (re.compile(r"\b(behind|against|with|for) you\b"), r"\1 me"),
    (re.compile(r"\byou are\b", re.IGNORECASE), "I am"),
    (re.compile(r"\byou\b", re.IGNORECASE), "I"),
    (re.compile(r"\byour\b", re.IGNORECASE), "my"),
)
_VERBS = {
    Ask.AIM: "I aim", Ask.HEIGHT: "I go", Ask.SERVE: "I serve", Ask.NAME: "I say:",
    Ask.AFTER: "I", Ask.PLAY_ON: "I",
}  # fmt: skip
_ANSWERS = {"your": "my", "you": "me"}
_PLAYED = {
    (Ask.SHOT, "keep in play"): "keep the ball in play",
    (Ask.AIM, "sharp angle"): "at a sharp angle",
}


def if_then(scenario: Scenario) -> str:
    """Return the answer as a plan, from the fact that decides; empty where none does."""
    flip = scenario.flip
    if flip is None:
        return ""
    case = _deciding(scenario, flip)
    start = _PHASES.get(str(value_of(scenario.situation.get(GAME_SITUATION))), "")
    return visible(f"IF {_joined(start, case)} THEN {_done(scenario)}.") if case else ""


def is_told_alone(fact: str) -> bool:
    """Say whether a fact has a sentence of its own: the plan then needs the facts after a flip."""
    return fact not in _SPOKEN and fact not in _HANDS


def _joined(start: str, case: str) -> str:
    """Return the game situation and the case; nobody is named twice."""
    if ": " in case:
        return f"{start} ({case})" if start else case
    for who in _SOMEBODY:
        if start.startswith(who) and case.startswith(who):
            return f"{start} and {who.split()[-1]} {case.removeprefix(who)}"
    return f"{start} and {case}" if start else case


def _deciding(scenario: Scenario, flip: Flip) -> str:
    """Return the fact that decides, as a clause."""
    trait = next((each for each in STANDARD.facts if each.folded == flip.fact), None)
    if trait is None or is_told_alone(flip.fact):
        return _as_told(scenario, flip, trait)
    was = _in_band(flip, trait)
    if trait.folded in _HANDS:
        return _HANDS[trait.folded].format(say_short(was, trait))
    said = situation_sentence(Situation.of({flip.fact: was}), STANDARD, "you").rstrip(".")
    said = said[:1].lower() + said[1:]
    if said.startswith("the ball, "):
        verb = "is" if said.startswith(("the ball, met", "the ball, hit")) else "comes"
        return said.replace("the ball, ", f"the ball {verb} ")
    if said.startswith(("you are", "the opponent is")):
        return said.replace("you are", "I am")
    return f"it is the {said}" if flip.fact in _SERVES else f"it is {said}"


def _as_told(scenario: Scenario, flip: Flip, trait: Trait | None) -> str:
    """Return the fact in the words in which the question tells it: what the change takes away.

    Where that cannot be seen it is said by name, if its value is a word.
    """
    after = clauses(flip.facts)
    gone = [each for each in clauses(scenario.facts) if each not in after]
    if len(gone) == 1 and (trait is not None or not gone[0].startswith(_IN_THE_SENTENCE)):
        said = gone[0][:1].lower() + gone[0][1:]
        for pattern, mine in _MINE:
            said = pattern.sub(mine, said)
        return said
    if trait is not None:
        return f"{trait.name}: {say_short(flip.was, trait)}"
    was = value_of(flip.was)
    return f"{flip.fact}: {was}" if isinstance(was, str) else ""


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
    first, comma, rest = (option.text[:1].lower() + option.text[1:]).partition(",")
    text = f"{_PLAYED.get((scenario.ask, first), first)}{comma}{rest}"
    mine = re.sub(r"\b(your|you)\b", lambda found: _ANSWERS[found[0]], text)
    return f"{verb} {mine}"


def _shot_verb(option: Option) -> str:
    """Return how a shot begins: intents are verbs of their own, strokes and places are played."""
    first = option.text.partition(",")[0]
    return "I" if STANDARD.trait("intent").word_named(first) else "I play:"
