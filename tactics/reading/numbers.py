"""Numbers as a coach writes them: `1.2 m`, `at least 3 ft`, `2 to 3 m`, `5 ft 7 in`."""

import re
from collections.abc import Callable
from dataclasses import dataclass

from tactics.model.known import (
    Interval,
    ScatterWithin,
    Within,
    at_least,
    at_most,
    between,
    less_than,
    more_than,
    point,
)
from tactics.model.trait import Trait
from tactics.model.units import Unit, convert, spellings, unit_of
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.other_bounds import (
    NUMBER,
    STARTS_LIKE_NUMBER,
    in_digits,
    misspelt_bound,
    other_bound,
)
from tactics.reading.suggest import near, number_range
from tactics.reading.wording import either, quoted

SCATTER_PARTS = frozenset({"inside line"})
"""Parts that may be given in multiples of the player's own scatter."""

_BOUNDS: dict[str, Callable[[float], Interval]] = {
    "at least": at_least,
    "more than": more_than,
    "at most": at_most,
    "less than": less_than,
}
_BOUND = re.compile(r"(?P<bound>at least|more than|at most|less than)\s+(?P<rest>.+)", re.I)
_RANGE = re.compile(r"(?P<low>.+?)\s+to\s+(?P<high>.+)", re.I)
_QUANTITY = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>(?:[^\W\d]|[%°/'\"]).*)?")
_FEET_AND_INCHES = re.compile(
    r"(?P<feet>\d+)\s*(?:ft|foot|feet|')\s*(?P<inches>\d+(?:\.\d+)?)\s*(?:in|inch|inches|\")", re.I
)
_COMMA = re.compile(r"(?<=\d),(?=\d)")
_MOST_DIGITS = 12

_OTHER_UNITS = {Unit.METRE: ("cm", "ft", "in"), Unit.SECOND: ("ms",), Unit.KMH: ("mph",)}


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number in its stored unit, and the unit as written."""

    number: float
    unit: Unit
    written: str


def read_number(
    text: str, trait: Trait, *, scatter: bool = False, decimal_comma: bool = False
) -> Within | ScatterWithin | Complaint | None:
    """Return the numbers a text stands for, what is wrong with it, or None: not about numbers."""
    written = text.strip()
    if _COMMA.search(written):
        repaired = _COMMA.sub(".", written)
        if not decimal_comma:
            return _decimal_comma(written, repaired)
        written = repaired
    bound = _BOUND.fullmatch(written)
    if bound:
        return _bounded(bound["bound"].lower(), bound["rest"], trait, scatter)
    span = _RANGE.fullmatch(written)
    if span and STARTS_LIKE_NUMBER.match(span["low"]):
        return _between(span["low"], span["high"], trait, scatter)
    other = other_bound(written)
    if other is not None:
        return other
    if not STARTS_LIKE_NUMBER.match(written):
        return misspelt_bound(written, trait, _BOUNDS)
    return _built(_quantity(written, trait, scatter), point)


def _built(
    quantity: Quantity | Complaint, make: Callable[[float], Interval]
) -> Within | ScatterWithin | Complaint:
    if isinstance(quantity, Complaint):
        return quantity
    kind = ScatterWithin if quantity.unit is Unit.SCATTER else Within
    return kind((make(quantity.number),))


def _bounded(
    bound: str, rest: str, trait: Trait, scatter: bool
) -> Within | ScatterWithin | Complaint:
    if not STARTS_LIKE_NUMBER.match(rest):
        return _bound_without_number(bound, rest, trait)
    quantity = _quantity(rest, trait, scatter)
    if isinstance(quantity, Complaint) and quantity.replacement:
        return _with_replacement(quantity, f"{bound} {quantity.replacement}")
    return _built(quantity, _BOUNDS[bound])


def _with_replacement(complaint: Complaint, replacement: str) -> Complaint:
    return Complaint(
        code=complaint.code,
        sentence=complaint.sentence,
        hint=complaint.hint,
        replacement=replacement,
    )


def _bound_without_number(bound: str, rest: str, trait: Trait) -> Complaint:
    """Return what to say about `at least deep`: words are put in order with `or higher`."""
    word = trait.word_named(rest)
    if word is not None and trait.ordered:
        way = "higher" if bound in ("at least", "more than") else "lower"
        wanted = f"{word.name} or {way}"
        return Complaint(
            code=Code.COMPARISON,
            sentence=f"{quoted(bound)} needs a number, and {quoted(rest)} is a word",
            hint=f"write {wanted}",
            replacement=wanted,
        )
    digits = in_digits(rest)
    return Complaint(
        code=Code.COMPARISON,
        sentence=f"{quoted(bound)} needs a number behind it, and {quoted(rest)} is none",
        hint=f"write {bound} {digits}"
        if digits
        else f"{quoted(trait.name)} is a number {number_range(trait)}".rstrip(),
        replacement=f"{bound} {digits}" if digits else "",
    )


def _between(
    low_text: str, high_text: str, trait: Trait, scatter: bool
) -> Within | ScatterWithin | Complaint:
    high = _quantity(high_text, trait, scatter)
    if isinstance(high, Complaint):
        if high.replacement:
            return _with_replacement(high, f"{low_text} to {high.replacement}")
        return high
    bare = re.fullmatch(NUMBER, low_text) is not None
    low = _quantity(f"{low_text} {high.written}" if bare else low_text, trait, scatter)
    if isinstance(low, Complaint):
        return _with_replacement(low, "")
    if low.unit is not high.unit:
        return mixed_units()
    if low.number > high.number:
        return _reversed(low_text, high_text, bare, high.written)
    kind = ScatterWithin if high.unit is Unit.SCATTER else Within
    return kind((between(low.number, high.number),))


def mixed_units() -> Complaint:
    """Return what to say where metres and multiples of scatter stand together."""
    return Complaint(
        code=Code.MIXED_UNITS,
        sentence="one number is in metres and the other in multiples of scatter",
        hint="write both in the same unit",
    )


def _reversed(low: str, high: str, bare: bool, unit: str) -> Complaint:
    first = high.removesuffix(unit).strip() if bare and unit else high
    last = f"{low} {unit}".strip() if bare else low
    wanted = f"{first} to {last}"
    return Complaint(
        code=Code.REVERSED_RANGE,
        sentence=f"{quoted(f'{low} to {high}')} runs from the larger number to the smaller",
        hint=f"write {wanted}",
        replacement=wanted,
    )


def _decimal_comma(written: str, repaired: str) -> Complaint:
    return Complaint(
        code=Code.DECIMAL_COMMA,
        sentence=f"{quoted(written)} has a comma in its number",
        hint=f"write {repaired}",
        replacement=repaired,
    )


def _quantity(text: str, trait: Trait, scatter: bool) -> Quantity | Complaint:
    """Return a number and its unit, converted and inside the range of the row."""
    unit = trait.unit or Unit.COUNT
    both_feet_and_inches = _FEET_AND_INCHES.fullmatch(text.strip())
    if both_feet_and_inches and unit is Unit.METRE:
        inches = 12 * float(both_feet_and_inches["feet"]) + float(both_feet_and_inches["inches"])
        return _in_range(Quantity(round(inches * 0.0254, 6), unit, ""), text, trait)
    found = _QUANTITY.fullmatch(text.strip())
    if found is None or len(found["number"]) > _MOST_DIGITS:
        return Complaint(
            code=Code.COMPARISON,
            sentence=f"{quoted(text)} cannot be read as a number",
            hint=f"{quoted(trait.name)} is a number {number_range(trait)}".rstrip(),
        )
    number = float(found["number"].replace("\u2212", "-"))
    written = " ".join((found["unit"] or "").split())
    if unit_of(written) is Unit.SCATTER:
        return _scatter(number, written, trait, scatter)
    stored = convert(number, written, unit)
    if stored is None:
        return _unknown_unit(found["number"], written, trait, unit)
    return _in_range(Quantity(stored, unit, written), text, trait)


def _scatter(number: float, written: str, trait: Trait, scatter: bool) -> Quantity | Complaint:
    if trait.folded not in SCATTER_PARTS:
        return Complaint(
            code=Code.UNKNOWN_UNIT,
            sentence=f"only {both_parts()} can be given in multiples of scatter",
            hint=f"write {quoted(trait.name)} as a number {number_range(trait)}".rstrip(),
        )
    if not scatter:
        return Complaint(
            code=Code.UNKNOWN_UNIT,
            sentence="multiples of scatter can be advised, and a charted ball or a test needs "
            "a distance",
            hint="write a number in metres, for example 1.4 m",
        )
    return Quantity(number, Unit.SCATTER, written)


def both_parts() -> str:
    """Return the parts that take multiples of scatter, quoted."""
    return either(quoted(name) for name in sorted(SCATTER_PARTS))


def _unknown_unit(number: str, written: str, trait: Trait, unit: Unit) -> Complaint:
    known = spellings(unit)
    if not known:
        return Complaint(
            code=Code.UNKNOWN_UNIT,
            sentence=f"{quoted(trait.name)} is a plain number, without {quoted(written)}",
            hint=f"write {number}",
            replacement=number,
        )
    if trait.folded in SCATTER_PARTS:
        known = (*known, *spellings(Unit.SCATTER))
    is_doubled = len(set(written)) == 1 and written[0] in known and not written.isalpha()
    spelt = (written[0],) if is_doubled else _one_of_each(near(written, known), unit)
    shown = either((_OTHER_UNITS.get(unit, ()) and (unit.value, *_OTHER_UNITS[unit])) or known[:2])
    start = f"did you mean {either(f'{number} {name}' for name in spelt)}? " if spelt else ""
    return Complaint(
        code=Code.UNKNOWN_UNIT,
        sentence=f"{quoted(written)} is not a unit for {quoted(trait.name)}",
        hint=f"{start}{'It' if start else quoted(trait.name)} is given in {shown}",
        replacement=f"{number} {spelt[0]}" if len(spelt) == 1 else "",
    )


def _one_of_each(spelt: tuple[str, ...], unit: Unit) -> tuple[str, ...]:
    """Return the spellings without those that only spell the same unit once more."""
    sizes = {convert(1, name, unit): name for name in reversed(spelt)}
    return tuple(reversed(sizes.values()))


def _in_range(quantity: Quantity, text: str, trait: Trait) -> Quantity | Complaint:
    if trait.low <= quantity.number <= trait.high:
        return quantity
    other = _units_that_fit(quantity, trait)
    start = f"did you mean {either(other)}? It" if other else quoted(trait.name)
    return Complaint(
        code=Code.OUT_OF_RANGE,
        sentence=f"{quoted(text)} is outside what {quoted(trait.name)} can be",
        hint=f"{start} can be a number {number_range(trait)}",
        replacement=other[0] if len(other) == 1 else "",
    )


def _units_that_fit(quantity: Quantity, trait: Trait) -> tuple[str, ...]:
    """Return the number with other units, where no unit was written and those would fit."""
    if quantity.written:
        return ()
    unit = trait.unit or Unit.COUNT
    fitting = []
    for name in _OTHER_UNITS.get(unit, ()):
        stored = convert(quantity.number, name, unit)
        if stored is not None and trait.low <= stored <= trait.high:
            fitting.append(f"{quantity.number:g} {name}")
    return tuple(fitting)
