"""Brackets that hold more than one line."""

from tactics.problem import Problem
from tactics.reading.brackets import closers, unclosed_before
from tactics.reading.codes import Code
from tactics.reading.stumble import Line, stumble
from tactics.reading.wording import quoted


def last_inside(opening: Line) -> Line:
    """Return the last line that is set in far enough to stand inside a bracket opened above it."""
    last = opening
    for number in range(opening.number + 1, len(opening.source.lines) + 1):
        line = Line(opening.source, number, 1)
        if line.text.strip() and line.indent <= opening.start:
            break
        last = line if line.text.strip() else last
    return last


def open_before(opening: Line, line: Line, stop: int) -> str:
    """Return the brackets opened and not closed from one line on to an index of another."""
    numbers = range(opening.number, line.number)
    whole = [Line(opening.source, number, 1).text for number in numbers]
    text = "\n".join([*whole, line.text[:stop]])
    return unclosed_before(text, len(text))


def open_bracket(opening: Line, start: int) -> Problem:
    """Return the problem of a bracket that is opened and never closed."""
    last = last_inside(opening)
    is_same = last.number == opening.number
    begin = start if is_same else last.indent
    missing = closers(open_before(opening, last, len(last.text)))
    written, mark = last.text[begin:], opening.text[start : start + 1]
    goes_on = written.endswith((",", "[", "{")) or not missing
    where = "here" if is_same else f"on line {opening.number}"
    return stumble(
        Code.OPEN_BRACKET,
        last.span(begin),
        f"the bracket {quoted(mark)} opened {where} is never closed",
        f"close it with {quoted(closers(mark))} where the list or section ends"
        if goes_on
        else f"close it: {written}{missing}",
        "" if goes_on else written + missing,
    )
