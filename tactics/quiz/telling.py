"""The facts of a situation in words, those that decide and those that are not everyday."""

import re
from functools import partial

from tactics.engine.advisor import Advisor
from tactics.engine.program import Node, Program, flags_in, leaves_in
from tactics.model.facts import SERVING
from tactics.model.known import NOT_SEEN, Known, OneOf, Within
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Trait
from tactics.quiz.plain import is_in, value_of
from tactics.quiz.play import GAME_SITUATION
from tactics.report.phrases import PHRASES
from tactics.report.quiz_ground import Ground, ground_of
from tactics.report.sentences import situation_sentence
from tactics.report.visible import visible
from tactics.report.words import say_short

_ALWAYS = (GAME_SITUATION, "body height", "court depth", "court width", "balance",
           "opponent depth", "opponent width")  # fmt: skip
_HANDS = frozenset(("own hand", "opponent hand"))
_NEVER = frozenset(("hands", "contact height", "incoming pace", "format", "stage"))
_PERSONAL = frozenset(("level", "stature", "restricted today", "backhand grip"))
_FOLLOWED = {"hands": _HANDS, "contact height": frozenset(("body height",)),
             "incoming pace": frozenset(("incoming time",))}  # fmt: skip
_SPOKEN = frozenset(phrase.fact for phrase in PHRASES) | {GAME_SITUATION}
_SCORES = {
    "normal": "Nothing special hangs on the point.", "deuce": "It is deuce.",
    "tie-break": "It is a tie-break.", "break chance": "You have a chance to break.",
}  # fmt: skip
_WINDS = {
    "none": "There is no wind.", "with": "The wind is behind you.",
    "against": "The wind is against you.", "across": "The wind blows across.",
}  # fmt: skip
_OWN_SENTENCES = {
    "level": "You play at {} level.", "stature": "You are {} tall.",
    "surface": "The court plays {}.", "wind strength": "It blows: {}.",
    "restricted today": "Something hurts today.",
    "backhand grip": "Your backhand is {}.",
}  # fmt: skip
_CLAUSES = {
    "open court": "the open court is {}",
    "own last ball": "your last ball was {}",
    "place in the point": "it is your ball {}",
    "returner shift": "the returner shifts {}",
    "reachable": "you can reach the ball",
}
_CLAUSES_BY_WORD = {
    ("place in the point", "later"): "it is a later ball of the point",
    ("place in the point", "first after the serve"): "it is your first ball after the serve",
    ("place in the point", "first after the return"): "it is your first ball after the return",
    ("returner shift", "none"): "the returner keeps still",
    ("reachable", "no"): "you cannot reach the ball",
    ("reachable", "going out"): "the ball is going out",
}
"""Facts that stand alone, as clauses."""
_SAID_ALONE = (("ball, met ", "ball is met "), ("ball, hit flat", "ball is hit flat"),
               ("ball, ", "ball comes "))  # fmt: skip
_PLACE = re.compile(r"(\d+(?:\.\d+)?) m from the net")
BASELINE_M = 11.89
"""Of the full court (ITF Rules of Tennis)."""
_NEAR_THE_LINE_M = 2.8
_NOT_WHILE_SERVING = frozenset(("balance", "court depth", "court width"))


def facts_asked(program: Program, place: int) -> frozenset[str]:
    """Return the facts that a rule asks about, through its terms as well."""
    rule = program.ready[place]
    found: set[str] = set()
    for node in (rule.when, rule.unless):
        _gather(program, node, found)
    if any(part == "finds" for part, _ in rule.advice):
        found |= {*_HANDS, "serve side"}
    return frozenset(found)


def facts_in_term(program: Program, index: int) -> frozenset[str]:
    """Return the facts that a term is made of."""
    found: set[str] = set()
    _gather(program, program.terms[index], found)
    return frozenset(found)


def _gather(program: Program, node: Node, found: set[str]) -> None:
    found |= {program.leaves[index].name for index in leaves_in(node)}
    for index in flags_in(node):
        _gather(program, program.terms[index], found)


def told(advisor: Advisor, situation: Situation, asked: frozenset[str]) -> tuple[str, ...]:
    """Return the facts worth saying: `asked`, those of every picture, and whatever is unusual."""
    for fact, behind in _FOLLOWED.items():
        asked = asked | behind if fact in asked else asked
    phase = value_of(situation.get(GAME_SITUATION))
    is_serve = phase == SERVING
    facts = situation.as_dict()
    return tuple(
        trait.folded
        for trait in advisor.vocabulary.facts
        if trait.folded not in _NEVER
        and not (is_serve and trait.folded in _NOT_WHILE_SERVING)
        and value_of(known := facts.get(trait.folded, NOT_SEEN)) is not None
        and _is_worth_it(trait, known, str(phase), asked)
    )


def _is_worth_it(trait: Trait, known: Known, phase: str, asked: frozenset[str]) -> bool:
    if trait.folded in _PERSONAL:
        return trait.folded in asked and not _is_ordinary(trait, known, phase)
    is_asked = trait.folded in asked or trait.folded in _ALWAYS
    return is_asked or not _is_ordinary(trait, known, phase)


def _is_ordinary(trait: Trait, known: Known, phase: str) -> bool:
    usual = trait.ordinary_value(phase)
    value = value_of(known)
    if not trait.ordinary:
        return True
    return isinstance(usual, OneOf | Within) and is_in(value, usual)


def facts_sentence(advisor: Advisor, situation: Situation, facts: tuple[str, ...]) -> str:
    """Return these facts as a few sentences, numbers by the name of their band."""
    words, every = advisor.vocabulary, situation.as_dict()
    known = {fact: in_band(every.get(fact, NOT_SEEN), words.trait(fact), advisor) for fact in facts}
    if value_of(situation.get("wing")) == "overhead":
        known.pop("body height", None)
    seen = Situation.of((f, k) for f, k in known.items() if f in _SPOKEN)
    sentence = (
        _from_the_line(situation_sentence(seen, words, "you"), situation) if seen.facts else ""
    )
    others = [
        _alone(words.trait(fact), known[fact]) for fact in facts if fact not in _SPOKEN | _HANDS
    ]
    hands = [_hands(situation)] if _HANDS & known.keys() else []
    return visible(" ".join(each for each in (sentence, *hands, *others) if each))


def changed(advisor: Advisor, situation: Situation, fact: str) -> str:
    """Return one fact as what is different: "you are inside the baseline"."""
    trait, value = advisor.vocabulary.trait(fact), value_of(situation.get(fact))
    if fact == "serve number":
        return f"it is a {value} serve"
    if fact == "serve side":
        return f"it is the {value} side"
    if fact in _CLAUSES:
        return _clause(trait, in_band(situation.get(fact), trait, advisor))
    if fact not in _SPOKEN | _HANDS and fact not in {*_OWN_SENTENCES, "wind", "score state"}:
        known = in_band(situation.get(fact), trait, advisor)
        return visible(f"{trait.name}: {say_short(known, trait)}")
    text = facts_sentence(advisor, situation, (fact,)).rstrip(".")
    text = text[:1].lower() + text[1:]
    for written, better in _SAID_ALONE:
        text = text.replace(written, better)
    return f"it is {text}" if text.startswith(("a ", "an ")) else text


def _from_the_line(text: str, situation: Situation) -> str:
    """Say places near the baseline from there, in metres of the court that is played on."""
    return _PLACE.sub(partial(_place, ground_of(situation)), text)


def _place(ground: Ground, found: re.Match[str]) -> str:
    drawn_m = float(found[1])
    off_m = drawn_m - BASELINE_M
    if off_m < -_NEAR_THE_LINE_M:
        return f"{ground.along_m(drawn_m):.1f} m from the net"
    side = "behind" if off_m > 0 else "inside"
    return f"{ground.along_m(abs(off_m)):.1f} m {side} the baseline"


def _hands(situation: Situation) -> str:
    own, other = (value_of(situation.get(fact)) for fact in ("own hand", "opponent hand"))
    if own == other:
        return f"You are both {own}-handed."
    return f"You are {own}-handed, the opponent {other}-handed."


def _alone(trait: Trait, known: Known) -> str:
    """Return a fact that has no place in the sentence as a sentence of its own."""
    value = value_of(known)
    text = say_short(known, trait)
    if trait.folded == "score state":
        return _SCORES.get(str(value), f"It is a {text}.")
    if trait.folded in _OWN_SENTENCES:
        return _OWN_SENTENCES[trait.folded].format(text)
    if trait.folded == "wind":
        return _WINDS[str(value)]
    if trait.folded in _CLAUSES:
        clause = _clause(trait, known)
        return f"{clause[:1].upper()}{clause[1:]}."
    return f"{trait.name[:1].upper()}{trait.name[1:]}: {text}."


def _clause(trait: Trait, known: Known) -> str:
    word = say_short(known, trait)
    return _CLAUSES_BY_WORD.get((trait.folded, word)) or _CLAUSES[trait.folded].format(word)


def in_band(known: Known, trait: Trait, advisor: Advisor) -> Known:
    """Return the band a number lies in, where the rules tell nothing apart inside that band."""
    value = value_of(known)
    if trait.kind is not Kind.NUMBER or not isinstance(value, float | int):
        return known
    axis = advisor.program.grid.axes[trait.folded]
    for word in trait.words:
        band = word.interval
        if band.low <= (value, 0) < band.high:
            is_cut = any(band.low < cut < band.high for cut in axis.cuts[1:-1])
            return known if is_cut else Within((band,))
    return known
