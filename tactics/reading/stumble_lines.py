"""Lines that do not line up with what they belong to."""

from tactics.problem import Problem
from tactics.reading.codes import Code
from tactics.reading.keywords import are_siblings
from tactics.reading.stumble import Line, Trouble, line_at, stumble, unclear
from tactics.reading.stumble_brackets import closed_too_often
from tactics.reading.stumble_colons import bare_name
from tactics.reading.stumble_levels import (
    Level,
    best_level,
    levels_above,
    set_in,
    set_out_above,
    spaces,
)
from tactics.reading.stumble_quotes import text_after_quote
from tactics.reading.word_slips import hyphen_slip
from tactics.reading.wording import quoted
from tactics.source import Source


def not_lined_up(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a line that is set in unlike its neighbours."""
    line = line_at(source, trouble.met)
    after = text_after_quote(line) or closed_too_often(line) or hyphen_slip(line, line.indent)
    if after is not None:
        return after
    above = line.previous()
    bare = bare_name(above) if above is not None and above.start == line.start else None
    odd = bare or _hyphen_missing_above(line) or set_out_above(line)
    if odd is not None:
        return odd
    levels = levels_above(line)
    if line.column - 1 != line.indent or not levels:
        return _mixed_list(line) or unclear(source, trouble)
    if any(level.start == line.indent for level in levels):
        return _belongs_elsewhere(line, levels) or _mixed_list(line) or unclear(source, trouble)
    wanted = best_level(line, levels)
    span, replacement = set_in(line, wanted.start)
    return stumble(
        Code.INDENTATION,
        span,
        f"{quoted(line.text)} lines up with none of the lines above",
        f"start it {spaces(wanted.start)}, or as far in as the lines it belongs to",
        replacement if wanted.is_item == line.is_item else "",
    )


def _hyphen_missing_above(line: Line) -> Problem | None:
    """Return the problem of a list whose first item has no hyphen, if this is its second item."""
    first, opener = line, line.previous()
    while opener is not None and opener.start > line.indent:
        first, opener = opener, opener.previous()
    is_list = opener is not None and opener.text.endswith(":") and opener.start < line.indent
    if not line.is_item or not is_list or first.is_item or first.indent != line.indent + 2:
        return None
    return stumble(
        Code.LAYOUT,
        first.span(line.indent, first.indent),
        f"the items of a list have a hyphen in front, and {quoted(first.name)} has none",
        f"write - {first.text.lstrip()}",
        "- ",
    )


def first_line_set_in(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a first line that does not begin at the very left."""
    line = line_at(source, trouble.met)
    first, above = line, line.previous()
    while above is not None:
        first, above = above, above.previous()
    if first.number == line.number or not first.indent or line.indent:
        return unclear(source, trouble)
    span, replacement = set_in(first, 0)
    return stumble(
        Code.INDENTATION,
        span,
        f"{quoted(first.name)} does not begin at the very left, where the lines below begin",
        f"start it {spaces(0)}",
        replacement,
    )


def _belongs_elsewhere(line: Line, levels: list[Level]) -> Problem | None:
    """Return the problem of a name that lines up with list items and belongs further out."""
    same = next(level for level in levels if level.start == line.indent)
    siblings = [
        level for level in levels if not level.is_item and are_siblings(level.line.name, line.name)
    ]
    if line.is_item or not same.is_item or not siblings:
        return None
    wanted = min(siblings, key=lambda level: abs(level.start - line.indent))
    return stumble(
        Code.INDENTATION,
        line.span(0, line.indent),
        "a line with a name stands among the items of a list",
        f"start it {spaces(wanted.start)}, like {quoted(wanted.line.name)} above",
        " " * wanted.start,
    )


def _mixed_list(line: Line) -> Problem | None:
    """Return the problem of `- item` among named lines, or the other way round."""
    if line.text.lstrip().startswith(":"):
        sentence = "there is no name in front of this colon"
        return stumble(
            Code.LAYOUT, line.span(line.column - 1), sentence, "write the name before it"
        )
    if not line.is_item and ":" not in line.text:
        return None
    if line.is_item:
        sentence = "a list item stands among lines that have names"
        hint = "take the hyphen out, or set it in two spaces further than the name whose list it is"
    else:
        sentence = "a line with a name stands among the items of a list"
        hint = 'start it with "- ", or set it in as far as the item it belongs to'
    return stumble(Code.INDENTATION, line.span(line.column - 1), sentence, hint)


def list_behind_name(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of `name: - item`."""
    line = line_at(source, trouble.met)
    after = text_after_quote(line)
    if after is not None:
        return after
    return stumble(
        Code.LAYOUT,
        line.span(line.column - 1),
        "a list item cannot begin behind a name on the same line",
        "put each item on a line of its own below, or write the list in brackets: [one, two]",
    )
