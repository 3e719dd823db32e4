"""Lines that do not line up with what they belong to."""

from tactics.problem import Problem
from tactics.reading.codes import Code
from tactics.reading.stumble import Line, Trouble, line_at, stumble, unclear
from tactics.reading.stumble_colons import spaces
from tactics.reading.stumble_quotes import text_after_quote
from tactics.reading.wording import quoted
from tactics.source import Source


def not_lined_up(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a line that is set in unlike its neighbours."""
    line = line_at(source, trouble.met)
    after = text_after_quote(line)
    if after is not None:
        return after
    levels = _levels_above(line)
    if line.column - 1 != line.indent or line.indent in levels or not levels:
        return _mixed_list(line) or unclear(source, trouble)
    nearest = min(levels, key=lambda level: (abs(level - line.indent), -level))
    is_alike = levels[nearest].text.lstrip().startswith("- ") == line.text.lstrip().startswith("- ")
    return stumble(
        Code.INDENTATION,
        line.span(0, max(1, line.indent)),
        f"{quoted(line.text)} lines up with none of the lines above",
        f"start it {spaces(nearest)}, or as far in as the lines it belongs to",
        " " * nearest if line.indent and is_alike else "",
    )


def _mixed_list(line: Line) -> Problem | None:
    """Return the problem of `- item` among named lines, or the other way round."""
    if line.text.lstrip().startswith(":"):
        sentence = "there is no name in front of this colon"
        return stumble(
            Code.LAYOUT, line.span(line.column - 1), sentence, "write the name before it"
        )
    is_item = line.text.lstrip().startswith("- ")
    if not is_item and ":" not in line.text:
        return None
    if is_item:
        sentence = "a list item stands among lines that have names"
        hint = "set it in two spaces further than the name whose list it is"
    else:
        sentence = "a line with a name stands among the items of a list"
        hint = 'start it with "- ", or set it in as far as the item it belongs to'
    return stumble(Code.INDENTATION, line.span(line.column - 1), sentence, hint)


def _levels_above(line: Line) -> dict[int, Line]:
    """Return how far in the open sections above a line are set, each with its last line."""
    levels: dict[int, Line] = {}
    above = line.previous()
    while above is not None:
        if not levels or above.indent < min(levels):
            levels[above.indent] = above
        above = above.previous() if above.indent else None
    return levels


def list_behind_name(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of `name: - item`."""
    line = line_at(source, trouble.met)
    return stumble(
        Code.LAYOUT,
        line.span(line.column - 1),
        "a list item cannot begin behind a name on the same line",
        "put each item on a line of its own below, or write the list in brackets: [one, two]",
    )
