"""Mending a slip in the layout, so that the rest of the file can be read all the same."""

from collections.abc import Iterable
from dataclasses import replace

from tactics.problem import Problem
from tactics.reading.codes import Code
from tactics.reading.obstacles import plain_spaces
from tactics.source import Source, Span


def fitted(problem: Problem, attempt: Source, source: Source) -> Problem:
    """Return a problem found in a repaired text with a place that lies in the coach's text."""
    span = problem.span
    line = source.line(span.line)
    if plain_spaces(line) == attempt.line(span.line):
        return problem
    column = min(span.column, max(1, len(line)))
    width = max(1, min(span.width, len(line) - column + 1))
    return replace(
        problem,
        span=replace(span, column=column, width=width),
        hint="mend what is marked before it on this line first",
        replacement="",
    )


def repaired_with(attempt: Source, found: list[Problem]) -> Source | None:
    """Return the text with the replacement of a layout problem in place, or None."""
    if len(found) != 1 or not found[0].replacement or found[0].code not in _REPAIRABLE:
        return None
    span = found[0].span
    lines = attempt.text.splitlines(keepends=True)
    line = lines[span.line - 1]
    before, after = line[: span.column - 1], line[span.column - 1 + span.width :]
    lines[span.line - 1] = before + found[0].replacement + after
    return replace(attempt, text="".join(lines))


def without_layout_echoes(problems: Iterable[Problem]) -> list[Problem]:
    """Return the problems but those that only a repaired line has, at or behind the repair."""
    found = list(problems)
    places = [problem.span for problem in found if problem.code in _REPAIRABLE]
    return [
        problem
        for problem in found
        if problem.code in _REPAIRABLE
        or not any(_is_behind(problem.span, place) for place in places)
    ]


def _is_behind(span: Span, place: Span) -> bool:
    is_same_line = (span.file, span.line) == (place.file, place.line)
    return is_same_line and span.column >= place.column


_REPAIRABLE = frozenset(
    {
        Code.COLON_IN_TEXT,
        Code.MISSING_QUOTE,
        Code.QUOTES_NEEDED,
        Code.TEXT_AFTER_QUOTE,
        Code.MISSING_COLON,
        Code.INDENTATION,
        Code.OPEN_BRACKET,
        Code.MISSING_COMMA,
        Code.BACKSLASH,
        Code.LAYOUT,
    }
)
