"""Slips that YAML does not notice: it reads a bracket or a missing colon as part of a word."""

import re

from tactics.problem import Problem
from tactics.reading.brackets import openers, unopened
from tactics.reading.codes import Code
from tactics.reading.keywords import is_known_name, known_start
from tactics.reading.stumble import Line, stumble
from tactics.reading.wording import quoted
from tactics.source import Source

_BRACKET_BEHIND = re.compile(r"(?P<name>[^\[{:]+?)\s*(?P<colon>:?)(?P<mark>[\[{])")
_QUOTE_BEHIND = re.compile(r"(?P<name>[^\"':]+?)(?P<colon>\s|:)\s*(?P<mark>[\"'])")


def is_name_in(candidate: str, source: Source) -> bool:
    """Say whether a text has a line in which this is a name, say a fact of its own."""
    pattern = rf"(?m)(?:^|[{{,]|-\s)[ ]*{re.escape(candidate)}[ ]*:"
    return bool(candidate) and re.search(pattern, source.text) is not None


def own_start(words: str, source: Source) -> str:
    """Return the longest run of words at the start that is a name elsewhere in a text."""
    parts = words.split(" ")
    runs = (" ".join(parts[:count]) for count in range(min(6, len(parts) - 1), 0, -1))
    return next((run for run in runs if is_name_in(run, source)), "")


def slip_in_name(line: Line, start: int, stop: int) -> Problem | None:
    """Return the problem of a name without its colon, or None: `balance set`, `when {...`."""
    glued = bracket_behind_name(line, start, stop)
    glued = glued or _glued(_QUOTE_BEHIND.match(line.text, start, stop), line)
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


def bracket_behind_name(line: Line, start: int, stop: int) -> Problem | None:
    """Return the problem of a known name with a bracket and no colon between, or None."""
    return _glued(_BRACKET_BEHIND.match(line.text, start, stop), line)


def _glued(found: re.Match[str] | None, line: Line) -> Problem | None:
    """Return the problem of a known name with a bracket or a quote right behind it, or None."""
    if found is None or not is_known_name(found["name"]):
        return None
    name, mark = found["name"], found["mark"]
    sentence = f"there is no colon behind {quoted(name)}"
    if found["colon"] == ":":
        sentence = f"the colon behind {quoted(name)} needs a space behind it"
    return stumble(
        Code.MISSING_COLON,
        line.span(found.end("name"), found.end()),
        sentence,
        f"write {name}: {line.text[found.start('mark') :]}",
        f": {mark}",
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
