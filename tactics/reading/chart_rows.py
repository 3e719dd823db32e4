"""A table before anybody asks what its columns mean."""

from collections.abc import Callable
from dataclasses import dataclass

from tactics.problem import Problem
from tactics.source import Span


@dataclass(frozen=True, slots=True)
class Row:
    """One row of cells, without space around them.

    number: as a spreadsheet counts it, the header and blank rows included. text: the row as it
    stood. at: where it starts, for the table's own use. complaint: why it cannot be cut in cells.
    """

    number: int
    cells: tuple[str, ...]
    text: str
    at: int = 0
    complaint: Problem | None = None

    @property
    def is_blank(self) -> bool:
        """Say whether there is nothing in any cell."""
        return self.complaint is None and not any(self.cells)


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Header and rows from a text or a spreadsheet.

    rows: those that are not blank; blank_rows says how many were. start: row -> where it begins.
    place: row and number of a cell in it, counted from 0 (also beyond its end) -> where it stands.
    meant: what each heading stands for where the coach said so, "" where nothing was said.
    has_letters: columns go by letters, as in a spreadsheet. separator: what parts the cells of a
    text, "" in a spreadsheet.
    """

    name: str
    header: Row
    rows: tuple[Row, ...]
    start: Callable[[Row], Span]
    place: Callable[[Row, int], Span]
    blank_rows: int = 0
    meant: tuple[str, ...] = ()
    has_letters: bool = False
    separator: str = ""

    def name_of(self, index: int) -> str:
        """Return the name a column goes by: what the coach said it stands for, else its heading."""
        said = self.meant[index] if index < len(self.meant) else ""
        return said or self.header.cells[index]


def letters_of(index: int) -> str:
    """Return how a spreadsheet calls a column counted from 0: A, Z, AA."""
    letters, rest = "", index + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return letters
