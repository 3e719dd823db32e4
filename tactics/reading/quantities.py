"""A number with a unit as somebody types it -> the number in the one unit that is used."""

import re
from collections.abc import Callable, Mapping
from enum import StrEnum

from tactics.model.units import Unit, convert
from tactics.problem import Problem
from tactics.reading.shot_codes import ShotCode
from tactics.reading.wording import either, quoted
from tactics.source import Span

_NUMBER = re.compile(r"(?P<number>[-+\u2212]?(?:\d+(?:[.,]\d+)?|[.,]\d+))\s*(?P<unit>\D.*)?")
_SIDE = re.compile(r"(?P<number>.*?)\s*\b(?P<side>left|right)", re.IGNORECASE)


class Measure(StrEnum):
    """What a number measures; the value is the unit it is turned into."""

    LENGTH = "m"
    SPEED = "km/h"
    SPIN = "rpm"
    TEMPERATURE = "°C"
    SHARE = "%"


_EXAMPLES: Mapping[Measure, tuple[str, ...]] = {
    Measure.LENGTH: ("1.2 m", "4 ft"),
    Measure.SPEED: ("90 km/h", "56 mph", "25 m/s"),
    Measure.SPIN: ("1800 rpm", "-1200 rpm for backspin"),
    Measure.TEMPERATURE: ("30 °C", "86 °F"),
    Measure.SHARE: ("80 %",),
}
_UNITS: Mapping[Measure, Unit] = {
    Measure.LENGTH: Unit.METRE,
    Measure.SPEED: Unit.KMH,
    Measure.SHARE: Unit.PERCENT,
}
_OTHER_UNITS: Mapping[Measure, Mapping[str, Callable[[float], float]]] = {
    Measure.SPIN: {"rpm": float, "rps": lambda turns: 60.0 * turns, "": float},
    Measure.TEMPERATURE: {
        **dict.fromkeys(("", "c", "°c", "deg c", "degc"), float),
        **dict.fromkeys(("f", "°f", "deg f", "degf"), lambda heat: (heat - 32.0) / 1.8),
    },
}


def quantity(text: str, measure: Measure) -> float | None:
    """Return the number in the unit of its measure, or None where it cannot be read.

    A number without a unit is in that unit already; a decimal comma is fine.
    """
    found = _NUMBER.fullmatch(text.strip())
    if found is None:
        return None
    number = float(found["number"].replace(",", ".").replace("\u2212", "-"))
    written = " ".join((found["unit"] or "").split())
    if measure in _UNITS:
        return convert(number, written, _UNITS[measure])
    turn = _OTHER_UNITS[measure].get(written.casefold())
    return None if turn is None else turn(number)


def sided(text: str) -> float | None:
    """Return a length (m) to the right of the middle: `2.5 m left` is -2.5, `-2.5` as well."""
    found = _SIDE.fullmatch(text.strip())
    if found is None:
        return quantity(text, Measure.LENGTH)
    number = quantity(found["number"], Measure.LENGTH)
    if number is None or number < 0:
        return None
    return -number if found["side"].casefold() == "left" else number


def unclear(name: str, text: str, measure: Measure, span: Span) -> Problem:
    """Return the problem of a text that should be a number and cannot be read as one."""
    examples = either(_EXAMPLES[measure])
    return Problem(
        code=ShotCode.UNCLEAR_NUMBER,
        span=span,
        sentence=f"{quoted(text)} cannot be read as a number for {name}",
        hint=f"write it like {examples}",
    )
