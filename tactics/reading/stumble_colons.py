"""Colons that are missing, or stand in the middle of a text."""

import re

from tactics.problem import Problem
from tactics.reading.codes import Code
from tactics.reading.keywords import is_known_name, known_start
from tactics.reading.quoting import double_quoted
from tactics.reading.stumble import KEY_AND_VALUE, Line, Trouble, line_at, stumble, unclear
from tactics.reading.stumble_levels import set_out_above, spaces
from tactics.reading.word_slips import bracket_behind_name, slip_in_value
from tactics.reading.wording import quoted
from tactics.source import Source

_TIGHT_COLON = re.compile(r"\s*(?:-\s+)*[^\s:\[{\"'][^:]*?(?P<colon>:)(?=[^\s:/])")


def colon(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a colon that cannot be one: in a text, or on a line set in too far."""
    line = line_at(source, trouble.met)
    tight = _colon_without_space(line)
    if tight is not None and tight.span.column < line.column:
        return tight
    found = KEY_AND_VALUE.match(line.text)
    if found and found.end("key") < line.column - 1:
        slip = bracket_behind_name(line, line.start, found.end("key"))
        slip = slip or slip_in_value(line, found.start("value"), len(line.text))
        return slip or colon_in_text(line, found.start("value"), len(line.text), found["key"])
    above = line.previous()
    if above is None:
        return unclear(source, trouble)
    return _colon_missing_above(above) or set_out_above(line) or _set_in_too_far(line, above)


def colon_in_text(line: Line, start: int, stop: int, key: str) -> Problem:
    """Return the problem of a text with a colon in it, from one index of its line to another."""
    written = line.text[start:stop].rstrip()
    name = key.strip().removeprefix("-").strip()
    return stumble(
        Code.COLON_IN_TEXT,
        line.span(start, start + len(written)),
        f"the text of {quoted(name)} has a colon in it, and only quotes can hold that",
        f"write {name}: {double_quoted(written)}",
        double_quoted(written),
    )


def _colon_missing_above(above: Line) -> Problem | None:
    """Return the problem of `title:Low` or `title Low`, if the line above is one."""
    if KEY_AND_VALUE.match(above.text) or above.text.endswith(":"):
        return None
    return _colon_without_space(above) or _colon_missing_in(above)


def _colon_without_space(line: Line) -> Problem | None:
    """Return the problem of `title:Low` or `aim:{...`, or None."""
    tight = _TIGHT_COLON.match(line.text)
    if not tight:
        return None
    at = tight.start("colon")
    return stumble(
        Code.MISSING_COLON,
        line.span(at, at + 1),
        "a colon needs a space behind it",
        f"write {line.text[:at].strip()}: {line.text[at + 1 :]}",
        ": ",
    )


def _colon_missing_in(line: Line) -> Problem:
    start = line.indent
    words = line.text[start:].removeprefix("- ")
    start = len(line.text) - len(words)
    name = known_start(words)
    return stumble(
        Code.MISSING_COLON,
        line.span(start, start + len(name) if name else None),
        f"there is no colon behind {quoted(name)}"
        if name
        else f"the line {quoted(words)} has no colon",
        f"write {name}: {words[len(name) :].strip()}"
        if name
        else "a line is a name, a colon, a space and a value",
        f"{name}:" if name else "",
    )


def _set_in_too_far(line: Line, above: Line) -> Problem:
    name = line.text.split(":", maxsplit=1)[0].strip()
    if line.indent > above.indent and (is_known_name(name) or " " not in name):
        return stumble(
            Code.INDENTATION,
            line.span(0, line.indent),
            f"{quoted(name)} is set in further than the line above, which already has a value",
            f"start it {spaces(above.indent)}, like the line above",
            " " * above.indent if above.indent else "",
        )
    return stumble(
        Code.COLON_IN_TEXT,
        line.span(line.column - 1, line.column),
        "a text that runs over several lines has a colon in it, and only quotes can hold that",
        "put one quote before the first word of the text and one behind the last",
    )


def simple_key(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a line in which the colon is missing."""
    line = line_at(source, trouble.opened)
    return _colon_missing_above(line) or unclear(source, trouble)
