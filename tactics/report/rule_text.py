"""Values as a coach writes them in a rule file: `[deep, very deep]`, `at least 1.5 m`."""

import re
from collections.abc import Iterable

from tactics.model.known import Absent, Interval, Known, OneOf, Within
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary
from tactics.report.words import names_in

_PLAIN = re.compile(r"[^\W\d_][\w '%./-]*")


def condition_text(told: Iterable[tuple[str, Known]], words: Vocabulary) -> str:
    """Return facts as a condition on one line: `{game situation: returning, pace: at most 50 %}`.

    Facts that do not exist, were not seen or may be anything are left out: nothing is asked.
    """
    entries = [
        entry
        for name, known in told
        if not isinstance(known, Absent)
        for entry in _entries(words.trait(name), known)
    ]
    return f"{{{', '.join(entries)}}}"


def _entries(trait: Trait, known: OneOf | Within) -> list[str]:
    names = _all_names(trait, known)
    if names:
        return [f"{trait.name}: {_listed(names)}"]
    if isinstance(known, OneOf):
        return []
    parts = [_bounds(each, trait) for each in known.intervals]
    if not all(parts):
        return []  # any number will do
    if len(parts) == 1:
        return _joined(trait, parts[0])
    branches = ", ".join(f"{{{', '.join(_joined(trait, each))}}}" for each in parts)
    return [f"any: [{branches}]"]


def _all_names(trait: Trait, known: OneOf | Within) -> tuple[str, ...]:
    if isinstance(known, OneOf):
        return tuple(word.name for word in trait.words if word.name in known.words)
    short_of_an_end = any(
        each.low == (trait.low, 1) or each.high == (trait.high, 0) for each in known.intervals
    )
    return () if short_of_an_end else names_in(known, trait)


def _listed(names: tuple[str, ...]) -> str:
    written = [name if _PLAIN.fullmatch(name) else f'"{name}"' for name in names]
    return written[0] if len(written) == 1 else f"[{', '.join(written)}]"


def _joined(trait: Trait, bounds: list[str]) -> list[str]:
    if len(bounds) == 1:
        return [f"{trait.name}: {bounds[0]}"]
    return [f"all: [{', '.join(f'{{{trait.name}: {bound}}}' for bound in bounds)}]"]


def _bounds(interval: Interval, trait: Trait) -> list[str]:
    """Return what has to hold for a number to lie in an interval: no bound, one or two."""
    (low, low_side), (high, high_side) = interval.low, interval.high
    if low == high:
        return [_number(low, trait)]
    bounds = []
    if interval.low > (trait.low, 0):
        bounds.append(f"{'more than' if low_side else 'at least'} {_number(low, trait)}")
    if interval.high < (trait.high, 1):
        bounds.append(f"{'at most' if high_side else 'less than'} {_number(high, trait)}")
    return bounds


def _number(number: float, trait: Trait) -> str:
    """Return a number with its unit, as exact as thresholds are stored."""
    written = f"{number:.6f}".rstrip("0").rstrip(".")
    return f"{written} {trait.unit.value if trait.unit else ''}".strip()
