"""The growing chart on disk: an ordinary CSV chart, kept sign by sign as it stands.

A new ball is one line at the end. A change to an earlier ball changes the cells of its line that
say something else now; blank rows, the coach's own quotes and columns nobody knows stay.
"""

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tactics.charting.entry import Append, Remove, Replace, Write
from tactics.model.ball import Ball, Chart
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_columns import read_header
from tactics.reading.chart_csv import with_cells
from tactics.reading.chart_rows import Row, Table
from tactics.reading.chart_writing import columns, header, write_row

_LINE_END = re.compile(r"\r\n?|\n")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A row as it stands in the file. after: its line end, and blank rows that follow it."""

    text: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A chart file as text.

    before: everything above the first row. known: number of the column -> row of the vocabulary;
    width: how many columns there are. balls, places: the balls in it, and for each the place of
    its line. ending: of new lines.
    cut: the text of a last line that was never finished, "" where there is none.
    """

    before: str
    known: tuple[tuple[int, Trait], ...]
    width: int
    lines: tuple[Line, ...] = ()
    balls: tuple[Ball, ...] = ()
    places: tuple[int, ...] = ()
    separator: str = ","
    ending: str = "\n"
    cut: str = ""


def new_sheet(words: Vocabulary) -> Sheet:
    """Return a chart without balls, with a column for everything that can be noted."""
    names = header(words)
    return Sheet(
        before=f"{_line(names, ',')}\n", known=tuple(enumerate(columns(words))), width=len(names)
    )


def adopted(table: Table, chart: Chart, text: str, words: Vocabulary) -> Sheet:
    """Return the sheet of a chart that exists; columns it lacks are added at the end of each row.

    A last line that ends in the middle was being written when the program was stopped; nobody
    was told that it was safe, and it is cut off.
    """
    rows, cut = table.rows, ""
    if rows and not text.endswith(("\n", "\r")) and _is_torn(rows[-1], table):
        cut, rows = rows[-1].text, rows[:-1]
        text = text[: table.rows[-1].at]
    ends = _LINE_END.search(text)
    ending = ends[0] if ends else "\n"
    text += "" if text.endswith(("\n", "\r")) else ending
    width, more = len(table.header.cells), missing_columns(table, words)
    known = [(column.index, column.trait) for column in read_header(table, words).known]
    at_line = {table.start(row).line: place for place, row in enumerate(rows)}
    kept = [ball for ball in chart.balls if ball.span.line in at_line]
    head, first = table.header, rows[0].at if rows else len(text)
    added = "".join(f"{table.separator}{trait.name}" for trait in more)
    behind = head.at + len(head.text)
    return Sheet(
        before=text[:behind] + added + text[behind:first],
        known=(*known, *((width + at, trait) for at, trait in enumerate(more))),
        width=width + len(more),
        lines=_lines(rows, text, table.separator, width + len(more) if more else 0),
        balls=tuple(kept),
        places=tuple(at_line[ball.span.line] for ball in kept),
        separator=table.separator,
        ending=ending,
        cut=cut,
    )


def missing_columns(table: Table, words: Vocabulary) -> tuple[Trait, ...]:
    """Return what can be noted here and has no column in a table."""
    named = {column.trait for column in read_header(table, words).known}
    return tuple(trait for trait in columns(words) if trait not in named)


def uncut_rows(table: Table) -> tuple[Row, ...]:
    """Return the rows that cannot be cut in cells: with one of them a chart cannot be kept."""
    return tuple(row for row in table.rows if row.complaint is not None)


def overlong_rows(table: Table) -> tuple[Row, ...]:
    """Return the rows with cells beyond the header: a new column would take these for its own."""
    width = len(table.header.cells)
    return tuple(row for row in table.rows if any(row.cells[width:]))


def written(sheet: Sheet, write: Write, words: Vocabulary) -> Sheet:
    """Return the sheet after a write."""
    match write:
        case Append(ball=ball):
            line = Line(text=_new_line(sheet, ball, words), after=sheet.ending)
            return replace(
                sheet,
                lines=(*sheet.lines, line),
                balls=(*sheet.balls, ball),
                places=(*sheet.places, len(sheet.lines)),
            )
        case Replace(place=place, ball=ball):
            at = sheet.places[place]
            text = _changed(sheet, place, ball, words)
            line = replace(sheet.lines[at], text=text)
            return replace(
                sheet,
                lines=(*sheet.lines[:at], line, *sheet.lines[at + 1 :]),
                balls=(*sheet.balls[:place], ball, *sheet.balls[place + 1 :]),
            )
        case Remove(place=place):
            return _without(sheet, place)


def text_of(sheet: Sheet) -> str:
    """Return the whole chart as text."""
    return "".join((sheet.before, *(line.text + line.after for line in sheet.lines)))


def last_line(sheet: Sheet) -> str:
    """Return the last row as text, with its line end."""
    return sheet.lines[-1].text + sheet.lines[-1].after


def _is_torn(row: Row, table: Table) -> bool:
    return row.complaint is not None or len(row.cells) < len(table.header.cells)


def _lines(rows: Sequence[Row], text: str, separator: str, width: int) -> tuple[Line, ...]:
    """Return the rows of a text; those with fewer cells than `width` get empty ones at the end."""
    ends = [*(row.at for row in rows), len(text)][1:]
    return tuple(
        Line(
            text=row.text + separator * (width - len(row.cells)),
            after=text[row.at + len(row.text) : end],
        )
        for row, end in zip(rows, ends, strict=True)
    )


def _without(sheet: Sheet, place: int) -> Sheet:
    """Return the sheet without a line; blank rows behind it stay."""
    at = sheet.places[place]
    left = _LINE_END.sub("", sheet.lines[at].after, count=1)
    lines, before = list(sheet.lines), sheet.before
    del lines[at]
    if at:
        lines[at - 1] = replace(lines[at - 1], after=lines[at - 1].after + left)
    else:
        before += left
    places = sheet.places[:place] + sheet.places[place + 1 :]
    return replace(
        sheet,
        before=before,
        lines=tuple(lines),
        balls=sheet.balls[:place] + sheet.balls[place + 1 :],
        places=tuple(each - (each > at) for each in places),
    )


def _new_line(sheet: Sheet, ball: Ball, words: Vocabulary) -> str:
    texts = _texts(ball, words)
    cells = {index: texts[trait.folded] for index, trait in sheet.known}
    return _line([cells.get(index, "") for index in range(sheet.width)], sheet.separator)


def _changed(sheet: Sheet, place: int, ball: Ball, words: Vocabulary) -> str:
    """Return the line of a ball with the cells that say something else now."""
    old, new = _texts(sheet.balls[place], words), _texts(ball, words)
    cells = {
        index: _line([new[trait.folded]], sheet.separator) if new[trait.folded] else ""
        for index, trait in sheet.known
        if new[trait.folded] != old[trait.folded]
    }
    return with_cells(sheet.lines[sheet.places[place]].text, sheet.separator, cells)


def _texts(ball: Ball, words: Vocabulary) -> dict[str, str]:
    names = (trait.folded for trait in columns(words))
    return dict(zip(names, map(_flat, write_row(ball, words)), strict=True))


def _line(cells: Sequence[str], separator: str) -> str:
    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator="").writerow(cells)
    return out.getvalue()


def _flat(cell: str) -> str:
    """Return a cell on one line, so that a row is never more than a line."""
    return cell if cell.isprintable() else " ".join(cell.split())
