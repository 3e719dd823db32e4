"""The growing chart on disk: an ordinary CSV chart, row by row, every cell kept as it stood.

A new ball is one line at the end. A change to an earlier ball writes the whole table anew.
"""

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tactics.charting.entry import Append, Remove, Replace, Write
from tactics.model.ball import Ball, Chart
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_columns import read_header
from tactics.reading.chart_rows import Row, Table
from tactics.reading.chart_writing import columns, header, write_row


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Header and rows of a chart file.

    known: number of the column -> row of the vocabulary. places: place of a ball -> its row.
    cut: the text of a last line that was never finished, "" where there is none.
    """

    headings: tuple[str, ...]
    known: tuple[tuple[int, Trait], ...]
    rows: tuple[tuple[str, ...], ...] = ()
    places: tuple[int, ...] = ()
    cut: str = ""


def new_sheet(words: Vocabulary) -> Sheet:
    """Return a chart without balls, with a column for everything that can be noted."""
    return Sheet(headings=header(words), known=tuple(enumerate(columns(words))))


def adopted(table: Table, chart: Chart, text: str, words: Vocabulary) -> Sheet:
    """Return the sheet of a chart that exists; columns it lacks are added at the end.

    A last line that ends in the middle was being written when the program was stopped; nobody
    was told that it was safe, and it is cut off.
    """
    rows = table.rows
    cut = ""
    if rows and not text.endswith("\n") and _is_torn(rows[-1], table):
        cut, rows = rows[-1].text, rows[:-1]
    found = read_header(table, words)
    known = [(column.index, column.trait) for column in found.known]
    named = {trait for _, trait in known}
    more = [trait for trait in columns(words) if trait not in named]
    width = len(table.header.cells)
    known += [(width + at, trait) for at, trait in enumerate(more)]
    at_line = {table.start(row).line: place for place, row in enumerate(rows)}
    return Sheet(
        headings=(*table.header.cells, *(trait.name for trait in more)),
        known=tuple(known),
        rows=tuple(_padded(row.cells, width + len(more)) for row in rows),
        places=tuple(at_line[ball.span.line] for ball in chart.balls if ball.span.line in at_line),
        cut=cut,
    )


def uncut_rows(table: Table) -> tuple[Row, ...]:
    """Return the rows that cannot be cut in cells: with one of them a chart cannot be kept."""
    return tuple(row for row in table.rows if row.complaint is not None)


def written(sheet: Sheet, write: Write, words: Vocabulary) -> Sheet:
    """Return the sheet after a write."""
    match write:
        case Append(ball=ball):
            row = _cells(sheet, ("",) * len(sheet.headings), ball, words)
            return replace(sheet, rows=(*sheet.rows, row), places=(*sheet.places, len(sheet.rows)))
        case Replace(place=place, ball=ball):
            at = sheet.places[place]
            row = _cells(sheet, sheet.rows[at], ball, words)
            return replace(sheet, rows=(*sheet.rows[:at], row, *sheet.rows[at + 1 :]))
        case Remove(place=place):
            at = sheet.places[place]
            places = sheet.places[:place] + sheet.places[place + 1 :]
            return replace(
                sheet,
                rows=(*sheet.rows[:at], *sheet.rows[at + 1 :]),
                places=tuple(each - (each > at) for each in places),
            )


def text_of(sheet: Sheet) -> str:
    """Return the whole chart as text."""
    return _lines([sheet.headings, *sheet.rows])


def last_line(sheet: Sheet) -> str:
    """Return the last row as text, with its line end."""
    return _lines(sheet.rows[-1:])


def _is_torn(row: Row, table: Table) -> bool:
    return row.complaint is not None or len(row.cells) < len(table.header.cells)


def _padded(cells: Sequence[str], width: int) -> tuple[str, ...]:
    return (*cells, *("",) * (width - len(cells)))


def _cells(sheet: Sheet, row: Sequence[str], ball: Ball, words: Vocabulary) -> tuple[str, ...]:
    """Return a row with the cells of a ball; columns nobody knows stay as they are."""
    texts = dict(
        zip((trait.folded for trait in columns(words)), write_row(ball, words), strict=True)
    )
    cells = list(row)
    for index, trait in sheet.known:
        cells[index] = texts[trait.folded]
    return tuple(cells)


def _lines(rows: Sequence[Sequence[str]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows([[_flat(cell) for cell in row] for row in rows])
    return out.getvalue()


def _flat(cell: str) -> str:
    """Return a cell on one line, so that a row is never more than a line."""
    return cell if cell.isprintable() else " ".join(cell.split())
