"""A chart in a text file -> balls."""

from tactics.model.ball import Chart
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Reading, Severity, by_place
from tactics.reading.chart_bytes import decode_chart
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_columns import is_column
from tactics.reading.chart_csv import read_csv
from tactics.reading.chart_places import Places
from tactics.reading.table import read_table
from tactics.source import Source

_ARCHIVE = b"PK\x03\x04"


def read_chart(source: Source, words: Vocabulary) -> Reading[Chart]:
    """Return the balls of a chart with commas, semicolons or tabs, and every problem in it.

    Each row that is not blank is either a ball or left out; the value is None where the text is
    no chart at all.
    """
    table = read_csv(source, lambda heading: is_column(heading, words))
    if table.header.is_blank:
        return Reading(value=None, problems=(_empty(source),))
    read = read_table(table, words)
    if read.value is None or "\0" not in source.text:
        return read
    return Reading(value=read.value, problems=by_place((*read.problems, _nul(source))))


def read_chart_bytes(name: str, data: bytes, words: Vocabulary) -> Reading[Chart]:
    """Return the balls of a chart as it lies on disk, in whatever encoding it was saved."""
    if data.startswith(_ARCHIVE):
        return Reading(value=None, problems=(_archive(name),))
    source, guesses = decode_chart(name, data)
    read = read_chart(source, words)
    if read.value is None:
        return read
    return Reading(value=read.value, problems=by_place((*guesses, *read.problems)))


def _empty(source: Source) -> Problem:
    return Problem(
        code=ChartCode.EMPTY_CHART,
        span=source.start(),
        sentence="the file is empty",
        hint="start with a row of column names and write one row for each ball below it",
    )


def _archive(name: str) -> Problem:
    return Problem(
        code=ChartCode.NOT_A_CHART,
        span=Source(name=name, text="").start(),
        sentence="this is a packed file such as a spreadsheet, and not a text with one row a ball",
        hint="open it and save the sheet as CSV (UTF-8)",
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
