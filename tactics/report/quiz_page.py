"""A whole screen put together: a title, what is above, what is below, the keys."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.report.quiz_sheet import Ink, Row, Rows, cut, line, width_of

_WHERE = (Ink.FOCUS, Ink.HEADING)
"""Inks that draw the cursor, which a screen reader follows: the first that is on the page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The room there is on a screen, in characters."""

    columns: int = 80
    rows: int = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A screen: its rows, where the cursor stands, and whether there is more below."""

    rows: Rows
    cursor_column: int = 0
    cursor_row: int = 0
    has_more: bool = False


def stacked(blocks: Sequence[Rows], room: int) -> Rows:
    """Return blocks one below the other, with empty rows between them as far as they fit."""
    filled = [block for block in blocks if block]
    spare = max(0, room - sum(len(block) for block in filled))
    found: list[Row] = []
    for place, block in enumerate(filled):
        if 0 < place <= spare:
            found.append(())
        found += block
    return tuple(found)


def height_of(blocks: Sequence[Rows]) -> int:
    """Return how many rows blocks take with an empty row between each two."""
    filled = [len(block) for block in blocks if block]
    return sum(filled) + max(0, len(filled) - 1)


def assembled(room: Room, title: Row, above: Rows, below: Rows, keys: Row, scrolled: int) -> Page:
    """Return the page; what is below takes the rows that are left and is scrolled if need be."""
    left = max(1, room.rows - len(above) - 2)
    start = min(scrolled, max(0, len(below) - left))
    if not scrolled:
        start = max(0, _focused(below) - left + 1)
    seen = below[start : start + left]
    filled = (*seen, *(((),) * (left - len(seen))))
    rows = tuple(cut(row, room.columns) for row in (title, *above, *filled, keys))
    column, row = _cursor(rows)
    return Page(rows=rows, cursor_column=column, cursor_row=row, has_more=start + left < len(below))


def parting(columns: int, legend: Row, mark: str) -> Row:
    """Return a rule across the screen that carries the legend."""
    if not legend:
        return line(mark * columns, Ink.LINE)
    start: Row = ((Ink.LINE, mark * 2), (Ink.PLAIN, " "))
    left = columns - width_of(start) - width_of(legend)
    return (*start, *legend, (Ink.LINE, mark * max(0, left)))


def _focused(below: Rows) -> int:
    """Return the last row in focus, 0 where there is none."""
    places = (place for place, row in enumerate(below) if any(ink is Ink.FOCUS for ink, _ in row))
    return max(places, default=0)


def _cursor(rows: Rows) -> tuple[int, int]:
    for ink in _WHERE:
        for place, row in enumerate(rows):
            column = 0
            for of_run, text in row:
                if of_run is ink:
                    return column, place
                column += width_of(((of_run, text),))
    return 0, 0
