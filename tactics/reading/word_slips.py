"""Slips that YAML does not notice: it reads a bracket or a missing colon as part of a word."""

import re

from tactics.problem import Problem
from tactics.reading.brackets import openers, unopened
from tactics.reading.codes import Code
from tactics.reading.keywords import is_known_name, known_start
from tactics.reading.stumble import Line, stumble
from tactics.reading.wording import quoted

_QUOTE_BEHIND = re.compile(r"(?P<name>[^\"']+?)\s+[\"']")
_GLUED = re.compile(r"(?P<name>[^\[{]+?)\s*(?P<bracket>[\[{])")


def slip_in_name(line: Line, start: int, stop: int) -> Problem | None:
    """Return the problem of a name without its colon, or None: `balance set`, `when {...`."""
    glued = bracket_behind_name(line, start, stop) or _quote_behind_name(line, start, stop)
    if glued is not None or line.text[stop:].lstrip().startswith(":"):
        return glued
    text = line.text[start:stop]
    name = known_start(text)
    if not name or is_known_name(text):
        return None
    return stumble(
        Code.MISSING_COLON,
        line.span(start, start + len(name)),
        f"there is no colon behind {quoted(name)}",
        f"write {name}: {text[len(name) :].strip()}",
        f"{name}:",
    )


def _quote_behind_name(line: Line, start: int, stop: int) -> Problem | None:
    """Return the problem of `note "Clay: lift"`, or None."""
    found = _QUOTE_BEHIND.match(line.text, start, stop)
    if found is None or not is_known_name(found["name"]):
        return None
    name = found["name"]
    return stumble(
        Code.MISSING_COLON,
        line.span(start, start + len(name)),
        f"there is no colon behind {quoted(name)}",
        f"write {name}: {line.text[found.end() - 1 :]}",
        f"{name}:",
    )


def bracket_behind_name(line: Line, start: int, stop: int) -> Problem | None:
    """Return the problem of a known name with a bracket and no colon between, or None."""
    glued = _GLUED.match(line.text, start, stop)
    if glued is None or not is_known_name(glued["name"]):
        return None
    return stumble(
        Code.MISSING_COLON,
        line.span(glued.end("name"), glued.end()),
        f"there is no colon behind {quoted(glued['name'])}",
        f"write {glued['name']}: {line.text[glued.start('bracket') :]}",
        f": {glued['bracket']}",
    )


def slip_in_value(line: Line, start: int, stop: int) -> Problem | None:
    """Return the problem of a value that ends with a bracket nobody opened, or None."""
    text = line.text[start:stop]
    extra = unopened(text)
    if not extra or not text.endswith(extra[-1]):
        return None
    first = re.split(r"[,\[{]", text, maxsplit=1)[0]
    if extra == "}" and ": " not in first and line.is_item:
        start = line.start  # a section is made of names with values: it begins before the name
    wanted = openers(extra) + line.text[start:stop]
    return stumble(
        Code.OPEN_BRACKET,
        line.span(start, stop),
        f"{quoted(extra[-1])} at the end was never opened",
        f"write {wanted}",
        wanted,
    )
