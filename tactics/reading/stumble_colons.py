"""Colons that are missing, or stand in the middle of a text."""

import re

from tactics.problem import Problem
from tactics.reading.brackets import unopened
from tactics.reading.codes import Code
from tactics.reading.keywords import (
    SECTION_KEYS,
    TEXT_KEYS,
    are_siblings,
    is_known_name,
    is_row,
    known_start,
)
from tactics.reading.quoting import double_quoted
from tactics.reading.stumble import KEY_AND_VALUE, Line, Trouble, line_at, stumble, unclear
from tactics.reading.stumble_levels import (
    is_among_own_words,
    set_in,
    set_in_among,
    set_out_above,
    spaces,
)
from tactics.reading.word_slips import (
    bracket_behind_name,
    hyphen_slip,
    is_name_in,
    own_start,
    sign_for_colon,
    slip_in_value,
)
from tactics.reading.wording import quoted
from tactics.source import Source

_BARE = re.compile(r"(?P<not>not )?(?P<name>[^\W\d_][^\W_]*(?:[ -][^\W_]+){0,4})")
_CONDITIONS = ("when", "unless", "all", "any", "not")
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
        slip = slip or _braces_missing(line, found.start("value"))
        return slip or colon_in_text(line, found.start("value"), len(line.text), found["key"])
    above = line.previous()
    if above is None:
        return unclear(source, trouble)
    return (
        set_out_above(line)
        or bare_name(above)
        or (_colon_missing_above(above) if _starts_like_line(above) else None)
        or _set_in_too_far(line, above)
        or _colon_missing_above(above)
        or _colon_in_long_text(line)
    )


def _first_name(line: Line) -> str:
    """Return the name a line begins with, of the format or of this file, if it has one."""
    words = line.text[line.start :]
    return known_start(words) or own_start(words, line.source)


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


def _braces_missing(line: Line, start: int) -> Problem | None:
    """Return the problem of `when: balance: set`, a section on the line of its name, or None."""
    written = line.text[start:]
    name = written.split(":", maxsplit=1)[0]
    if line.name not in SECTION_KEYS or not (is_known_name(name) or is_name_in(name, line.source)):
        return None
    wanted = "{" + written + ("" if written.endswith(",") or unopened(written) else "}")
    return stumble(
        Code.OPEN_BRACKET,
        line.span(start),
        f"lines that stand behind {quoted(line.name)} on its own line need braces around them",
        f"write {line.name}: {wanted}",
        wanted,
    )


def _colon_missing_above(above: Line) -> Problem | None:
    """Return the problem of `title:Low` or `title Low`, if the line above is one."""
    if KEY_AND_VALUE.match(above.text) or above.text.endswith(":"):
        return None
    slip = hyphen_slip(above, above.indent) or sign_for_colon(above, above.start)
    return slip or _colon_without_space(above) or _colon_missing_in(above)


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
    start = line.start
    words = line.text[start:]
    name = _first_name(line)
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


def bare_name(line: Line) -> Problem | None:
    """Return the problem of `low ball` among the lines of a condition, without a value."""
    words = line.text[line.start :]
    opener: Line | None = line.previous()
    while opener is not None and opener.start >= line.start:
        opener = opener.previous()
    found = _BARE.fullmatch(words)
    if opener is None or found is None or known_start(found["name"]):
        return None
    if opener.name not in _CONDITIONS or not opener.text.endswith(":"):
        return None
    wanted = f"{found['name']}: {'no' if found['not'] else 'yes'}"
    return stumble(
        Code.MISSING_COLON,
        line.span(line.start),
        f"there is no colon behind {quoted(words)}",
        f"write {wanted}",
        wanted,
    )


def _set_in_too_far(line: Line, above: Line) -> Problem | None:
    """Return the problem of a name set in below a line that has a value already, or None."""
    opener: Line | None = above
    while opener is not None and not KEY_AND_VALUE.match(opener.text):
        opener = opener.previous()
    if opener is None or line.indent <= opener.start:
        return None
    is_name = is_known_name(line.name) or " " not in line.name or is_among_own_words(opener)
    is_next = opener.number == above.number and is_name
    if not is_next and not are_siblings(opener.name, line.name):
        return None
    span, replacement = set_in(line, opener.start)
    return stumble(
        Code.INDENTATION,
        span,
        f"{quoted(line.name)} is set in further than the line above, which already has a value",
        f"start it {spaces(opener.start)}, like {quoted(opener.name)} above",
        replacement,
    )


def _colon_in_long_text(line: Line) -> Problem:
    return stumble(
        Code.COLON_IN_TEXT,
        line.span(line.column - 1, line.column),
        "a text that runs over several lines has a colon in it, and only quotes can hold that",
        "put one quote before the first word of the text and one behind the last",
    )


def simple_key(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a line in which the colon is missing."""
    line = line_at(source, trouble.opened)
    slip = hyphen_slip(line, line.indent) or sign_for_colon(line, line.start) or bare_name(line)
    if slip is not None:
        return slip
    if not _starts_like_line(line) and _colon_without_space(line) is None:
        text_before = _text_goes_on(line)
        if text_before is not None:
            return text_before
    return _colon_missing_above(line) or unclear(source, trouble)


def _starts_like_line(line: Line) -> bool:
    """Say whether a line begins with a name that can stand below the line above."""
    above = line.previous()
    name = _first_name(line)
    if above is None or above.start != line.start or above.name not in TEXT_KEYS:
        return bool(name)
    in_term = above.name == "means" and is_row(name)
    return bool(name) and (in_term or are_siblings(above.name, name))


def _text_goes_on(line: Line) -> Problem | None:
    """Return the problem of a text that goes on below its name and is not set in, or None."""
    above = line.previous()
    found = KEY_AND_VALUE.match(above.text) if above else None
    if above is None or found is None or above.start != line.start or found["value"][0] in "[{\"'":
        return None
    return set_in_among(above) or stumble(
        Code.INDENTATION,
        line.span(0, max(1, line.indent)),
        f"if this is still the text of {quoted(above.name)}, it has to be set in further",
        f"start it {spaces(line.indent + 2)}; a line of its own needs a name and a colon",
        " " * (line.indent + 2) if line.indent else "",
    )
