"""Headings nobody knows -> the columns they probably stand for, as a file ready to be saved."""

import re
from collections.abc import Iterable
from types import MappingProxyType

from tactics.model.names import fold
from tactics.model.trait import Kind, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Severity
from tactics.reading.chart_columns import header_below, meaning_of
from tactics.reading.chart_dates import read_date
from tactics.reading.chart_rows import Table
from tactics.reading.sheet_codes import SheetCode
from tactics.reading.suggest import near_traits

_LOOKED_AT = 200
_FEWEST = 2
_MOST_SHOWN = 2
_BARE = re.compile(r"[^\W\d_][\w /()-]*")
_IN_BRACKETS = re.compile(r"[(\[](?:in )?([^()\[\]]+)[)\]]")
_OFTEN = MappingProxyType({
    "player": frozenset({"name", "nickname", "pupil", "student", "child", "who"}),
    "note": frozenset({"comment", "comments", "remark", "remarks"}),
})  # fmt: skip
"""Column -> headings that many charts have for it, unlike in spelling."""
_LITTLE = frozenset({"the", "of", "a", "in", "to", "at", "my", "our", "own", "over", "and"})


def proposed(table: Table, words: Vocabulary) -> Problem | None:
    """Return the map of columns that would make unknown headings known, or None.

    A heading is close by its spelling, by the words it is made of, or by what stands below it.
    """
    known = [meaning_of(table.name_of(index), words) for index in range(len(table.header.cells))]
    if not any(known) and header_below(table, words):
        return None
    taken = {found[0].folded for found in known if found is not None}
    free = [trait for trait in words.traits if trait.folded not in taken and not trait.derived]
    lines: list[str] = []
    first, is_only_spelling = -1, True
    for index, heading in enumerate(table.header.cells):
        meant = _meant(table, index, free) if known[index] is None and heading else ()
        if not meant:
            continue
        first = index if first < 0 else first
        is_only_spelling = is_only_spelling and bool(near_traits(heading, [meant[0]]))
        others = f"  # or: {', '.join(each.name for each in meant[1:])}" if meant[1:] else ""
        lines.append(f"  {_key(heading)}: {meant[0].name}{_unit(heading, meant[0], words)}{others}")
        free = [trait for trait in free if trait != meant[0]]
    if not lines or (len(lines) == 1 and is_only_spelling):
        return None  # one heading misspelt has a hint of its own
    one = len(lines) == 1
    return Problem(
        code=SheetCode.COLUMNS_PROPOSED,
        span=table.place(table.header, first),
        sentence=f"{len(lines)} heading{' is' if one else 's are'} close to a column that charts "
        "know",
        hint="if that is what is meant, save these lines as columns.yaml and add "
        "--columns columns.yaml:",
        severity=Severity.INFORMATION,
        paste=("columns:", *lines),
    )


def _meant(table: Table, index: int, free: list[Trait]) -> tuple[Trait, ...]:
    """Return the rows a column may stand for, the likeliest first."""
    heading = table.header.cells[index]
    cells = {
        row.cells[index]
        for row in table.rows[:_LOOKED_AT]
        if index < len(row.cells) and row.cells[index]
    }
    by_name = (
        _often_called(heading, free) or near_traits(heading, free) or _same_words(heading, free)
    )
    by_cells = () if read_date(heading) else _with_cells(cells, free)
    by_cells = tuple(trait for trait in by_cells if not trait.word_named(heading))
    both = tuple(trait for trait in by_name if trait in by_cells)
    fitting = both or tuple(trait for trait in by_name if _may_hold(trait, cells))
    return (fitting or by_cells)[:_MOST_SHOWN]


def _same_words(heading: str, traits: Iterable[Trait]) -> tuple[Trait, ...]:
    """Return the rows whose name is made of words that all stand in the heading."""
    said = _telling(heading)
    found = [
        (len(_telling(name)), trait)
        for trait in traits
        for name in (trait.name, *trait.also)
        if _telling(name) and _telling(name) <= said
    ]
    most = max((count for count, _ in found), default=0)
    return tuple(dict.fromkeys(trait for count, trait in found if count == most))


def _often_called(heading: str, traits: Iterable[Trait]) -> tuple[Trait, ...]:
    """Return the row whose column many people call by the words of this heading and no others."""
    said = _telling(heading)
    called = {trait.folded: _OFTEN.get(trait.folded, frozenset()) for trait in traits}
    return tuple(trait for trait in traits if said and said <= called[trait.folded])


def _telling(name: str) -> frozenset[str]:
    return frozenset(re.findall(r"\w+", fold(name).replace("'s", ""))) - _LITTLE


def _with_cells(cells: set[str], traits: Iterable[Trait]) -> tuple[Trait, ...]:
    """Return the rows that have every word of a column where it holds several, or its dates."""
    if cells and all(map(read_date, cells)):
        return tuple(trait for trait in traits if trait.kind is Kind.DATE)
    if len(cells) < _FEWEST or {fold(cell) for cell in cells} <= {"yes", "no"}:
        return ()
    return tuple(trait for trait in traits if all(trait.word_named(cell) for cell in cells))


def _may_hold(trait: Trait, cells: set[str]) -> bool:
    """Say whether at least one cell in two could stand in the column."""
    if trait.kind in (Kind.TEXT, Kind.DATE) or not cells:
        return True
    fits = sum(
        trait.word_named(cell) is not None
        or (trait.kind is Kind.NUMBER and any(sign.isdigit() for sign in cell))
        for cell in cells
    )
    return 2 * fits >= len(cells)


def _unit(heading: str, trait: Trait, words: Vocabulary) -> str:
    """Return the unit that a heading carries in brackets, as the name of the column would."""
    found = _IN_BRACKETS.search(heading)
    unit = f" ({found[1].strip()})" if found else ""
    return unit if unit and meaning_of(f"{trait.name}{unit}", words) else ""


def _key(heading: str) -> str:
    """Return a heading as a name in YAML."""
    if _BARE.fullmatch(heading):
        return heading
    escaped = heading.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(sign if sign.isprintable() else " " for sign in escaped) + '"'
