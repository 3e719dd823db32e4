"""The rows of one player in a chart, whatever file it came from."""

from codecs import BOM_UTF8, BOM_UTF16_BE, BOM_UTF16_LE
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from tactics.model.names import fold
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_columns import read_header
from tactics.reading.chart_rows import Row, Table
from tactics.reading.chart_writing import unguard_text
from tactics.reading.suggest import near

_PLAYER = "player"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayerRows:
    """What a table holds of a player.

    rows: theirs. similar: other names spelt or built alike -> how many rows; they stay. mentions:
    rows of others in which the name stands somewhere else. uncut: rows nobody can cut in cells.
    """

    table: Table
    rows: tuple[Row, ...]
    similar: tuple[tuple[str, int], ...] = ()
    mentions: tuple[Row, ...] = ()
    uncut: tuple[Row, ...] = ()


def rows_of(table: Table, player: str, words: Vocabulary) -> PlayerRows | None:
    """Return the rows of a player (case, spaces, hyphens aside), or None without that column."""
    columns = read_header(table, words).known
    place = next((each.index for each in columns if each.trait.folded == _PLAYER), None)
    if place is None:
        return None
    wanted = fold(player)
    rows: list[Row] = []
    others: list[Row] = []
    uncut: list[Row] = []
    for row in table.rows:
        if row.complaint is not None:
            uncut.append(row)
        else:
            (rows if fold(_name(row, place)) == wanted else others).append(row)
    names = Counter(name for row in others if (name := _name(row, place)))
    return PlayerRows(
        table=table,
        rows=tuple(rows),
        similar=tuple((name, count) for name, count in names.items() if _is_like(name, wanted)),
        mentions=tuple(row for row in others if _mentions(row, place, wanted)),
        uncut=tuple(uncut),
    )


def _name(row: Row, place: int) -> str:
    return unguard_text(row.cells[place]) if place < len(row.cells) else ""


def _is_like(name: str, wanted: str) -> bool:
    words, asked = set(fold(name).split()), set(wanted.split())
    return bool(near(wanted, [name])) or (bool(words & asked) and max(map(len, words & asked)) > 2)


def _mentions(row: Row, place: int, wanted: str) -> bool:
    padded = f" {wanted} "
    cells = (cell for index, cell in enumerate(row.cells) if index != place and cell)
    return any(padded in f" {_letters(cell)} " for cell in cells)


def _letters(text: str) -> str:
    return fold("".join(sign if sign.isalnum() or sign in "-_'" else " " for sign in text))


@dataclass(frozen=True, slots=True)
class ExactText:
    """A text whose bytes can be had back one for one. mark: the bytes before it."""

    text: str
    mark: bytes
    encoding: str

    def encode(self, kept: str) -> bytes:
        """Return what is kept of the text as bytes."""
        return self.mark + kept.encode(self.encoding, "surrogateescape")


def exact_text(data: bytes) -> ExactText | None:
    """Return the text of a chart with its way back to bytes, or None where there is none.

    Its characters stand where `decode_chart` has them, so the places of rows are the same.
    """
    for mark, encoding in ((BOM_UTF16_LE, "utf-16-le"), (BOM_UTF16_BE, "utf-16-be")):
        if data.startswith(mark):
            try:
                return ExactText(data[len(mark) :].decode(encoding), mark, encoding)
            except UnicodeDecodeError:
                return None
    mark = BOM_UTF8 if data.startswith(BOM_UTF8) else b""
    return ExactText(data[len(mark) :].decode("utf-8", "surrogateescape"), mark, "utf-8")


def without_rows(text: str, rows: Iterable[Row]) -> str:
    """Return a text without some of its rows; everything else stays as it is, sign by sign."""
    kept, at = [], 0
    for row in sorted(rows, key=lambda each: each.at):
        end = row.at + len(row.text)
        end += len(text[end : end + 2]) if text[end : end + 2] == "\r\n" else end < len(text)
        kept.append(text[at : row.at])
        at = end
    return "".join((*kept, text[at:]))
