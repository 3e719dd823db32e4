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
_BULLET = re.compile(r"\s*(?P<sign>[\u2013\u2014\u2022\u00b7\u2023\u25aa\u2219*+])\s+")
_TIGHT_HYPHEN = re.compile(r"-(?:(?P<mark>[\[{])|(?P<name>[^\W\d_][^:]*?)\s*:|[^\W\d_])")
_SIGN_BEHIND = re.compile(
    r"(?P<name>[^\[{:;=\"'\s](?:[^\[{:;=\"']*?[^\[{:;=\"'\s])?)"
    r"(?P<sign>\s*[;=\uff1a]|\s[-\u2013\u2014])\s+(?P<rest>\S.*)"
)


def is_name_in(candidate: str, source: Source) -> bool:
    """Say whether a text has a line in which this is a name, say a fact of its own."""
    pattern = rf"(?m)(?:^|[{{,]|-\s)[ ]*{re.escape(candidate)}[ ]*:"
    return bool(candidate) and re.search(pattern, source.text) is not None


def own_start(words: str, source: Source) -> str:
    """Return the longest run of words at the start that is a name elsewhere in a text."""
    parts = words.split(" ")
    runs = (" ".join(parts[:count]) for count in range(min(6, len(parts) - 1), 0, -1))
    return next((run for run in runs if is_name_in(run, source)), "")


def hyphen_slip(line: Line, start: int) -> Problem | None:
    """Return the problem of `-given: {...}`, an item without the space behind its hyphen."""
    found = _TIGHT_HYPHEN.match(line.text, start)
    if found is None or not _is_item_without_space(line, found):
        return None
    return stumble(
        Code.LAYOUT,
        line.span(start, start + 1),
        "the hyphen of a list needs a space behind it",
        f"write - {line.text[start + 1 :]}",
        "- ",
    )


def bullet_slip(line: Line) -> Problem | None:
    """Return the problem of `• balance: set`, an item with another sign than a hyphen."""
    found = _BULLET.match(line.text)
    if found is None:
        return None
    return stumble(
        Code.LAYOUT,
        line.span(found.start("sign"), found.end()),
        f"{quoted(found['sign'])} stands where the hyphen of a list belongs",
        f"write - {line.text[found.end() :]}",
        "- ",
    )


def _is_item_without_space(line: Line, found: re.Match[str]) -> bool:
    name = found["name"]
    if found["mark"] or (name and (is_known_name(name) or is_name_in(name, line.source))):
        return True
    beside = (line.previous(), line.next())
    return any(each and each.is_item and each.indent == found.start() for each in beside)


def sign_for_colon(line: Line, start: int) -> Problem | None:
    """Return the problem of `strength = should`, where another sign stands for the colon."""
    found = _SIGN_BEHIND.match(line.text, start)
    name = (found["name"] or "") if found else ""
    if found is None or not (is_known_name(name) or is_name_in(name, line.source)):
        return None
    return stumble(
        Code.MISSING_COLON,
        line.span(found.end("name"), found.start("rest")),
        f"{quoted(found['sign'].strip())} stands behind {quoted(name)}, where a colon belongs",
        f"write {name}: {found['rest']}",
        ": ",
    )


def slip_in_name(line: Line, start: int, stop: int) -> Problem | None:
    """Return the problem of a name without its colon, or None: `balance set`, `when {...`."""
    text = line.text
    if text.startswith(":", stop) and is_known_name(text[start:stop]):
        return None  # as nearly every name
    if line.text[start:stop].startswith("-"):
        return hyphen_slip(line, start)
    bullet = bullet_slip(line) if start == line.indent else None
    if bullet is not None:
        return bullet
    if not is_known_name(line.text[start:stop]):
        sign = sign_for_colon(line, start)
        if sign is not None and sign.span.column + sign.span.width <= stop + 1:
            return sign
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
    told = line.text
    bullet = None if told[:start].strip() else bullet_slip(line)
    if bullet is not None:
        return bullet
    text = told[start:stop]
    if not text.endswith(("]", "}")):
        return None
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
