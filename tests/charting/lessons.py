"""Invented lessons: what really happened on each ball, everything known, from a seed.

A lesson is made of blocks. In a drill the same ball is fed again and again and little changes
from one to the next; in points the phase goes on to another and every fact is drawn anew.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from random import Random

from tactics.model.choice import Choice
from tactics.model.known import NOT_SEEN, Known
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary

Weights = Mapping[str, float]

STANDING = {
    "own hand": "right", "opponent hand": "right", "backhand grip": "two-handed",
    "surface": "medium", "wind": "none", "stage": "full court", "format": "singles",
    "level": "club", "restricted today": "no",
}  # fmt: skip

PHASES: Weights = {
    "baseline rally": 56, "returning": 12, "serving": 12,
    "approaching or at net": 12, "opponent at net": 8,
}  # fmt: skip

EVERYWHERE: dict[str, Weights] = {
    "wing": {"forehand": 55, "backhand": 45},
    "contact height": {"well below": 12, "below": 33, "level": 33, "above": 17, "high": 5},
    "body height": {"below knee": 7, "thigh": 22, "waist": 42, "chest": 17, "shoulder": 9,
                    "overhead": 3},
    "court depth": {"midcourt": 8, "inside baseline": 18, "on baseline": 45, "behind": 25,
                    "far behind": 4},
    "court width": {"wide backhand": 5, "backhand third": 26, "middle third": 36,
                    "forehand third": 28, "wide forehand": 5},
    "incoming time": {"very fast": 4, "fast": 22, "medium": 52, "slow": 22},
    "incoming spin": {"heavy top": 10, "top": 50, "flat": 20, "slice": 18, "side": 2},
    "incoming depth": {"drop": 2, "short": 17, "mid": 31, "deep": 40, "very deep": 10},
    "incoming direction": {"crosscourt": 50, "straight": 20, "middle": 24, "at body": 3,
                           "sharp angle": 3},
    "ball line": {"outside": 68, "inside": 32},
    "bounce": {"rising": 18, "top": 37, "falling": 43, "half volley": 2},
    "balance": {"set": 58, "moving": 27, "stretched": 10, "jammed": 5},
    "time": {"plenty": 18, "normal": 60, "late": 18, "emergency": 4},
    "steps to the ball": {"near": 57, "a run": 31, "far": 12},
    "opponent depth": {"inside baseline": 12, "on baseline": 60, "behind": 28},
    "opponent width": {"wide backhand": 4, "backhand third": 24, "middle third": 46,
                       "forehand third": 22, "wide forehand": 4},
    "opponent movement": {"still": 42, "recovering": 36, "running wide": 9,
                          "stopped in a corner": 4, "coming in": 2, "backing up": 3,
                          "unbalanced": 4},
    "serve number": {"first": 60, "second": 40},
    "serve side": {"deuce": 52, "ad": 48},
    "score state": {"normal": 74, "game point": 8, "break point": 6, "break chance": 6,
                    "deuce": 6},
    "open court": {"small": 56, "medium": 30, "large": 14},
    "returner shift": {"none": 78, "wide": 7, "to the T": 5, "back": 6, "in": 4},
    "reachable": {"yes": 94, "no": 4, "going out": 2},
    "own last ball": {"strong": 20, "neutral": 58, "weak": 22},
    "place in the point": {"first after the serve": 18, "first after the return": 16,
                           "later": 66},
}  # fmt: skip
"""Fact -> how often each of its words occurs among a hundred balls of a club lesson."""

IN_PHASE: dict[str, dict[str, Weights]] = {
    "serving": {
        "court depth": {"on baseline": 1}, "court width": {"middle third": 80,
                                                           "forehand third": 20},
        "balance": {"set": 96, "moving": 4}, "opponent movement": {"still": 1},
    },
    "returning": {
        "court depth": {"inside baseline": 15, "on baseline": 50, "behind": 35},
        "incoming depth": {"short": 1}, "incoming direction": {"wide": 40, "T": 35, "at body": 25},
        "incoming time": {"very fast": 20, "fast": 40, "medium": 30, "slow": 10},
        "opponent movement": {"still": 55, "recovering": 40, "coming in": 5},
        "place in the point": {"later": 1},
    },
    "approaching or at net": {
        "court depth": {"close net": 25, "forecourt": 50, "midcourt": 20, "inside baseline": 5},
        "body height": {"below knee": 20, "thigh": 20, "waist": 24, "chest": 16, "shoulder": 10,
                        "overhead": 10},
        "bounce": {"volley": 62, "rising": 10, "top": 18, "half volley": 10},
        "incoming depth": {"short": 60, "drop": 10, "mid": 30},
    },
    "opponent at net": {
        "opponent depth": {"close net": 30, "forecourt": 50, "midcourt": 20},
        "opponent movement": {"still": 45, "coming in": 35, "unbalanced": 10, "recovering": 10},
    },
}  # fmt: skip

CHOSEN: dict[str, dict[str, Weights]] = {
    "": {
        "response": {"played": 95, "let go": 3, "stopped before a call": 2},
        "intent": {"keep in play": 18, "buy time": 9, "neutralise": 16, "build": 28,
                   "change direction": 8, "force": 9, "finish": 6, "approach": 3, "drop": 2,
                   "surprise": 1},
        "direction": {"crosscourt": 52, "straight": 22, "middle": 16, "inside-out": 5,
                      "sharp angle": 3, "at body": 1, "behind": 1},
        "pace": {"touch": 4, "control": 26, "medium": 34, "heavy": 22, "attack": 10,
                 "all-out": 4},
        "height over net": {"skim": 12, "drive": 28, "rally": 36, "lifted": 18, "loop": 6},
        "inside line": {"on the line": 8, "near the line": 22, "safe": 44, "well inside": 26},
        "depth": {"drop": 2, "short": 12, "mid": 30, "deep": 46, "very deep": 10},
        "stroke": {"forehand": 50, "two-handed backhand": 34, "slice": 11,
                   "run-around forehand": 5},
        "spin": {"top": 66, "flat": 18, "slice": 13, "heavy top": 3},
        "afterwards": {"recover": 78, "hold ground": 10, "watch": 7, "follow in": 5},
        "stance": {"split": 80, "on the move": 10, "flat-footed": 10},
    },
    "serving": {
        "response": {"played": 1}, "intent": {"build": 45, "force": 40, "keep in play": 15},
        "direction": {"wide": 40, "T": 35, "at body": 25}, "stroke": {"serve": 1},
        "spin": {"flat": 40, "slice": 30, "kick": 20, "top": 10},
        "pace": {"control": 10, "medium": 30, "heavy": 35, "attack": 20, "all-out": 5},
    },
    "returning": {
        "intent": {"keep in play": 35, "neutralise": 35, "build": 18, "force": 9, "finish": 3},
        "stroke": {"return": 1},
    },
    "approaching or at net": {
        "intent": {"approach": 32, "finish": 26, "build": 16, "force": 12, "keep in play": 6,
                   "drop": 8},
        "stroke": {"volley": 55, "half volley": 6, "smash": 6, "forehand": 22, "slice": 11},
        "afterwards": {"follow in": 75, "hold ground": 15, "watch": 10},
    },
    "opponent at net": {
        "intent": {"pass": 46, "lob": 18, "dip at the feet": 18, "keep in play": 10, "finish": 8},
    },
}  # fmt: skip

STAYS_IN_A_DRILL = 0.86
"""How likely a fact is the same on the next ball of a drill."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueBall:
    """Everything about one ball, as somebody who saw all of it would say."""

    situation: Situation
    choice: Choice
    landed: str
    as_intended: str


def lesson_balls(count: int, seed: int, words: Vocabulary) -> list[TrueBall]:
    """Return the balls of an invented lesson; the same seed gives the same lesson."""
    rng = Random(seed)
    balls: list[TrueBall] = []
    while len(balls) < count:
        balls += _drill(rng, words) if rng.random() < 0.45 else _points(rng, words)
    return balls[:count]


def _drill(rng: Random, words: Vocabulary) -> Iterator[TrueBall]:
    phase = _one_of(rng, PHASES)
    facts = _facts(rng, phase)
    for _ in range(rng.randint(10, 20)):
        anew = _facts(rng, phase)
        facts = {
            name: old if rng.random() < STAYS_IN_A_DRILL else anew[name]
            for name, old in facts.items()
        }
        yield _ball(rng, facts, words)


def _points(rng: Random, words: Vocabulary) -> Iterator[TrueBall]:
    for _ in range(rng.randint(10, 20)):
        yield _ball(rng, _facts(rng, _one_of(rng, PHASES)), words)


def _facts(rng: Random, phase: str) -> dict[str, str]:
    tables = {**EVERYWHERE, **IN_PHASE.get(phase, {})}
    return {"game situation": phase} | {name: _one_of(rng, tables[name]) for name in tables}


def _ball(rng: Random, facts: dict[str, str], words: Vocabulary) -> TrueBall:
    phase = facts["game situation"]
    tables = {**CHOSEN[""], **CHOSEN.get(phase, {})}
    chosen = {name: _one_of(rng, weights) for name, weights in tables.items()}
    if chosen["response"] != "played":
        chosen = {name: chosen[name] for name in ("response", "afterwards", "stance")}
    known = {
        name: value
        for name, value in {**STANDING, **facts}.items()
        if phase not in words.trait(name).absent_in
    }
    landed = _one_of(rng, {"in": 70, "net": 12, "long": 10, "wide": 8})
    wanted = landed == "in" and rng.random() < 0.85
    return TrueBall(
        situation=Situation.of(_values(known, words)),
        choice=Choice.of(_values(chosen, words)),
        landed=landed,
        as_intended="yes" if wanted else "no",
    )


def _values(written: Mapping[str, str], words: Vocabulary) -> dict[str, Known]:
    return {name: words.trait(name).value_of(value) or NOT_SEEN for name, value in written.items()}


def _one_of(rng: Random, weights: Weights) -> str:
    return rng.choices(list(weights), list(weights.values()))[0]
