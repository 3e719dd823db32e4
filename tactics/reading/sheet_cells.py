"""Cells of a spreadsheet -> the text a coach would have typed."""

from datetime import date, datetime, time, timedelta

from tactics.model.trait import Kind, Trait
from tactics.model.units import Unit

Cell = int | float | str | bool | time | date | datetime | timedelta
"""What the spreadsheet library hands out."""

_MOST_SHARE = 1.5
"""A cell shown as 70 % holds 0.7; no stroke is meant at 1.5 % of a player's best."""


def text_of(cell: Cell, trait: Trait | None) -> str:
    """Return a cell as text. trait: the row of its column, None where nobody knows the column."""
    if isinstance(cell, str):
        return cell.strip()
    if isinstance(cell, bool):
        return _truth(cell, trait)
    if isinstance(cell, int | float):
        return _number(cell, trait)
    if isinstance(cell, datetime):
        return cell.date().isoformat() if _is_midnight(cell) else cell.isoformat(" ", "seconds")
    if isinstance(cell, timedelta):
        return f"{plain(cell.total_seconds())} s"
    return cell.isoformat()


def is_clock(cell: Cell) -> bool:
    """Say whether the spreadsheet program holds a date or a time here."""
    return isinstance(cell, date | time | timedelta)


def plain(number: float) -> str:
    """Return a number as it is typed: no exponent, no trace of binary fractions."""
    written = f"{number:.10f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def _truth(cell: bool, trait: Trait | None) -> str:
    word = "yes" if cell else "no"
    if trait is not None and trait.kind is Kind.WORDS and trait.word_named(word):
        return word
    return "TRUE" if cell else "FALSE"


def _number(cell: float, trait: Trait | None) -> str:
    is_percent = trait is not None and trait.unit is Unit.PERCENT and not trait.own
    if is_percent and isinstance(cell, float) and 0 < cell <= _MOST_SHARE:
        return f"{plain(cell * 100)} %"
    return plain(cell)


def _is_midnight(cell: datetime) -> bool:
    return cell.time() == time()
