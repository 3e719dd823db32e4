"""Header and rows -> balls: the same for every kind of table, whatever file it came from."""

from tactics.model.ball import Ball, Chart, LeftOut
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also, Problem, Reading, Severity, by_place
from tactics.reading.chart_balls import BallReader
from tactics.reading.chart_cells import BadCell
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_columns import read_header
from tactics.reading.chart_rows import Row, Table, letters_of
from tactics.reading.wording import quoted

_ROWS_NAMED = 3


def read_table(table: Table, words: Vocabulary) -> Reading[Chart]:
    """Return the balls of a table, and every problem in it.

    Each row that is not blank becomes a ball or is left out with a problem that says why. The
    value is None where no column has a known name.
    """
    if table.header.complaint is not None:
        return Reading(value=None, problems=(table.header.complaint,))
    columns = read_header(table, words)
    if not columns.known:
        return Reading(value=None, problems=columns.problems)
    balls, left_out, problems, short = [], [], list(columns.problems), []
    reader, width = BallReader(columns, words), len(table.header.cells)
    for row in table.rows:
        if len(row.cells) < width and row.complaint is None:
            short.append(row)
        found, ball = _read_row(row, table, reader)
        problems += found
        if ball is None:
            left_out.append(LeftOut(span=table.start(row), text=row.text))
        else:
            balls.append(ball)
    problems += [_short(short, table)] if short else []
    problems += [] if table.rows else [_no_balls(table)]
    chart = Chart(
        name=table.name,
        balls=tuple(balls),
        left_out=tuple(left_out),
        unknown_columns=tuple(heading for _, heading in columns.aside),
    )
    return Reading(value=chart, problems=by_place(problems))


def _read_row(row: Row, table: Table, reader: BallReader) -> tuple[list[Problem], Ball | None]:
    """Return the problems of a row, and its ball unless it has to be left out."""
    if row.complaint is not None:
        return [row.complaint], None
    width = len(table.header.cells)
    if any(row.cells[width:]):
        return [_too_long(row, table)], None
    cells = row.cells + ("",) * (width - len(row.cells))
    ball, bad = reader.read(cells, table.start(row))
    if not bad:
        return [], ball
    problems = [_bad_cell(row, each, table) for each in bad]
    return problems, None if any(each.loses_ball for each in bad) else ball


def _bad_cell(row: Row, bad: BadCell, table: Table) -> Problem:
    column = bad.column
    end = "" if bad.loses_ball else "; the ball is read without it"
    letters = f"column {letters_of(column.index)} " if table.has_letters else ""
    return Problem(
        code=bad.code,
        span=table.place(row, column.index),
        sentence=f"row {row.number}, {letters}{quoted(column.heading)}: {bad.sentence}{end}",
        hint=bad.hint,
        severity=Severity.ERROR if bad.loses_ball else Severity.WARNING,
        replacement=bad.replacement,
    )


def _too_long(row: Row, table: Table) -> Problem:
    width = len(table.header.cells)
    surplus = next(index for index, cell in enumerate(row.cells) if index >= width and cell)
    return Problem(
        code=ChartCode.RAGGED_ROW,
        span=table.place(row, surplus),
        sentence=f"row {row.number} has {len(row.cells)} cells and the header only {width}, "
        "so nobody can say which cell belongs to which column",
        hint="often a note or a number such as 1,5 holds the sign that parts the cells: put that "
        'cell in quotes, "1,5"',
    )


def _short(rows: list[Row], table: Table) -> Problem:
    first, *others = rows
    one = len(rows) == 1
    text = f"row {first.number} has" if one else f"{len(rows)} rows have"
    return Problem(
        code=ChartCode.RAGGED_ROW,
        span=table.place(first, len(first.cells)),
        sentence=f"{text} fewer cells than the header; what is missing at the end was taken as "
        "not seen",
        hint="check that no cell in the middle was left out, which would move those behind it",
        severity=Severity.WARNING,
        also=tuple(
            Also(span=table.place(row, len(row.cells)), text=f"row {row.number}, too")
            for row in others[: _ROWS_NAMED - 1]
        ),
    )


def _no_balls(table: Table) -> Problem:
    return Problem(
        code=ChartCode.EMPTY_CHART,
        span=table.start(table.header),
        sentence="the chart has a header and no balls",
        hint="write one row for each ball below the header",
        severity=Severity.WARNING,
    )
