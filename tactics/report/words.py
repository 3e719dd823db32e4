"""Sets of values in words: bands by name with their numbers, `at least 1.3 m`."""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from math import inf
from types import MappingProxyType

from tactics.model.known import (
    Absent,
    Allowed,
    Interval,
    Known,
    OneOf,
    ScatterWithin,
    Within,
    complement,
    merged,
    point,
)
from tactics.model.trait import Kind, Trait
from tactics.model.units import Unit
from tactics.reading.wording import both, either

_DECIMALS, _FINE_DECIMALS = 2, 4
_FEWER_DECIMALS: Mapping[Unit | None, int] = MappingProxyType({Unit.KMH: 0, Unit.PERCENT: 1})
"""What anybody at the court can tell: four feet are 1.22 m, thirty miles an hour 48 km/h."""
_FEW = 2
_KEPT = 4096
"""So many values are worded once only: the same ones are said again and again."""


def say(known: Known | Allowed, trait: Trait) -> str:
    """Return what is known, bands by name first: `deep (9.1 to 10.9 m)`."""
    names, numbers = _names_and_numbers(known, trait)
    return f"{names} ({numbers})" if names and numbers else names or numbers


def say_bounds(allowed: Known | Allowed, trait: Trait) -> str:
    """Return what is asked for, numbers first: `at least 9.1 m (deep or very deep)`."""
    names, numbers = _names_and_numbers(allowed, trait)
    return f"{numbers} ({names})" if names and numbers else names or numbers


@lru_cache(maxsize=_KEPT)
def _names_and_numbers(known: Known | Allowed, trait: Trait) -> tuple[str, str]:
    match known:
        case OneOf(words):
            return say_words(words, trait), ""
        case Within(intervals):
            inside = _inside(intervals, trait)
            return either(_band_names(inside, trait)), _say_numbers(inside, trait, trait.unit)
        case ScatterWithin(intervals):
            return "", _say_numbers(intervals, trait, Unit.SCATTER)
        case _:
            return str(known), ""


def say_words(words: Iterable[str], trait: Trait) -> str:
    """Return words in the order of the vocabulary; all but one or two as what they are not."""
    wanted = frozenset(words)
    names = [word.name for word in trait.words if word.name in wanted]
    others = [word.name for word in trait.words if word.name not in wanted]
    if not others:
        return "any"
    if len(others) <= _FEW < len(names):
        return f"anything but {both(others)}"
    return either(names)


def say_short(known: Known | Allowed, trait: Trait) -> str:
    """Return the same without the numbers of bands: `deep or very deep`."""
    names = names_in(known, trait) if isinstance(known, Within) else ()
    return either(names) or say(known, trait)


def say_beside(known: Known, asked: Allowed | None, trait: Trait) -> str:
    """Return what is known; finer where a rounded number would look like what was asked for."""
    if not (isinstance(known, Within) and isinstance(asked, Within)):
        return say(known, trait)
    number = known.intervals[0].low[0]
    rounded = round(number, _decimals(trait.unit))
    is_one = known.intervals == (point(number),)
    if is_one and _allows(asked, rounded) and not _allows(asked, number):
        return say_number(number, trait.unit, _FINE_DECIMALS)
    return say(known, trait)


def _allows(asked: Within, number: float) -> bool:
    return any(each.meets(point(number)) for each in asked.intervals)


def _decimals(unit: Unit | None) -> int:
    return _FEWER_DECIMALS.get(unit, _DECIMALS)


def say_number(number: float, unit: Unit | None, decimals: int | None = None) -> str:
    """Return a number with its unit: `1.3 m`, `75 %`."""
    written = f"{number:.{_decimals(unit) if decimals is None else decimals}f}"
    if "." in written:
        written = written.rstrip("0").rstrip(".")
    return f"{'0' if written in ('-0', '') else written} {unit.value if unit else ''}".strip()


def say_asked(allowed: Allowed, trait: Trait) -> str:
    """Return what a condition asks for: one or two bands by name, anything else in numbers."""
    names = names_in(allowed, trait) if isinstance(allowed, Within) else ()
    return either(names) if 0 < len(names) <= _FEW else say_numbers(allowed, trait)


def say_numbers(known: Known | Allowed, trait: Trait) -> str:
    """Return numbers only, without the names of bands; words stay words."""
    names, numbers = _names_and_numbers(known, trait)
    return numbers or names


@lru_cache(maxsize=_KEPT)
def names_in(known: Known | Allowed, trait: Trait) -> tuple[str, ...]:
    """Return the words this is, in the order of the vocabulary; none where only numbers fit."""
    match known:
        case OneOf(words):
            return tuple(word.name for word in trait.words if word.name in words)
        case Within(intervals):
            return _band_names(_inside(intervals, trait), trait)
        case _:
            return ()


def word_with_numbers(trait: Trait, name: str) -> str:
    """Return the limits of a band in numbers, or nothing for a plain word."""
    found = trait.word_named(name)
    if found is None or trait.kind is not Kind.NUMBER:
        return ""
    return _say_range(found.interval, trait, trait.unit)


def says_something(known: Known, trait: Trait) -> bool:
    """Say whether anything is known of a fact: not that it may be anything, or does not exist."""
    match known:
        case OneOf(words):
            return say_words(words, trait) != "any"
        case Within(intervals):
            return bool(complement(_inside(intervals, trait)))
        case _:
            return not isinstance(known, Absent)


def _inside(intervals: Iterable[Interval], trait: Trait) -> tuple[Interval, ...]:
    """Return the intervals with the ends of what can occur at all opened: 1.3 to 12 is 1.3 up."""
    return merged(
        Interval(
            (-inf, 0) if each.low[0] <= trait.low else each.low,
            (inf, 1) if each.high[0] >= trait.high else each.high,
        )
        for each in intervals
    )


def _say_numbers(intervals: tuple[Interval, ...], trait: Trait, unit: Unit | None) -> str:
    if not complement(intervals):
        return "any"
    return " or ".join(_say_range(each, trait, unit) for each in intervals)


def _band_names(intervals: tuple[Interval, ...], trait: Trait) -> tuple[str, ...]:
    """Return the bands that together are exactly these numbers, or nothing."""
    inside = [
        word
        for word in trait.words
        if any(each.low <= word.interval.low and word.interval.high <= each.high
               for each in intervals)
    ]  # fmt: skip
    if trait.kind is not Kind.NUMBER or len(inside) == len(trait.words):
        return ()
    if merged(word.interval for word in inside) != merged(intervals):
        return ()
    return tuple(word.name for word in inside)


def _say_range(interval: Interval, trait: Trait, unit: Unit | None) -> str:
    if _is_sided(trait):
        return _say_sided(interval, unit)
    return _plain_range(interval, unit)


def _plain_range(interval: Interval, unit: Unit | None) -> str:
    (low, low_side), (high, high_side) = interval.low, interval.high
    if low == high:
        return say_number(low, unit)
    if low == -inf:
        return f"{'at most' if high_side else 'less than'} {say_number(high, unit)}"
    if high == inf:
        return f"{'more than' if low_side else 'at least'} {say_number(low, unit)}"
    start = say_number(low, None, _decimals(unit))
    return f"{'over ' if low_side else ''}{start} to {say_number(high, unit)}"


def _is_sided(trait: Trait) -> bool:
    """Say whether a number counts metres to either side of the middle."""
    return trait.kind is Kind.NUMBER and trait.low == -trait.high != -inf


def _say_sided(interval: Interval, unit: Unit | None) -> str:
    """Return a place between the sidelines: negative numbers lie on the backhand side."""
    (low, low_side), (high, high_side) = interval.low, interval.high
    if low >= 0:
        return f"{_plain_range(interval, unit)} to the forehand side"
    if high <= 0:
        turned = Interval((-high, 1 - high_side), (-low, 1 - low_side))
        return f"{_plain_range(turned, unit)} to the backhand side"
    if low == -high:
        return f"within {say_number(high, unit)} of the middle"
    return f"{_reach(-low, unit)} the backhand side and {_reach(high, unit)} the forehand side"


def _reach(end: float, unit: Unit | None) -> str:
    return "anywhere on" if end == inf else f"at most {say_number(end, unit)} to"
