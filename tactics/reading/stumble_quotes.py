"""Quotes that are missing, not closed, or closed too early."""

import re

from tactics.problem import Problem
from tactics.reading.brackets import unclosed_before
from tactics.reading.codes import Code
from tactics.reading.quoting import double_quoted, requoted
from tactics.reading.stumble import KEY_AND_VALUE, Line, Place, Trouble, line_at, stumble, unclear
from tactics.reading.word_slips import bullet_slip
from tactics.reading.wording import quoted
from tactics.source import Source

_VALUE_AFTER = re.compile(r"\s*(?:-\s+)*(?:[^:]*?:\s+)?")
_BOUND = re.compile(r"(?P<sign>[<>]=?)\s*(?P<rest>-?\d.*)$")
_BOUND_WORDS = {">": "more than", ">=": "at least", "<": "less than", "<=": "at most"}


def missing_quote(source: Source, opened: Place) -> Problem:
    """Return the problem of a quote that is opened on a line and not closed there."""
    line = line_at(source, opened)
    start = opened[1] - 1
    mark = line.text[start : start + 1] or '"'
    written = line.text[start:]
    return stumble(
        Code.MISSING_QUOTE,
        line.span(start),
        "the quote opened here is not closed on this line",
        f"close it: {written}{mark}",
        written + mark,
    )


def unclosed_quote(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a quote that runs on to the end of the file."""
    return missing_quote(source, trouble.opened)


def text_after_quote(line: Line) -> Problem | None:
    """Return the problem of `"Good" balls`, if that is what the line has."""
    stop = line.column - 1
    if not line.text[:stop].rstrip().endswith(('"', "'")):
        return None
    start = _value_start(line)
    in_brackets = bool(unclosed_before(line.text, stop))
    if in_brackets or line.text[start : start + 1] not in ('"', "'"):
        return stumble(
            Code.TEXT_AFTER_QUOTE,
            line.span(stop),
            "words go on after the closing quote",
            "put the quotes around the whole text",
        )
    written = line.text[start:]
    return stumble(
        Code.TEXT_AFTER_QUOTE,
        line.span(start),
        "words go on after the closing quote, and only quotes around the whole text can hold them",
        f"write {requoted(written)}",
        requoted(written),
    )


def behind_quote(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of `"Sun up there"? Let it bounce`, or of a lone question mark."""
    return text_after_quote(line_at(source, trouble.met)) or unclear(source, trouble)


def backslash(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a backslash in double quotes."""
    line = line_at(source, trouble.opened)
    start = trouble.opened[1] - 1
    closing = re.match(r'"(?:[^"\\]|\\.)*"', line.text[start:])
    written = closing.group() if closing else ""
    repaired = written.replace("\\", "\\\\")
    return stumble(
        Code.BACKSLASH,
        line.span(start, start + len(written) if written else None),
        'in double quotes a "\\" gives the next letter a meaning of its own, and this one has none',
        f"write {repaired}" if repaired else 'write "\\\\" where one is meant, or leave it out',
        repaired,
    )


def _value_start(line: Line) -> int:
    """Return the index at which the value of a line begins."""
    found = KEY_AND_VALUE.match(line.text)
    if found:
        return found.start("value")
    begin = _VALUE_AFTER.match(line.text)
    return begin.end() if begin else 0


def quotes_needed(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a text that begins with a mark YAML keeps for itself."""
    line = line_at(source, trouble.met if "start any token" in trouble.problem else trouble.opened)
    start = (trouble.met if "start any token" in trouble.problem else trouble.opened)[1] - 1
    bullet = bullet_slip(line) if start == line.indent else None
    if bullet is not None:
        return bullet
    stop = len(line.text)
    if unclosed_before(line.text, start):
        end = re.compile(r"[,\]}]").search(line.text, start + 1)
        stop = end.start() if end else stop
    written = line.text[start:stop].strip()
    wanted = _bound_in_words(written) or double_quoted(written)
    return stumble(
        Code.QUOTES_NEEDED,
        line.span(start, start + len(written)),
        f"a text cannot begin with {quoted(written[:1])} unless it stands in quotes",
        f"write {wanted}",
        wanted,
    )


def _bound_in_words(written: str) -> str:
    """Return `more than 3 m` for `> 3 m`, or nothing for other texts."""
    bound = _BOUND.match(written)
    return f"{_BOUND_WORDS[bound['sign']]} {bound['rest']}" if bound else ""
