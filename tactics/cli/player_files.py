"""Charts on disk and the rows of one player in them, for `forget` and `export`."""

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tactics.cli import files, messages
from tactics.model.standard import STANDARD
from tactics.reading.chart_bytes import decode_chart
from tactics.reading.chart_rows import Row, Table
from tactics.reading.charts import is_spreadsheet, text_table
from tactics.reading.own_names import ColumnMap
from tactics.reading.player_rows import PlayerRows, rows_of
from tactics.report.layout import counted, wrapped

_NAMED = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayerFile:
    """One file: its bytes, and for each of its tables the rows of the player."""

    path: Path
    data: bytes
    found: tuple[PlayerRows, ...]

    @property
    def is_spreadsheet(self) -> bool:
        """Say whether it is no text."""
        return is_spreadsheet(self.data)

    @property
    def rows(self) -> int:
        """Return how many rows are theirs."""
        return sum(len(each.rows) for each in self.found)


def open_files(paths: Sequence[Path], player: str, own: ColumnMap) -> tuple[PlayerFile, ...] | None:
    """Return all files, or None with the reason said where one is no chart with players."""
    opened = []
    for path in paths:
        data = files.read_bytes(path)
        tables = _tables(path, data, own)
        if tables is None:
            return None
        found = [rows_of(table, player, STANDARD) for table in tables]
        known = tuple(each for each in found if each is not None)
        if not known:
            print(
                f'tactics: "{files.shown(path)}" has no column "player"; nothing was done. '
                "If the names stand under a heading of your own, see --columns",
                file=sys.stderr,
            )
            return None
        opened.append(PlayerFile(path=path, data=data, found=known))
    return tuple(opened)


def _tables(path: Path, data: bytes, own: ColumnMap) -> tuple[Table, ...] | None:
    name = files.shown(path)
    if is_spreadsheet(data):
        from tactics.reading.spreadsheets import read_sheets

        read = read_sheets(name, data, STANDARD, own)
        if read.value is None:
            messages.show_problems(read.problems, ())
            return None
        return tuple(each.table for each in read.value.tables)
    source, _ = decode_chart(name, data)
    table = text_table(source, STANDARD, own)
    if table.header.complaint is not None:
        messages.show_problems((table.header.complaint,), (source,))
        return None
    return (table,)


def remarks(file: PlayerFile, player: str, fate: str) -> list[str]:
    """Return what the coach has to look at: names alike, mentions, rows that cannot be read.

    fate: what becomes of these rows, such as "stay".
    """
    lines: list[str] = []
    for each in file.found:
        names = ", ".join(f'"{name}" ({counted(count, "row")})' for name, count in each.similar)
        said = [
            names and f"names that look alike and {fate}: {names}",
            each.mentions
            and f'"{player}" also stands in other cells of {numbered(each.mentions)}, which '
            f"{fate}: look at them yourself",
            each.uncut
            and f"nobody can say whose {numbered(each.uncut)} may be, as the cells run together "
            "there (tactics audit says why): look at them yourself",
        ]
        lines += (line for text in said if text for line in wrapped(str(text), "  ", "    "))
    return lines


def numbered(rows: Sequence[Row]) -> str:
    """Return `row 7`, `rows 2 to 9 and 14`: as a spreadsheet counts them."""
    runs: list[list[int]] = []
    for number in sorted(row.number for row in rows):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said = [text for run in runs for text in _run(run)]
    more = [f"{len(said) - _NAMED} more places"] if len(said) > _NAMED else []
    shown = said[:_NAMED] + more
    text = " and ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 1 else shown)
    return f"row {text}" if len(rows) == 1 else f"rows {text}"


def _run(numbers: Sequence[int]) -> list[str]:
    if len(numbers) > 2:
        return [f"{numbers[0]} to {numbers[-1]}"]
    return [str(number) for number in numbers]
