"""Lines of a screen as runs of ink and text, and a sheet of characters to draw on."""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import groupby

from tactics.report.visible import cells, visible


class Ink(StrEnum):
    """What a run of characters stands for; a screen decides how each looks."""

    PLAIN = "plain"
    TITLE = "title"
    HEADING = "heading"
    LINE = "line"
    NET = "net"
    PLAYER = "player"
    OPPONENT = "opponent"
    WAY_IN = "way-in"
    AIM = "aim"
    FOCUS = "focus"
    STRONG = "strong"
    QUIET = "quiet"


_UNITS = frozenset(("m", "cm", "s", "%"))

Run = tuple[Ink, str]
Row = tuple[Run, ...]
Rows = tuple[Row, ...]


class Sheet:
    """Characters in rows and columns, each one cell wide; what falls off the sheet is lost."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = columns, rows
        self._marks = [[(Ink.PLAIN, " ")] * columns for _ in range(rows)]

    def put(self, column: int, row: int, mark: str, ink: Ink) -> None:
        """Put one character."""
        if 0 <= row < self.rows and 0 <= column < self.columns:
            self._marks[row][column] = (ink, mark)

    def write(self, column: int, row: int, text: str, ink: Ink) -> None:
        """Write a text of narrow characters."""
        for place, mark in enumerate(text):
            self.put(column + place, row, mark, ink)

    def has_room(self, column: int, row: int, width: int, over: frozenset[str]) -> bool:
        """Say whether a text could stand there and hide nothing but blanks and marks in `over`."""
        if not 0 <= row < self.rows or column < 0 or column + width > self.columns:
            return False
        cells = self._marks[row][column : column + width]
        return all(mark == " " or mark in over for _, mark in cells)

    def drawn(self) -> Rows:
        """Return the sheet as rows."""
        return tuple(tuple(_runs(row)) for row in self._marks)


def _runs(row: Sequence[Run]) -> Iterator[Run]:
    for ink, same in groupby(row, key=lambda cell: cell[0]):
        yield ink, "".join(mark for _, mark in same)


def line(text: str, ink: Ink = Ink.PLAIN) -> Row:
    """Return one row of one ink, safe to show."""
    return ((ink, visible(text)),) if text else ()


def lines(text: str, width: int, indent: str = "", ink: Ink = Ink.PLAIN) -> Rows:
    """Return a text wrapped to a width; rows after the first begin with `indent`."""
    return tuple(line(each, ink) for each in wrapped_to(text, width, indent))


def wrapped_to(text: str, width: int, indent: str = "") -> tuple[str, ...]:
    """Return a text in lines of at most `width` cells, parted at spaces, else inside a word."""
    found: list[str] = []
    now = ""
    for word in _with_units(visible(text).split()):
        for piece in _pieces(word, width - cells(indent)):
            start = indent if found else ""
            longer = f"{now} {piece}" if now else f"{start}{piece}"
            if cells(longer) <= width:
                now = longer
            else:
                found.append(now)
                now = f"{indent}{piece}"
    return tuple(each for each in (*found, now) if each)


def _with_units(words: Sequence[str]) -> Iterator[str]:
    """Yield words, a number and the unit behind it as one."""
    before = ""
    for word in words:
        is_unit = word.rstrip(".,;)") in _UNITS and before[-1:].isdigit()
        if before and not is_unit:
            yield before
        before = f"{before} {word}" if is_unit else word
    if before:
        yield before


def _pieces(word: str, width: int) -> Iterator[str]:
    """Yield a word, or the parts of one that is longer than a line."""
    piece = ""
    for mark in word:
        if cells(piece + mark) > width:
            yield piece
            piece = ""
        piece += mark
    yield piece


def width_of(row: Row) -> int:
    """Return how many cells a row takes."""
    return sum(cells(text) for _, text in row)


def text_of_row(row: Row) -> str:
    """Return the characters of a row without the space behind them."""
    return "".join(text for _, text in row).rstrip()


def cut(row: Row, width: int) -> Row:
    """Return the row without what goes beyond a width."""
    if width_of(row) <= width:
        return row
    kept: list[Run] = []
    left = width
    for ink, text in row:
        whole = ""
        for mark in text:
            left -= cells(mark)
            if left < 0:
                return (*kept, (ink, whole))
            whole += mark
        kept.append((ink, whole))
    return tuple(kept)


def beside(left: Rows, right: Rows, width: int, rows: int) -> Rows:
    """Return two blocks side by side; the left one is `width` cells wide."""
    found: list[Row] = []
    for place in range(rows):
        first = left[place] if place < len(left) else ()
        second = right[place] if place < len(right) else ()
        gap = " " * (width - width_of(first))
        found.append((*first, (Ink.PLAIN, gap), *second) if second else first)
    return tuple(found)
