"""Values that options are made of, and how bold each of them is."""

from collections.abc import Mapping
from math import exp

from tactics.quiz.plain import Value

LADDERS: Mapping[str, tuple[float, ...]] = {
    "height over net": (0.1, 0.2, 0.3, 0.5, 0.8, 1.0, 1.3, 1.6, 2.0, 2.5, 3.0, 3.5, 4.5),
    "inside line": (0.1, 0.3, 0.6, 0.9, 1.2, 1.5, 1.8, 2.2),
    "pace": (35.0, 45.0, 55.0, 60.0, 70.0, 80.0, 90.0, 100.0),
    "depth": (1.8, 4.5, 7.7, 10.0, 11.3),
}
"""Part -> numbers an option may show, rising."""

_BOLD: Mapping[str, Mapping[str, float]] = {
    "intent": {
        "keep in play": 0.0, "buy time": 0.0, "neutralise": 0.1, "lob": 0.2, "build": 0.3,
        "dip at the feet": 0.4, "approach": 0.6, "change direction": 0.6, "pass": 0.6,
        "drop": 0.7, "force": 0.8, "surprise": 0.8, "finish": 1.0,
    },
    "direction": {
        "middle": 0.0, "crosscourt": 0.2, "at body": 0.3, "inside-out": 0.5, "T": 0.5,
        "behind": 0.6, "straight": 0.7, "wide": 0.7, "inside-in": 0.8, "sharp angle": 0.9,
    },
    "spin": {"kick": 0.1, "heavy top": 0.1, "top": 0.2, "slice": 0.3, "side": 0.4, "flat": 0.9},
    "stroke": {
        "slice": 0.2, "lob": 0.2, "forehand": 0.4, "two-handed backhand": 0.4, "return": 0.4,
        "one-handed backhand": 0.5, "volley": 0.4, "half volley": 0.5, "drop shot": 0.7,
        "run-around forehand": 0.7, "swing volley": 0.8, "smash": 0.9,
    },
}  # fmt: skip
_UNKNOWN = 0.5


def boldness(parts: Mapping[str, Value]) -> float:
    """Return how bold a choice is: the sum over its parts, each from 0 (safest) to about 1."""
    return sum(_bold(part, value) for part, value in parts.items())


def _bold(part: str, value: Value) -> float:
    if isinstance(value, str):
        return _BOLD.get(part, {}).get(value, _UNKNOWN)
    number = float(value or 0.0)
    match part:
        case "height over net":
            return exp(-max(number, 0.0))
        case "inside line":
            return exp(-max(number, 0.0))
        case "pace":
            return max(0.0, (number - 35.0) / 65.0)
        case "depth":
            return max(0.0, number - 9.0) / 3.0
        case _:
            return _UNKNOWN


_INTENTS = (
    ("keep in play", "buy time", "neutralise", "build", "change direction", "force", "finish"),
    ("lob", "dip at the feet", "pass", "finish"),
)
"""Intents that can stand for one another, the safest first: from the back, and at a net player."""


def steps_from(part: str, value: Value, steps: int) -> Value:
    """Return the value some steps bolder (negative: safer) on its ladder; other words stay."""
    if part == "intent":
        rungs = next((rungs for rungs in _INTENTS if value in rungs), ())
        return rungs[_clamped(rungs.index(str(value)) + steps, len(rungs))] if rungs else value
    ladder = LADDERS.get(part)
    if ladder is None or not isinstance(value, float | int):
        return value
    nearest = min(range(len(ladder)), key=lambda place: abs(ladder[place] - value))
    way = -steps if part in ("height over net", "inside line") else steps
    return ladder[_clamped(nearest + way, len(ladder))] if steps else value


def _clamped(place: int, size: int) -> int:
    return min(max(place, 0), size - 1)
