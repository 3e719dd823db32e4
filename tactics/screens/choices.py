"""Words to choose from, in columns, each with its key letter set off."""

from collections.abc import Sequence

from tactics.charting.keys import marked
from tactics.report.visible import cells
from tactics.screens.view import Line, Look, Piece

_GAP = 3
_MOST_COLUMNS = 4


def choice_lines(
    pairs: Sequence[tuple[str, str]], columns: int, *, many: int = _MOST_COLUMNS
) -> tuple[Line, ...]:
    """Return (key, word) pairs in rows, read line by line, as many side by side as fit."""
    if not pairs:
        return ()
    width = max(cells(plain_choice(key, word)) for key, word in pairs) + _GAP
    beside = max(1, min(many, columns // width))
    rows = [pairs[at : at + beside] for at in range(0, len(pairs), beside)]
    return tuple(
        tuple(piece for key, word in row for piece in _padded(key, word, width)) for row in rows
    )


def plain_choice(key: str, word: str) -> str:
    """Return a word with its key in brackets: `[c]rosscourt`."""
    before, letter, after = marked(word, key.casefold())
    shown = key if key.isupper() else letter
    return f"{before}[{shown}]{after}"


def listed(pairs: Sequence[tuple[str, str]]) -> str:
    """Return (key, word) pairs as one line: `[c]rosscourt, [s]traight`."""
    return ", ".join(plain_choice(key, word) for key, word in pairs)


def _padded(key: str, word: str, width: int) -> tuple[Piece, ...]:
    before, letter, after = marked(word, key.casefold())
    shown = key if key.isupper() else letter
    rest = " " * (width - cells(plain_choice(key, word)))
    return (Piece(f"{before}["), Piece(shown, Look.KEY), Piece(f"]{after}{rest}"))
