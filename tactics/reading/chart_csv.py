"""Text with separators -> a table, with a place for every cell."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from tactics.problem import Problem
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_places import Places
from tactics.reading.chart_rows import Row, Table
from tactics.source import Source, Span

SEPARATORS = (",", ";", "\t")

_LINE_END = re.compile(r"\r\n?|\n")
_SAYS_SEPARATOR = re.compile(r'\ufeff?"?sep=([,;\t|])"?[,;\t|]*(?:\r\n?|\n|$)', re.IGNORECASE)
_QUOTED = re.compile(r'[ ]*+"((?:[^"]++|"")*+)("?+)[ ]*+')
_RETRIES = 2
"""A broken quote may make us read this many lengths of the file again, then lines stand alone."""


def read_csv(source: Source, is_column: Callable[[str], bool]) -> Table:
    """Return the table in a text; rows that cannot be cut in cells carry their complaint.

    The separator is the one its first line names (`sep=;`), else the one that gives the header
    the most columns for which `is_column` holds.
    """
    says = _SAYS_SEPARATOR.match(source.text)
    if says:
        cutter = _Cutter(source, says[1], says.end())
    else:
        start = len(source.text) - len(source.text.removeprefix("\ufeff"))
        cutters = [_Cutter(source, separator, start) for separator in SEPARATORS]
        cutter = max(cutters, key=lambda each: each.fitness(is_column))
    return cutter.table()


def with_cells(text: str, separator: str, cells: Mapping[int, str]) -> str:
    """Return a row with other raw cells at some places; every other sign of it stays.

    A row that is too short for a place grows by empty cells.
    """
    places = _Cutter(Source(name="", text=text), separator, 0).cells(text)
    raw = [text[start:end] for start, end in places]
    raw += [""] * (max(cells, default=-1) + 1 - len(raw))
    return separator.join(cells.get(place, each) for place, each in enumerate(raw))


@dataclass(frozen=True, slots=True)
class _Cut:
    """Where the raw cells of one row stand, where the row ends, and how far one had to look."""

    cells: tuple[tuple[int, int], ...]
    end: int
    looked: int
    broken: bool = False


class _Cutter:
    """Cuts one text at one separator."""

    def __init__(self, source: Source, separator: str, start: int) -> None:
        self._source = source
        self._text = source.text
        self._separator = separator
        self._start = start
        self._bare = re.compile(rf"[^{re.escape(separator)}\r\n]*+")
        self._has_nul = "\0" in source.text

    @cached_property
    def _places(self) -> Places:
        return Places(self._source)

    def fitness(self, is_column: Callable[[str], bool]) -> tuple[int, int]:
        """Return how many cells of the first row are columns, and how many cells there are.

        Where the separator leaves nothing but blank rows, it is the right one.
        """
        first = next((row for row in self.rows() if not row.is_blank), None)
        if first is None:
            return 1, 0
        cells = first.cells or self._clean(first.text.split(self._separator))
        return sum(map(is_column, cells)), len(cells)

    def table(self) -> Table:
        """Return the rows as a table; the first that is not blank is the header."""
        rows = list(self.rows())
        full = [row for row in rows if not row.is_blank]
        header = full[0] if full else Row(1, (), "")
        return Table(
            name=self._source.name,
            header=header,
            rows=tuple(full[1:]),
            start=self.start,
            place=self.place,
            blank_rows=len(rows) - len(full),
            separator=self._separator,
        )

    def rows(self) -> Iterator[Row]:
        """Yield every row, blank ones too."""
        at, number, patience = self._start, 0, _RETRIES * len(self._text)
        while at < len(self._text):
            number += 1
            line_end, after = self._line(at)
            if '"' not in self._text[at:line_end]:
                yield self._row(number, at, line_end)
                at = after
                continue
            cut = self._cut(at, len(self._text) if patience > 0 else line_end)
            if cut.broken:
                patience -= cut.looked - line_end
                yield self._broken_row(number, at, line_end, cut)
                at = after
            else:
                yield self._cut_row(number, at, cut)
                at = self._line(cut.end)[1]

    def cells(self, text: str) -> tuple[tuple[int, int], ...]:
        """Return where the cells of a text stand that is one row."""
        return self._cut(0, len(text)).cells

    def start(self, row: Row) -> Span:
        """Return where a row begins."""
        return self._places.at(row.at, len(row.text))

    def place(self, row: Row, index: int) -> Span:
        """Return where a cell stands; one that is missing stands at the end of its row."""
        cells = self._cut(row.at, row.at + len(row.text)).cells
        if index >= len(cells):
            return self._places.at(row.at + len(row.text))
        start, end = cells[index]
        raw = self._text[start:end]
        return self._places.at(start + len(raw) - len(raw.lstrip()), len(raw.strip()))

    def _line(self, at: int) -> tuple[int, int]:
        """Return where the line that goes through here ends, and where the next one starts."""
        found = _LINE_END.search(self._text, at)
        return found.span() if found else (len(self._text), len(self._text))

    def _cut(self, at: int, limit: int) -> _Cut:
        start, cells = at, []
        while True:
            quoted = _QUOTED.match(self._text, at, limit)
            found = quoted or self._bare.match(self._text, at, limit)
            end = found.end() if found else at
            stops = end >= limit or self._text[end] in "\r\n"
            if quoted and not (quoted[2] and (stops or self._text[end] == self._separator)):
                cells.append((at, end))
                return _Cut(tuple(cells), start, end, broken=True)
            cells.append((at, end))
            if stops:
                return _Cut(tuple(cells), end, end)
            at = end + 1

    def _row(self, number: int, at: int, end: int) -> Row:
        text = self._text[at:end]
        return Row(number, self._clean(text.split(self._separator)), text, at)

    def _cut_row(self, number: int, at: int, cut: _Cut) -> Row:
        cells = self._clean([_unquoted(self._text[start:end]) for start, end in cut.cells])
        return Row(number, cells, self._text[at : cut.end], at)

    def _broken_row(self, number: int, at: int, end: int, cut: _Cut) -> Row:
        start = max(first for first, _ in cut.cells if first <= end)
        raw = self._text[start:end]
        problem = Problem(
            code=ChartCode.OPEN_QUOTE,
            span=self._places.at(start + len(raw) - len(raw.lstrip())),
            sentence=f"row {number}: the quote that opens this cell does not close at its end",
            hint='close it before the next separator, and write a quote inside a cell twice: ""',
        )
        text = self._text[at:end]
        return Row(number, (), text, at, problem)

    def _clean(self, cells: Iterable[str]) -> tuple[str, ...]:
        if self._has_nul:
            cells = [cell.replace("\0", "") for cell in cells]
        return tuple(map(str.strip, cells))


def _unquoted(raw: str) -> str:
    quoted = _QUOTED.fullmatch(raw)
    return quoted[1].replace('""', '"') if quoted else raw
