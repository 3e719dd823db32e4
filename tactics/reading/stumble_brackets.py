"""Brackets and commas: lists and sections written on one line."""

import re

from tactics.problem import Problem
from tactics.reading.brackets import closers, unclosed_before, unopened
from tactics.reading.codes import Code
from tactics.reading.keywords import is_known_name
from tactics.reading.stumble import Line, Trouble, line_at, stumble, unclear
from tactics.reading.stumble_colons import colon_in_text
from tactics.reading.stumble_quotes import text_after_quote
from tactics.reading.stumble_spread import last_inside, open_before, open_bracket
from tactics.reading.word_slips import is_name_in
from tactics.reading.wording import quoted
from tactics.source import Source


def brackets(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a bracket left open, or of what stands inside one."""
    line, opening = line_at(source, trouble.met), line_at(source, trouble.opened)
    met = line.text[line.column - 1 : line.column]
    is_past_the_end = trouble.met[0] > len(source.lines)
    if is_past_the_end or not met or line.number > last_inside(opening).number:
        return open_bracket(opening, trouble.opened[1] - 1)
    is_same = line.number == opening.number
    if met == ":":
        return (is_same and _value_without_opener(line)) or _colon_in_brackets(line)
    if met in "]}":
        before = open_before(opening, line, line.column - 1)
        return (is_same and _list_without_opener(line, met)) or _wrong_closer(line, before, met)
    return (
        text_after_quote(line)
        or _comma_after_bracket(line)
        or _colon_before_bracket(line)
        or unclear(source, trouble)
    )


def closed_too_often(line: Line) -> Problem | None:
    """Return the problem of `drills: [diagonal-ladder]]`, where one bracket is too many."""
    at = line.column - 1
    if line.text[at : at + 1] not in ("]", "}") or line.text[at - 1 : at] not in ("]", "}"):
        return None
    return stumble(
        Code.OPEN_BRACKET,
        line.span(at - 1, at + 1),
        f"there is one {quoted(line.text[at])} too many",
        f"write {line.text[:at].lstrip()}{line.text[at + 1 :]}",
        line.text[at - 1],
    )


def _entry_start(line: Line, stop: int) -> int:
    """Return the index of the first letter behind the last comma or opening bracket."""
    begin = max(line.text.rfind(mark, 0, stop) for mark in "{,[") + 1
    return begin + len(line.text[begin:stop]) - len(line.text[begin:stop].lstrip())


def _value_without_opener(line: Line) -> Problem | None:
    """Return the problem of `{given: balance: set}, ...}`: a brace is closed and never opened."""
    start = _entry_start(line, line.column - 1)
    colon = line.text.find(":", start, line.column - 1)
    if "}" not in unopened(line.text) or colon < 0:
        return None
    return _opener_missing(line, colon + 1, line.column - 1, "{")


def _list_without_opener(line: Line, met: str) -> Problem | None:
    """Return the problem of `{wing: forehand, backhand]}`, where "[" is missing."""
    stop = line.column - 1
    if met in closers(unclosed_before(line.text, stop)) or not _closes_all(line):
        return None
    if met == "}":
        return _opener_missing(line, _entry_start(line, stop), stop, "{")
    colon = line.text.rfind(":", 0, stop)
    return _opener_missing(line, colon + 1, stop, "[") if colon >= 0 else None


def _closes_all(line: Line) -> bool:
    """Say whether every bracket of a line is closed on it; if not, one was mistyped."""
    return not unclosed_before(line.text, len(line.text))


def _opener_missing(line: Line, start: int, stop: int, opener: str) -> Problem:
    start += len(line.text[start:stop]) - len(line.text[start:stop].lstrip())
    wanted = opener + line.text[start:stop]
    return stumble(
        Code.OPEN_BRACKET,
        line.span(start, stop),
        f"{quoted(closers(opener))} is closed further on and was never opened",
        f"write {wanted}",
        wanted,
    )


def _comma_after_bracket(line: Line) -> Problem | None:
    """Return the problem of `{a: [b] c: d}`, where no comma follows the inner bracket."""
    before = line.text[: line.column - 1].rstrip()
    if not before.endswith(("]", "}")):
        return None
    at = len(before) - 1
    return stumble(
        Code.MISSING_COMMA,
        line.span(at, at + 1),
        f"there is no comma behind {quoted(before[-1])}",
        f"write {before[-1]}, {line.text[line.column - 1 :]}",
        f"{before[-1]},",
    )


def _colon_before_bracket(line: Line) -> Problem | None:
    """Return the problem of `{stage [green]}`, where the colon is missing."""
    stop = line.column - 1
    start = _entry_start(line, stop)
    name = line.text[start:stop].strip()
    if line.text[stop] not in "[{" or not name or ":" in name:
        return None
    return stumble(
        Code.MISSING_COLON,
        line.span(start, start + len(name)),
        f"there is no colon behind {quoted(name)}",
        f"write {name}: {line.text[stop:]}",
        f"{name}:",
    )


def _wrong_closer(line: Line, before: str, met: str) -> Problem:
    """Return the problem of `{wing: [forehand}`: the inner bracket is left open, or mistyped.

    before: the brackets that are open there.
    """
    outer, opened = before[:-1], before[-1:] or "["
    is_mistyped = len(unopened(line.text[line.column - 1 :])) == len(before)
    is_left_out = not is_mistyped and outer and closers(outer[-1]) == met
    wanted = closers(opened) + (met if is_left_out else "")
    return stumble(
        Code.OPEN_BRACKET,
        line.span(line.column - 1, line.column),
        f"{quoted(met)} stands here, and what was opened last is {quoted(opened)}",
        f"write {wanted}",
        wanted,
    )


def _colon_in_brackets(line: Line) -> Problem:
    """Return the problem of a second colon between two commas."""
    met = line.column - 1
    begin = max(line.text.rfind(mark, 0, met) for mark in "{,[") + 1
    segment = line.text[begin:met]
    colon = segment.find(":")
    if colon < 0:
        return stumble(
            Code.COLON_IN_TEXT,
            line.span(met, met + 1),
            "this colon has no name in front of it",
            "put quotes around a text that has a colon in it",
        )
    value_start = begin + colon + 1 + len(segment[colon + 1 :]) - len(segment[colon + 1 :].lstrip())
    name = _known_end(line.text[value_start:met], line.source)
    if name:
        return stumble(
            Code.MISSING_COMMA,
            line.span(met - len(name) - 1, met - len(name)),
            f"there is no comma before {quoted(name)}",
            f"write {line.text[begin : met - len(name)].strip()}, {name}:",
            ", ",
        )
    stop = re.compile(r"[,}\]]").search(line.text, met)
    end = stop.start() if stop else len(line.text)
    return colon_in_text(line, value_start, end, segment[:colon])


def _known_end(words: str, source: Source) -> str:
    """Return the longest run of words at the end that is a name, leaving one word in front."""
    parts = words.split(" ")
    for count in range(min(4, len(parts) - 1), 0, -1):
        candidate = " ".join(parts[-count:])
        if is_known_name(candidate) or is_name_in(candidate, source):
            return candidate
    return ""


def nothing_here(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a comma or a closing bracket where a word belongs."""
    line = line_at(source, trouble.met)
    met = line.text[line.column - 1 : line.column]
    if met not in (",", "]", "}"):
        return unclear(source, trouble)
    if met == ",":
        return _comma_twice(line)
    return stumble(
        Code.LAYOUT,
        line.span(line.column - 1, line.column),
        f"{quoted(met)} closes what was never opened",
        "take it out, or write the word that is missing in front of it",
    )


def _comma_twice(line: Line) -> Problem:
    stop = line.column
    start = len(line.text[: stop - 1].rstrip()) - 1
    is_double = line.text[start] == ","
    return stumble(
        Code.LAYOUT,
        line.span(start if is_double else stop - 1, stop),
        "a second comma follows with nothing in between"
        if is_double
        else "this comma has nothing in front of it",
        "write one comma, or the word that is missing between the two"
        if is_double
        else "take it out, or write the word that is missing in front of it",
        "," if is_double else "",
    )
