"""Values as a coach writes them in a rule file: `[deep, very deep]`, `at least 1.5 m`."""

import re
from collections.abc import Iterable
from math import inf

from tactics.model.known import Absent, Interval, Known, OneOf, Within
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary
from tactics.report.words import names_in, say_number

_PLAIN = re.compile(r"[^\W\d_][\w '%./-]*")


def condition_text(told: Iterable[tuple[str, Known]], words: Vocabulary) -> str:
    """Return facts as a condition on one line: `{game situation: returning, pace: at most 50 %}`.

    Facts that do not exist or were not seen are left out: no rule can ask for that.
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
    if len(parts) == 1:
        return _joined(trait, parts[0])
    branches = ", ".join(f"{{{', '.join(_joined(trait, each))}}}" for each in parts)
    return [f"any: [{branches}]"]


def _all_names(trait: Trait, known: OneOf | Within) -> tuple[str, ...]:
    if isinstance(known, OneOf):
        return tuple(word.name for word in trait.words if word.name in known.words)
    return names_in(known, trait)


def _listed(names: tuple[str, ...]) -> str:
    written = [name if _PLAIN.fullmatch(name) else f'"{name}"' for name in names]
    return written[0] if len(written) == 1 else f"[{', '.join(written)}]"


def _joined(trait: Trait, bounds: list[str]) -> list[str]:
    if len(bounds) == 1:
        return [f"{trait.name}: {bounds[0]}"]
    return [f"all: [{', '.join(f'{{{trait.name}: {bound}}}' for bound in bounds)}]"]


def _bounds(interval: Interval, trait: Trait) -> list[str]:
    """Return what has to hold for a number to lie in an interval, one or two bounds."""
    (low, low_side), (high, high_side) = interval.low, interval.high
    has_low, has_high = low > max(trait.low, -inf), high < min(trait.high, inf)
    if low == high:
        return [say_number(low, trait.unit)]
    bounds = []
    if has_low:
        bounds.append(f"{'more than' if low_side else 'at least'} {say_number(low, trait.unit)}")
    if has_high:
        bounds.append(f"{'at most' if high_side else 'less than'} {say_number(high, trait.unit)}")
    return bounds or [f"at least {say_number(trait.low, trait.unit)}"]
