"""Balls -> the header and cells of a chart: what the reader reads back as the same balls."""

import re
from math import inf

from tactics.model.ball import Ball
from tactics.model.known import EVERYTHING, Absent, Interval, Known, OneOf, Within, merged
from tactics.model.names import fold
from tactics.model.trait import Kind, Role, Trait
from tactics.model.vocabulary import Vocabulary

_LIKE_FORMULA = re.compile(r"'*[=+\-@]")
_GUARDED = re.compile(r"'+[=+\-@]")


def header(words: Vocabulary) -> tuple[str, ...]:
    """Return the names of all columns: who and when, the quick form, then all the rest."""
    return tuple(trait.name for trait in columns(words))


def columns(words: Vocabulary) -> tuple[Trait, ...]:
    """Return the rows of the vocabulary in the order of the columns of a chart."""
    labels = words.of_role(Role.LABEL)
    judged = words.of_role(Role.FACT, Role.PART, Role.OUTCOME)
    quick = tuple(trait for trait in judged if trait.quick)
    rest = tuple(trait for trait in judged if not trait.quick)
    note = tuple(trait for trait in labels if trait.name == "note")
    return (*(trait for trait in labels if trait not in note), *quick, *rest, *note)


def write_row(ball: Ball, words: Vocabulary) -> tuple[str, ...]:
    """Return the cells of one ball, in the order of `header`."""
    return tuple(_cell(ball, trait) for trait in columns(words))


def write_known(known: Known, trait: Trait) -> str:
    """Return what a coach would type for this in a cell of this row."""
    match known:
        case OneOf(some):
            return " / ".join(sorted(some))
        case Within(intervals):
            return " / ".join(_interval(each, trait) for each in intervals)
        case Absent():
            return str(known)


def guard_text(text: str) -> str:
    """Return a text that no spreadsheet program takes for a formula: '=1+1 for =1+1."""
    return f"'{text}" if _LIKE_FORMULA.match(text) else text


def unguard_text(text: str) -> str:
    """Return the text that `guard_text` was given."""
    return text[1:] if _GUARDED.match(text) else text


def _cell(ball: Ball, trait: Trait) -> str:
    name = trait.folded
    if trait.kind in (Kind.TEXT, Kind.DATE):
        return guard_text(getattr(ball, name))
    if trait.role is Role.OUTCOME:
        return _outcome(ball, name) or ("not seen" if trait.unset else "")
    noted = dict(ball.situation.facts if trait.role is Role.FACT else ball.choice.parts)
    return write_known(noted[name], trait) if name in noted else ""


def _outcome(ball: Ball, name: str) -> str:
    if name == "cause":
        return ball.cause or ""
    if name == fold("coach's mark"):
        return ball.mark or ""
    return str(getattr(ball.outcome, name.replace(" ", "_")))


def _interval(interval: Interval, trait: Trait) -> str:
    bands = _bands(interval, trait)
    if bands:
        return bands
    (low, low_side), (high, high_side) = interval.low, interval.high
    if interval == EVERYTHING:
        limit = _number(trait.low if trait.low > -inf else 0.0, trait)
        return f"less than {limit} / at least {limit}"
    if low == high:
        return _number(low, trait)
    if low == -inf:
        return f"{'at most' if high_side else 'less than'} {_number(high, trait)}"
    if high == inf:
        return f"{'more than' if low_side else 'at least'} {_number(low, trait)}"
    if high_side:
        return f"{_number(low, trait)} to {_number(high, trait)}"
    last = next(each for each in trait.words if each.interval.high == interval.high)
    return f"{_number(low, trait)} to {_number(last.low, trait)} / {last.name}"


def _bands(interval: Interval, trait: Trait) -> str:
    """Return the words that together mean just this interval, or nothing."""
    low, high = interval.low, interval.high
    inside = [
        each for each in trait.words if low <= each.interval.low and each.interval.high <= high
    ]
    whole = merged(each.interval for each in inside)
    return " / ".join(each.name for each in inside) if whole == (interval,) else ""


def _number(number: float, trait: Trait) -> str:
    written = f"{number:.6f}".rstrip("0").rstrip(".")
    unit = trait.unit.value if trait.unit else ""
    return f"{written} {unit}".strip()
