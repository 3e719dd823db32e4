"""Text for 80 columns: sections, wrapped sentences, plain tables."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from textwrap import wrap

from tactics.report.visible import visible

WIDTH = 80
_GAP = "  "


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A heading and the lines below it."""

    title: str
    lines: tuple[str, ...]


def text_of(sections: Iterable[Section], heading: Callable[[str], str] = str) -> str:
    """Return sections as one text; `heading` may emphasise their titles. Empty ones are left out.

    A section without a title is only its lines.
    """
    blocks = []
    for section in sections:
        title = (heading(visible(section.title)),) if section.title else ()
        if section.lines:
            blocks.append("\n".join((*title, *map(visible, section.lines))))
    return "\n\n".join(blocks) + "\n"


def wrapped(text: str, indent: str = "", hanging: str | None = None) -> tuple[str, ...]:
    """Return a text as lines of at most 80 columns; lines after the first take `hanging`."""
    later = indent if hanging is None else hanging
    return tuple(
        wrap(
            text,
            WIDTH,
            initial_indent=indent,
            subsequent_indent=later,
            break_on_hyphens=False,
        )
    )


def bullet(text: str, indent: str = "") -> tuple[str, ...]:
    """Return a text as a list item."""
    return wrapped(text, f"{indent}- ", f"{indent}  ")


def labelled(label: str, text: str, width: int, indent: str = _GAP) -> tuple[str, ...]:
    """Return `label  text` with the text wrapped in its own column that starts after `width`."""
    start = len(indent) + width + len(_GAP)
    lines = wrap(text, max(20, WIDTH - start), break_on_hyphens=False) or [""]
    first = f"{indent}{label:<{width}}{_GAP}{lines[0]}".rstrip()
    return (first, *(" " * start + line for line in lines[1:]))


def definitions(pairs: Sequence[tuple[str, str]], indent: str = _GAP) -> tuple[str, ...]:
    """Return labels with their texts in two columns."""
    width = max((len(label) for label, _ in pairs), default=0)
    return tuple(line for label, text in pairs for line in labelled(label, text, width, indent))


def table(
    header: Sequence[str],
    rows: Sequence[Sequence[str]],
    right: frozenset[int] = frozenset(),
    name_width: int = WIDTH,
) -> tuple[str, ...]:
    """Return rows under a header in columns as wide as they need; `right`: numbers to the right.

    Names in the first column that are longer than `name_width` go on in a line of their own.
    """
    if not rows:
        return ()
    cut = [line for row in rows for line in _cut_name(row, name_width)]
    columns = list(zip_longest(header, *cut, fillvalue=""))
    widths = [max(map(len, column)) for column in columns]
    return tuple(_row(cells, widths, right) for cells in (header, *cut))


def _cut_name(row: Sequence[str], width: int) -> list[Sequence[str]]:
    first, *further = wrap(row[0], width, break_on_hyphens=True) or [""]
    blank = [""] * (len(row) - 1)
    return [[first, *row[1:]], *([f"  {line}", *blank] for line in further)]


def _row(cells: Sequence[str], widths: Sequence[int], right: frozenset[int]) -> str:
    placed = (
        cell.rjust(width) if place in right else cell.ljust(width)
        for place, (cell, width) in enumerate(zip(cells, widths, strict=True))
    )
    return (_GAP + _GAP.join(placed)).rstrip()


def counted(number: int, one: str, many: str = "") -> str:
    """Return `1 ball`, `7 balls`."""
    return f"{number} {one if number == 1 else many or one + 's'}"
