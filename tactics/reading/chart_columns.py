"""The header of a chart -> what each column means."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from tactics.model.trait import Role, Trait
from tactics.model.units import spellings
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also, Problem, Severity
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_rows import Row, Table, letters_of
from tactics.reading.suggest import did_you_mean, near_traits
from tactics.reading.wording import quoted

_WITH_UNIT = re.compile(r"(.+?)\s*[(\[]([^()\[\]]*)[)\]]")
_LINES_BELOW = 20
GAME_SITUATION = "game situation"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column the vocabulary knows. unit: what its heading adds in brackets, such as `cm`."""

    index: int
    heading: str
    trait: Trait
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """What the header says. aside: number and heading of columns whose cells are only kept."""

    known: tuple[Column, ...]
    aside: tuple[tuple[int, str], ...]
    problems: tuple[Problem, ...]


def is_column(heading: str, words: Vocabulary) -> bool:
    """Say whether a heading names a row of the vocabulary."""
    return meaning_of(heading, words) is not None


def read_header(table: Table, words: Vocabulary) -> Columns:
    """Return the columns by what they mean, and a problem for each that means nothing."""
    known: dict[str, Column] = {}
    aside, problems = [], []
    for index, heading in enumerate(table.header.cells):
        meaning = meaning_of(table.name_of(index), words)
        if meaning is not None and meaning[0].folded not in known:
            trait, unit = meaning
            known[trait.folded] = Column(index=index, heading=heading, trait=trait, unit=unit)
            continue
        if not heading and not _is_filled(table, index):
            continue
        aside.append((index, heading or _numbered(table, index)))
        if meaning is not None:
            problems.append(_twice(table, index, known[meaning[0].folded]))
        else:
            problems.append(_unknown(table, index, words) if heading else _nameless(table, index))
    columns = tuple(known.values())
    problems = [*problems, *_missing(table, columns)] if columns else [_not_a_chart(table, words)]
    return Columns(known=columns, aside=tuple(aside), problems=tuple(problems))


def meaning_of(heading: str, words: Vocabulary) -> tuple[Trait, str] | None:
    """Return the row a heading names and the unit it adds in brackets, or None."""
    name = heading.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
    trait = words.find(name)
    if trait is not None:
        return trait, ""
    found = _WITH_UNIT.fullmatch(name)
    trait = words.find(found[1]) if found else None
    if found is None or trait is None or trait.unit is None:
        return None
    unit = found[2].strip()
    return (trait, unit) if unit.casefold() in spellings(trait.unit) else None


def _is_filled(table: Table, index: int) -> bool:
    return any(len(row.cells) > index and row.cells[index] for row in table.rows)


def _twice(table: Table, index: int, first: Column) -> Problem:
    heading = table.header.cells[index]
    return Problem(
        code=ChartCode.COLUMN_TWICE,
        span=table.place(table.header, index),
        sentence=f"column {quoted(heading)} means {quoted(first.trait.name)}, which another "
        "column holds already; the first was read, this one only kept",
        hint="take one of the two out, or give this one a name of its own",
        also=(Also(span=table.place(table.header, first.index), text="the first is here"),),
    )


def _numbered(table: Table, index: int) -> str:
    return f"column {letters_of(index) if table.has_letters else index + 1}"


def _nameless(table: Table, index: int) -> Problem:
    return Problem(
        code=ChartCode.COLUMN_WITHOUT_NAME,
        span=table.place(table.header, index),
        sentence=f"{_numbered(table, index)} has cells and no name; they were kept and not read",
        hint="write the name of the column in the first row",
        severity=Severity.WARNING,
    )


def _unknown(table: Table, index: int, words: Vocabulary) -> Problem:
    heading = table.header.cells[index]
    found = _WITH_UNIT.fullmatch(heading)
    unit = f" ({found[2]})" if found else ""
    near = [each.name + unit for each in near_traits(found[1] if found else heading, words.traits)]
    hint = did_you_mean(near) if near else ""
    return Problem(
        code=ChartCode.UNKNOWN_COLUMN,
        span=table.place(table.header, index),
        sentence=f"column {quoted(heading)} is not a name that charts know; its cells were kept "
        "and not read",
        hint=hint or "leave it as it is, or see all names with: tactics explain words",
        severity=Severity.WARNING,
        replacement=near[0] if len(near) == 1 else "",
    )


def _missing(table: Table, columns: Iterable[Column]) -> list[Problem]:
    """Return what the chart as a whole lacks: a choice to judge, the phase of the point."""
    roles = {column.trait.role for column in columns}
    names = {column.trait.folded for column in columns}
    problems = []
    if Role.PART not in roles:
        problems.append(
            Problem(
                code=ChartCode.MISSING_COLUMN,
                span=table.start(table.header),
                sentence="no column holds a part of the choice, so there is nothing to judge",
                hint='add a column such as "intent", "direction" or "height over net"',
            )
        )
    if GAME_SITUATION not in names:
        problems.append(
            Problem(
                code=ChartCode.MISSING_COLUMN,
                span=table.start(table.header),
                sentence=f'there is no column "{GAME_SITUATION}"; nearly every rule asks for it, '
                "so most balls will stay undecided",
                hint=f'add the column "{GAME_SITUATION}"',
                severity=Severity.WARNING,
            )
        )
    return problems


def _not_a_chart(table: Table, words: Vocabulary) -> Problem:
    later = header_below(table, words)
    if later is not None:
        hint = f"the names of the columns stand in row {later.number}: take out what is above"
    else:
        hint = f'start the chart with a row of names such as "{GAME_SITUATION}", "intent"'
    return Problem(
        code=ChartCode.NOT_A_CHART,
        span=table.start(table.header),
        sentence="none of the columns has a name that charts know, so nothing here was read",
        hint=hint,
    )


def header_below(table: Table, words: Vocabulary) -> Row | None:
    """Return a row that holds names of columns though it is not the first, or None."""
    return next((row for row in table.rows[:_LINES_BELOW] if _looks_like_header(row, words)), None)


def _looks_like_header(row: Row, words: Vocabulary) -> bool:
    return sum(is_column(cell, words) for cell in row.cells) > 1
