"""What a coach's own headings and words stand for, put in their place in a table."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from tactics.model.names import fold
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_columns import meaning_of
from tactics.reading.chart_rows import Row, Table


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnMap:
    """What a coach's own headings and words stand for, by their folded spelling.

    columns: heading -> name of a column, with its unit where one stands in brackets.
    words: name of a column -> own word -> word of the program.
    """

    columns: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, Mapping[str, str]] = field(default_factory=dict)


NO_MAP = ColumnMap()


def mapped(table: Table, own: ColumnMap, words: Vocabulary) -> Table:
    """Return the table with what its headings stand for, and its own words put into ours."""
    if not own.columns and not own.words:
        return table
    meant = tuple(own.columns.get(fold(cell), "") for cell in table.header.cells)
    named = replace(table, meant=meant)
    by_column = {
        index: own.words[found[0].folded]
        for index in range(len(meant))
        if (found := meaning_of(named.name_of(index), words)) and found[0].folded in own.words
    }
    if not by_column:
        return named
    return replace(named, rows=tuple(_in_our_words(row, by_column) for row in table.rows))


def _in_our_words(row: Row, by_column: Mapping[int, Mapping[str, str]]) -> Row:
    cells = list(row.cells)
    for index, said in by_column.items():
        if index < len(cells) and cells[index]:
            cells[index] = said.get(fold(cells[index]), cells[index])
    return replace(row, cells=tuple(cells))
