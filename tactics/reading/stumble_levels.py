"""How far in the lines above are set, and what that says about the next one."""

from dataclasses import dataclass

from tactics.problem import Problem
from tactics.reading.codes import Code
from tactics.reading.keywords import (
    LOGIC,
    SET_KEYS,
    are_siblings,
    is_known_name,
    is_row,
    is_top_name,
)
from tactics.reading.stumble import Line, stumble
from tactics.reading.suggest import near
from tactics.reading.wording import quoted
from tactics.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """How far in an open section above a line is set, and the last line of it."""

    start: int
    line: Line
    is_item: bool


def spaces(count: int) -> str:
    """Return how far in a line starts: `4 spaces in`."""
    return {0: "at the very left", 1: "1 space in"}.get(count, f"{count} spaces in")


def set_in(line: Line, wanted: int) -> tuple[Span, str]:
    """Return the place and the replacement that make a line start `wanted` spaces in.

    Where one of the two would be empty, the first letter of the line is taken along.
    """
    if line.indent and wanted:
        return line.span(0, line.indent), " " * wanted
    first = line.text[line.indent : line.indent + 1]
    return line.span(0, line.indent + 1), " " * wanted + first


def set_out_above(line: Line) -> Problem | None:
    """Return the problem of a line above that is set in less than its neighbours, or None.

    The line that YAML stumbles over is then in its place: what stands around the other one is
    set in as far, and neither can be a part of it.
    """
    above = line.previous()
    while above is not None and above.start >= line.start:
        above = above.previous()
    if above is None or above.is_item or above.name in LOGIC:
        return None
    neighbour = _neighbour(above, line)
    if neighbour is None or not _is_out(above, line, neighbour):
        return None
    span, replacement = set_in(above, line.start)
    return stumble(
        Code.INDENTATION,
        span,
        f"{quoted(above.name)} is not set in as far as the lines around it",
        f"start it {spaces(line.start)}, like the line below",
        replacement,
    )


def set_in_among(line: Line) -> Problem | None:
    """Return the problem of a line set in as far as a section above it that it is no part of."""
    levels = levels_above(line)
    same = [level for level in levels if level.start == line.start]
    fitting = [
        level
        for level in levels
        if not level.is_item
        and level.start < line.start
        and are_siblings(level.line.name, line.name)
    ]
    if not same or not fitting or are_siblings(same[0].line.name, line.name):
        return None
    span, replacement = set_in(line, fitting[0].start)
    return stumble(
        Code.INDENTATION,
        span,
        f"{quoted(line.name)} is set in further than the lines it belongs to",
        f"start it {spaces(fitting[0].start)}, like {quoted(fitting[0].line.name)} above",
        replacement,
    )


def is_among_own_words(line: Line) -> bool:
    """Say whether a line stands below `words` or `bands`, where any name may stand."""
    above = line.previous()
    while above is not None and above.start >= line.start:
        above = above.previous()
    return above is not None and above.name in ("words", "bands")


def _neighbour(odd: Line, line: Line) -> Line | None:
    """Return a line above that starts where `line` does, if nothing further out is between."""
    above = odd.previous()
    while above is not None and above.start > line.start:
        above = above.previous()
    return above if above is not None and above.start == line.start else None


def _is_out(odd: Line, line: Line, neighbour: Line) -> bool:
    """Say whether it is `odd` that stands too far out, and not `line` too far in."""
    opens = odd.text.endswith(":")
    if odd.start == 0 and opens and not is_top_name(odd.name):
        return not near(odd.name, SET_KEYS)
    may_be_term = is_row(line.name) and not is_known_name(neighbour.name)
    is_like_neighbour = may_be_term or are_siblings(neighbour.name, line.name)
    if are_siblings(odd.name, line.name):
        return is_like_neighbour
    if is_among_own_words(neighbour):
        return not opens
    is_own_name = not (opens or is_known_name(odd.name))
    return is_own_name and (is_like_neighbour or not is_known_name(neighbour.name))


def best_level(line: Line, levels: list[Level]) -> Level:
    """Return where a line most likely belongs: among its like, else where it is nearest."""
    alike = [level for level in levels if level.is_item == line.is_item] or levels
    siblings = [level for level in alike if are_siblings(level.line.name, line.name)]

    def distance(level: Level) -> tuple[int, bool, int]:
        return (abs(level.start - line.indent), _looks(level.line) != _looks(line), -level.start)

    return min(siblings or alike, key=distance)


def _looks(line: Line) -> tuple[bool, bool, bool]:
    """Return what tells ids, openers of sections and other lines apart."""
    return is_known_name(line.name), "-" in line.name, line.text.endswith(":")


def levels_above(line: Line) -> list[Level]:
    """Return the open sections above a line, the innermost first."""
    levels: list[Level] = []
    floor: float = float("inf")
    above = line.previous()
    while above is not None and floor > 0:
        for start, is_item in _starts(above):
            if start < floor:
                levels.append(Level(start=start, line=above, is_item=is_item))
                floor = start
        above = above.previous()
    return levels


def _starts(line: Line) -> tuple[tuple[int, bool], ...]:
    """Return where a line has a name and where an item, the further in first.

    A line without either is the rest of a text and starts nothing.
    """
    named = ((line.start, False),) if ":" in line.text[line.start :] else ()
    return (*named, (line.indent, True)) if line.is_item else named
