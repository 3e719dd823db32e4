"""A chart in a spreadsheet (xlsx, ods) -> balls. The only module that imports python_calamine."""

import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import python_calamine as calamine

from tactics.model.ball import Chart
from tactics.model.names import fold
from tactics.model.trait import Kind, Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Reading, Severity, by_place
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_columns import meaning_of
from tactics.reading.chart_rows import Row, Table, letters_of
from tactics.reading.own_names import ColumnMap, mapped
from tactics.reading.sheet_cells import Cell, is_clock, text_of
from tactics.reading.sheet_codes import OWN_SHEETS, SheetCode
from tactics.reading.sheet_guard import Opened, damaged, locked, look_into
from tactics.reading.wording import both, quoted
from tactics.source import Span

_FAULT = "#VALUE!"
_NAMED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTable:
    """One sheet as a table, and the remarks on what had to be made of its cells."""

    sheet: str
    table: Table
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """The sheets of a file that hold balls, and remarks on those that do not."""

    tables: tuple[SheetTable, ...]
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class _Raw:
    """A sheet as it came. merged: first and last (row, column) of cells made one."""

    name: str
    is_shown: bool
    cells: Sequence[Sequence[Cell]]
    merged: Sequence[tuple[tuple[int, int], tuple[int, int]]]
    faults: frozenset[tuple[int, int]]


def read_sheets(name: str, data: bytes, words: Vocabulary, own: ColumnMap) -> Reading[Sheets]:
    """Return every sheet that is a chart; where none is, the one that comes nearest.

    The value is None where the file cannot be opened or holds nothing.
    """
    opened = look_into(name, data)
    if isinstance(opened, Problem):
        return Reading(value=None, problems=(opened,))
    raw = _open(name, data, opened)
    if isinstance(raw, Problem):
        return Reading(value=None, problems=(raw,))
    filled = [sheet for sheet in raw if any(map(any, map(_said, sheet.cells)))]
    if not filled:
        return Reading(value=None, problems=(_empty(name),))
    shown = [sheet for sheet in filled if sheet.is_shown] or filled
    is_chart = {sheet.name: _is_chart(sheet, words, own) for sheet in shown}
    chosen = [sheet for sheet in shown if is_chart[sheet.name]]
    chosen = chosen or [max(shown, key=lambda sheet: len(_known(sheet, words, own)))]
    several = len(chosen) > 1
    tables = [
        _table(sheet, f"{name}[{sheet.name}]" if several else name, words, own) for sheet in chosen
    ]
    unread = [
        _unread(name, sheet)
        for sheet in filled
        if sheet not in chosen and fold(sheet.name) not in OWN_SHEETS
    ]
    return Reading(value=Sheets(tables=tuple(tables), problems=tuple(unread)))


def read_spreadsheet(name: str, data: bytes, words: Vocabulary, own: ColumnMap) -> Reading[Chart]:
    """Return the balls of all sheets of a file, and every problem in them."""
    from tactics.reading.charts import read_rows

    sheets = read_sheets(name, data, words, own)
    if sheets.value is None:
        return Reading(value=None, problems=sheets.problems)
    problems = [*sheets.problems, *sheets.value.problems]
    charts = []
    for each in sheets.value.tables:
        read = read_rows(each.table, words)
        problems += [*each.problems, *read.problems]
        if read.value is not None:
            charts.append(read.value)
    return Reading(value=_joined(name, charts), problems=by_place(problems))


def _joined(name: str, charts: Sequence[Chart]) -> Chart | None:
    if not charts:
        return None
    return Chart(
        name=name,
        balls=tuple(ball for chart in charts for ball in chart.balls),
        left_out=tuple(row for chart in charts for row in chart.left_out),
        unknown_columns=tuple(
            dict.fromkeys(each for chart in charts for each in chart.unknown_columns)
        ),
    )


def _open(name: str, data: bytes, opened: Opened) -> list[_Raw] | Problem:
    try:
        with calamine.CalamineWorkbook.from_filelike(io.BytesIO(data)) as book:
            return [
                _raw(book.get_sheet_by_index(number), meta, opened, number)
                for number, meta in enumerate(book.sheets_metadata)
                if meta.typ is calamine.SheetTypeEnum.WorkSheet
            ]
    except calamine.PasswordError:
        return locked(name)
    except (KeyboardInterrupt, SystemExit, MemoryError):
        raise
    except BaseException:  # a fault inside the library is no Exception
        return damaged(name)


def _raw(
    sheet: calamine.CalamineSheet, meta: calamine.SheetMetadata, opened: Opened, number: int
) -> _Raw:
    return _Raw(
        name=meta.name,
        is_shown=meta.visible is calamine.SheetVisibleEnum.Visible,
        cells=sheet.to_python(skip_empty_area=False),
        merged=sheet.merged_cell_ranges or (),
        faults=opened.faults.get(number, frozenset()),
    )


def _said(row: Iterable[Cell]) -> Iterable[bool]:
    return (cell != "" for cell in row)


def _header_at(sheet: _Raw) -> int:
    return next((at for at, row in enumerate(sheet.cells) if any(_said(row))), 0)


def _known(sheet: _Raw, words: Vocabulary, own: ColumnMap) -> dict[int, Trait]:
    """Return the columns whose heading is known, by number."""
    found = {}
    for index, cell in enumerate(sheet.cells[_header_at(sheet)]):
        heading = text_of(cell, None)
        meaning = meaning_of(own.columns.get(fold(heading), "") or heading, words)
        if meaning is not None:
            found[index] = meaning[0]
    return found


def _is_chart(sheet: _Raw, words: Vocabulary, own: ColumnMap) -> bool:
    known = _known(sheet, words, own).values()
    return len(known) > 1 and any(trait.role in (Role.FACT, Role.PART) for trait in known)


def _table(sheet: _Raw, name: str, words: Vocabulary, own: ColumnMap) -> SheetTable:
    known = _known(sheet, words, own)
    head = _header_at(sheet)
    width = max(map(len, sheet.cells))
    traits = [known.get(at) for at in range(width)]
    texts = [
        [cell.strip() if type(cell) is str else text_of(cell, trait)
         for cell, trait in zip(row, traits, strict=False)]
        for row in sheet.cells[head:]
    ]  # fmt: skip
    for row, column in sheet.faults:
        if head < row - 1 < head + len(texts) and column <= width:
            texts[row - 1 - head][column - 1] = _FAULT
    filled = _fill_merged(sheet, texts, head, width)
    rows = [_row(number, cells) for number, cells in enumerate(texts, start=head + 1)]
    full = [row for row in rows[1:] if not row.is_blank]
    table = Table(
        name=name,
        header=rows[0],
        rows=tuple(full),
        start=lambda row: Span(file=name, line=row.number),
        place=lambda row, index: Span(file=name, line=row.number, column=index + 1),
        blank_rows=len(rows) - 1 - len(full) + head,
        has_letters=True,
    )
    remarks = [*_merged(sheet, name, filled, head), *_clocks(sheet, name, known, head)]
    return SheetTable(sheet=sheet.name, table=mapped(table, own, words), problems=tuple(remarks))


def _row(number: int, cells: list[str]) -> Row:
    return Row(number, tuple(cells), " | ".join(filter(None, cells)))


def _fill_merged(sheet: _Raw, texts: list[list[str]], head: int, width: int) -> list[str]:
    """Put the word of cells merged down a column in each of them; return which they were."""
    filled = []
    for (top, left), (bottom, right) in sheet.merged:
        last = min(bottom, head + len(texts) - 1)
        if left != right or top <= head or left >= width or not texts[top - head][left]:
            continue
        for row in range(top + 1, last + 1):
            texts[row - head][left] = texts[top - head][left]
        filled.append(f"{letters_of(left)}{top + 1} to {letters_of(left)}{last + 1}")
    return filled


def _merged(sheet: _Raw, name: str, filled: Sequence[str], head: int) -> list[Problem]:
    across = [
        (top, left, f"{letters_of(left)}{top + 1} to {letters_of(right)}{bottom + 1}")
        for (top, left), (bottom, right) in sheet.merged
        if left != right and top > head
    ]
    problems = []
    if filled:
        problems.append(
            Problem(
                code=SheetCode.MERGED_CELLS,
                span=Span(file=name, line=head + 1),
                sentence=f"merged cells ({_some(filled)}) were read as the same word in each row",
                hint="nothing to do if that is what was meant",
                severity=Severity.INFORMATION,
            )
        )
    if across:
        top, left, _ = across[0]
        problems.append(
            Problem(
                code=SheetCode.MERGED_CELLS,
                span=Span(file=name, line=top + 1, column=left + 1),
                sentence=f"cells are merged across columns ({_some([text for *_, text in across])})"
                f"; what stands there was read for its first column only",
                hint="part the cells, and write into each column what belongs there",
                severity=Severity.WARNING,
            )
        )
    return problems


def _clocks(sheet: _Raw, name: str, known: dict[int, Trait], head: int) -> list[Problem]:
    """Return a remark for free texts of which the spreadsheet program made dates or times."""
    found = [
        (row, column)
        for column, trait in known.items()
        if trait.kind is Kind.TEXT
        for row in range(head + 1, len(sheet.cells))
        if column < len(sheet.cells[row]) and is_clock(sheet.cells[row][column])
    ]
    if not found:
        return []
    row, column = min(found)
    trait = known[column]
    more = f", and {len(found) - 1} more" if len(found) > 1 else ""
    return [
        Problem(
            code=SheetCode.DATE_IN_CELL,
            span=Span(file=name, line=row + 1, column=column + 1),
            sentence=f"row {row + 1}, column {letters_of(column)} {quoted(trait.name)}: the "
            f"spreadsheet program holds a date or a time here{more}, perhaps made from something "
            "like 3-2",
            hint="if that is wrong, give the column the format Text and write it again",
            severity=Severity.WARNING,
        )
    ]


def _some(names: Sequence[str]) -> str:
    shown = list(names[:_NAMED])
    rest = len(names) - len(shown)
    return both([*shown, f"{rest} more"] if rest else shown)


def _unread(name: str, sheet: _Raw) -> Problem:
    why = "its first row names no columns that charts know"
    if not sheet.is_shown:
        why = "it is hidden"
    return Problem(
        code=SheetCode.UNREAD_SHEET,
        span=Span(file=name, line=1),
        sentence=f"the sheet {quoted(sheet.name)} was not read: {why}",
        hint="nothing to do unless it holds balls",
        severity=Severity.INFORMATION,
    )


def _empty(name: str) -> Problem:
    return Problem(
        code=ChartCode.EMPTY_CHART,
        span=Span(file=name, line=1),
        sentence="no sheet of the file holds anything",
        hint="start with a row of column names and write one row for each ball below it",
    )
