"""A chart in a text file -> balls."""

from tactics.model.ball import Chart
from tactics.model.names import fold
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Reading, Severity, by_place
from tactics.reading.chart_bytes import decode_chart
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_columns import is_column
from tactics.reading.chart_csv import read_csv
from tactics.reading.chart_places import Places
from tactics.reading.chart_rows import Table
from tactics.reading.column_guess import proposed
from tactics.reading.own_names import NO_MAP, ColumnMap, mapped
from tactics.reading.sheet_guard import COMPOUND, PACKED
from tactics.reading.table import read_table
from tactics.source import Source


def read_chart(source: Source, words: Vocabulary, own: ColumnMap = NO_MAP) -> Reading[Chart]:
    """Return the balls of a chart with commas, semicolons or tabs, and every problem in it.

    Each row that is not blank is either a ball or left out; the value is None where the text is
    no chart at all. own: what a coach's own headings and words stand for.
    """
    table = text_table(source, words, own)
    if table.header.is_blank:
        return Reading(value=None, problems=(_empty(source),))
    read = read_rows(table, words)
    if read.value is None or "\0" not in source.text:
        return read
    return Reading(value=read.value, problems=by_place((*read.problems, _nul(source))))


def text_table(source: Source, words: Vocabulary, own: ColumnMap = NO_MAP) -> Table:
    """Return the table in a text, with what its headings stand for."""
    table = read_csv(
        source, lambda heading: is_column(own.columns.get(fold(heading), heading), words)
    )
    return mapped(table, own, words)


def read_rows(table: Table, words: Vocabulary) -> Reading[Chart]:
    """Return the balls of a table; where headings are close to known ones, a map is proposed."""
    read = read_table(table, words)
    proposal = None if table.header.complaint else proposed(table, words)
    if proposal is None:
        return read
    return Reading(value=read.value, problems=by_place((*read.problems, proposal)))


def read_chart_bytes(
    name: str, data: bytes, words: Vocabulary, own: ColumnMap = NO_MAP
) -> Reading[Chart]:
    """Return the balls of a chart as it lies on disk: a spreadsheet, or a text in any encoding."""
    if is_spreadsheet(data):
        from tactics.reading.spreadsheets import (
            read_spreadsheet,
        )  # only here: it takes long to load

        return read_spreadsheet(name, data, words, own)
    source, guesses = decode_chart(name, data)
    read = read_chart(source, words, own)
    if read.value is None:
        return read
    return Reading(value=read.value, problems=by_place((*guesses, *read.problems)))


def is_spreadsheet(data: bytes) -> bool:
    """Say whether the bytes are no text but a packed or older office file."""
    return data.startswith((PACKED, COMPOUND))


def _empty(source: Source) -> Problem:
    return Problem(
        code=ChartCode.EMPTY_CHART,
        span=source.start(),
        sentence="the file is empty",
        hint="start with a row of column names and write one row for each ball below it",
    )


def _nul(source: Source) -> Problem:
    count = source.text.count("\0")
    signs = "1 sign that is no letter (NUL) was" if count == 1 else f"{count} signs that are no "
    signs += "" if count == 1 else "letters (NUL) were"
    return Problem(
        code=ChartCode.NUL_CHARACTER,
        span=Places(source).at(source.text.index("\0")),
        sentence=f"{signs} passed over, the first of them here; the file may have been damaged",
        hint="compare the chart with your notes, then save it again",
        severity=Severity.WARNING,
    )
