"""A CSV of landing places -> the places in metres, or errors from the targets where those stand."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from tactics.model.names import fold
from tactics.problem import Problem, Reading, Severity, by_place
from tactics.reading.chart_csv import read_csv
from tactics.reading.chart_rows import Row, Table
from tactics.reading.quantities import Measure, quantity, sided
from tactics.reading.shot_codes import ShotCode
from tactics.reading.wording import both, quoted
from tactics.source import Source

SIDEWAYS, DEPTH = "sideways", "depth"
TARGET_SIDEWAYS, TARGET_DEPTH = "target sideways", "target depth"
COLUMNS = (SIDEWAYS, DEPTH, TARGET_SIDEWAYS, TARGET_DEPTH)
_UNIT = re.compile(r"(?P<name>.+?)\s*[(\[](?P<unit>[^)\]]+)[)\]]")
_BARE = re.compile(r"[-+\u2212]?[\d.,]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Landings:
    """Where the balls of one stroke landed, metres; x to the hitter's right of the middle.

    sideways_m, depth_m: places, or how far each ball was from its target where targets stand.
    mean_depth_m: the middle of the landing places from the net.
    """

    name: str
    sideways_m: tuple[float, ...]
    depth_m: tuple[float, ...]
    mean_depth_m: float
    has_targets: bool


@dataclass(frozen=True, slots=True)
class _Column:
    """A known column: its name, where it stands, and the unit behind its name."""

    name: str
    place: int
    unit: str


def read_landings(source: Source) -> Reading[Landings]:
    """Return the landing places of a CSV file, and every problem in it; bad rows are left out."""
    table = read_csv(source, lambda heading: _name_and_unit(heading)[0] in COLUMNS)
    columns = {column.name: column for column in _columns(table)}
    missing = [name for name in (SIDEWAYS, DEPTH) if name not in columns]
    if missing:
        return Reading(value=None, problems=(_without(missing, table),))
    targets = [name for name in (TARGET_SIDEWAYS, TARGET_DEPTH) if name in columns]
    problems: list[Problem] = []
    rows = [_numbers(row, table, columns, problems) for row in table.rows]
    found = [row for row in rows if row is not None]
    if not found:
        return Reading(value=None, problems=by_place([*problems, _nothing(table)]))
    sideways, depth = ([row[name] for row in found] for name in (SIDEWAYS, DEPTH))
    return Reading(
        value=Landings(
            name=source.name,
            sideways_m=_less(sideways, found, TARGET_SIDEWAYS),
            depth_m=_less(depth, found, TARGET_DEPTH),
            mean_depth_m=sum(depth) / len(depth),
            has_targets=bool(targets),
        ),
        problems=by_place(problems),
    )


def _less(places: Sequence[float], rows: list[dict[str, float]], target: str) -> tuple[float, ...]:
    return tuple(place - row.get(target, 0.0) for place, row in zip(places, rows, strict=True))


def _name_and_unit(heading: str) -> tuple[str, str]:
    found = _UNIT.fullmatch(heading.strip())
    return (fold(found["name"]), found["unit"].strip()) if found else (fold(heading), "")


def _columns(table: Table) -> list[_Column]:
    """Return the columns with a known name; of two with one name the first counts."""
    found: dict[str, _Column] = {}
    for place, heading in enumerate(table.header.cells):
        name, unit = _name_and_unit(heading)
        if name in COLUMNS:
            found.setdefault(name, _Column(name, place, unit))
    return list(found.values())


def _numbers(
    row: Row, table: Table, columns: Mapping[str, _Column], problems: list[Problem]
) -> dict[str, float] | None:
    """Return the numbers of one ball, or None with the problems that keep it out."""
    if row.complaint is not None:
        problems.append(row.complaint)
        return None
    numbers: dict[str, float] = {}
    for column in columns.values():
        text = row.cells[column.place] if column.place < len(row.cells) else ""
        number = _read(column)(_with_unit(text, column.unit))
        if number is None:
            problems.append(_unread(row, column, text, table))
            return None
        numbers[column.name] = number
    return numbers


def _read(column: _Column) -> Callable[[str], float | None]:
    if column.name in (SIDEWAYS, TARGET_SIDEWAYS):
        return sided
    return lambda text: quantity(text, Measure.LENGTH)


def _with_unit(text: str, unit: str) -> str:
    """Return the text with the unit of its column, unless it carries one itself."""
    number = _BARE.match(text)
    if not unit or number is None or text[number.end() :].strip() not in ("", "left", "right"):
        return text
    return f"{number[0]} {unit} {text[number.end() :].strip()}".strip()


def _unread(row: Row, column: _Column, text: str, table: Table) -> Problem:
    what = f"{quoted(text)} is no distance" if text else "there is no distance here"
    return Problem(
        code=ShotCode.LANDING_PLACE,
        span=table.place(row, column.place),
        sentence=f"row {row.number}, {column.name}: {what}, so this ball is left out",
        hint="write it in metres or with its unit: 1.4, 1.4 m, 55 in, 2 m left",
        severity=Severity.WARNING,
    )


def _without(missing: list[str], table: Table) -> Problem:
    return Problem(
        code=ShotCode.LANDING_COLUMNS,
        span=table.start(table.header),
        sentence=f"the file has no column {both(map(quoted, missing))}",
        hint="the first line names the columns: sideways, depth (from the net), and if the balls "
        "had targets: target sideways, target depth",
    )


def _nothing(table: Table) -> Problem:
    return Problem(
        code=ShotCode.LANDING_PLACE,
        span=table.start(table.header),
        sentence="the file names its columns and holds no ball that could be read",
        hint="write one ball a line below the names",
    )
