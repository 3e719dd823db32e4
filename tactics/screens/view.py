"""What stands on a screen, before any terminal is involved."""

from dataclasses import dataclass
from enum import StrEnum

from tactics.report.visible import cells, visible


class End(StrEnum):
    """How a run came to its end."""

    FINISHED = "finished"
    STOPPED = "stopped"


class Look(StrEnum):
    """How a piece of text is set off; no meaning hangs on it alone."""

    PLAIN = "plain"
    TITLE = "title"
    STRONG = "strong"
    KEY = "key"
    FOCUS = "focus"
    FAINT = "faint"
    OWN = "own"
    THEIRS = "theirs"


@dataclass(frozen=True, slots=True)
class Piece:
    """Some text in one look."""

    text: str
    look: Look = Look.PLAIN


Line = tuple[Piece, ...]
"""One line of the screen, left to right."""


@dataclass(frozen=True, slots=True)
class Place:
    """Row and column of the screen, counted from 0."""

    row: int
    column: int = 0


@dataclass(frozen=True, slots=True)
class Size:
    """Columns and rows of a window."""

    columns: int
    rows: int

    def holds(self, other: "Size") -> bool:
        """Say whether a window of the other size fits in."""
        return self.columns >= other.columns and self.rows >= other.rows


LEAST = Size(80, 24)
"""The window every view is made for; in a smaller one it says so and waits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Lines from top to bottom, and where the cursor stands: screen readers follow it."""

    lines: tuple[Line, ...]
    cursor: Place = Place(0)


_PLAIN_SIGNS = {
    "─": "-", "│": "|", "┃": "|", "·": ".", "●": "o", "█": "#", "░": ":", "▒": "%", "→": ">",
    "←": "<", "↑": "^", "↓": "v", "…": "...", "—": "-", "°": " deg",
    "\N{EN DASH}": "-", "\N{MULTIPLICATION SIGN}": "x", "\N{LEFT SINGLE QUOTATION MARK}": "'",
    "\N{RIGHT SINGLE QUOTATION MARK}": "'", "“": '"', "”": '"', "┌": "+", "┐": "+", "└": "+",
    "┘": "+", "├": "+", "┤": "+", "┬": "+", "┴": "+", "┼": "+",
}  # fmt: skip


def line(text: str, look: Look = Look.PLAIN) -> Line:
    """Return a line in one look; an empty text gives an empty line."""
    return (Piece(text, look),) if text else ()


def text_of_line(pieces: Line) -> str:
    """Return a line without its looks."""
    return "".join(piece.text for piece in pieces)


def in_ascii(text: str) -> str:
    """Return a text with drawing signs swapped for plain ones; letters stay as they are."""
    return "".join(_PLAIN_SIGNS.get(sign, sign) for sign in text)


def fitted(pieces: Line, columns: int, *, plain_signs: bool = False) -> Line:
    """Return a line safe to show and cut to a width; a text cut short ends in a sign for it."""
    kept: list[Piece] = []
    left = columns
    for piece in pieces:
        text = visible(in_ascii(piece.text) if plain_signs else piece.text)
        if cells(text) > left:
            kept.append(Piece(_cut(text, left, "~" if plain_signs else "…"), piece.look))
            break
        kept.append(Piece(text, piece.look))
        left -= cells(text)
    return tuple(kept)


def _cut(text: str, columns: int, sign: str) -> str:
    while text and cells(text) > max(0, columns - 1):
        text = text[:-1]
    return text + sign if columns > 0 else ""


def too_small(size: Size, least: Size = LEAST) -> View:
    """Return what is shown where a window has no room for the view."""
    return View(
        lines=(
            line(f"This window has {size.columns} columns and {size.rows} rows."),
            line(f"{least.columns} by {least.rows} are needed: make it larger."),
            line("Nothing is lost meanwhile. Ctrl-C stops."),
        ),
        cursor=Place(0),
    )
