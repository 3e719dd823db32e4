"""Problems as text: one line that an editor can jump to, the place, one hint, and more."""

from collections.abc import Iterable, Mapping
from textwrap import wrap

from tactics.problem import Also, Problem
from tactics.report.visible import cells, shape, visible
from tactics.source import Source, Span

_WIDTH = 80
_BEFORE_CARET = 24
_CUT = "…"
_LONGEST_NOTE = 960


def render_problems(problems: Iterable[Problem], sources: Iterable[Source] = ()) -> str:
    """Return all problems with their places, as far as the sources hold them."""
    by_name = {source.name: source for source in sources}
    return "\n".join(_render(problem, by_name) for problem in problems)


def render_short(problems: Iterable[Problem]) -> str:
    """Return the first line of every problem."""
    return "".join(f"{first_line(problem)}\n" for problem in problems)


def first_line(problem: Problem) -> str:
    """Return `file:line:column: error: sentence [code]`, a whole message in itself."""
    span = problem.span
    place = f"{span.file}:{span.line}:{span.column}"
    return visible(f"{place}: {problem.severity}: {problem.sentence} [{problem.code}]")


def as_dict(problem: Problem) -> dict[str, object]:
    """Return a problem as plain values, with the text of the file as it stands there."""
    return {
        "code": str(problem.code),
        "severity": str(problem.severity),
        **_place(problem.span),
        "sentence": problem.sentence,
        "hint": problem.hint,
        "replacement": problem.replacement,
        "also": [{**_place(also.span), "text": also.text} for also in problem.also],
        **({"notes": list(problem.notes)} if problem.notes else {}),
        **({"paste": list(problem.paste)} if problem.paste else {}),
    }


def _place(span: Span) -> dict[str, object]:
    return {
        "file": span.file,
        "line": span.line,
        "column": span.column,
        "width": span.width,
    }


def _render(problem: Problem, sources: Mapping[str, Source]) -> str:
    numbers = [problem.span.line, problem.opener, *(also.span.line for also in problem.also)]
    gutter = len(str(max(numbers)))
    lines = [first_line(problem)]
    source = sources.get(problem.span.file)
    if source is not None:
        lines += _snippet(source, problem.span, problem.opener, gutter, "^")
    for also in problem.also:
        lines += _second_place(also, problem, sources, gutter)
    for text in problem.notes:
        lines += _note(text, gutter)
    if problem.hint:
        lines += _note(problem.hint, gutter)
    lines += [f"{' ' * gutter}   {visible(line)}" for line in problem.paste]
    lines += _note(f"more: tactics explain {problem.code}", gutter)
    return "\n".join(lines) + "\n"


def _note(text: str, gutter: int) -> list[str]:
    margin = " " * gutter
    shown = text if len(text) <= _LONGEST_NOTE else text[: _LONGEST_NOTE - 1] + _CUT
    return wrap(
        visible(shown),
        _WIDTH,
        initial_indent=f"{margin} = ",
        subsequent_indent=f"{margin}   ",
        break_on_hyphens=False,
        break_long_words=False,
    )


def _second_place(
    also: Also, problem: Problem, sources: Mapping[str, Source], gutter: int
) -> list[str]:
    where = f"line {also.span.line}"
    if also.span.file != problem.span.file:
        where = f"{also.span.file}:{also.span.line}:{also.span.column}"
    lines = _note(f"{also.text}: {where}", gutter)
    source = sources.get(also.span.file)
    return lines if source is None else lines + _snippet(source, also.span, 0, gutter, "-")


def _snippet(source: Source, span: Span, opener: int, gutter: int, mark: str) -> list[str]:
    """Return the line of a place, marked, below the line that opens its section."""
    margin = " " * gutter
    lines = [f"{margin} |"]
    if 0 < opener < span.line:
        text, _ = _window(source.line(opener), 0, _WIDTH - gutter - 3)
        lines.append(f"{opener:>{gutter}} | {text}".rstrip())
        if opener < span.line - 1:
            lines.append(f"{margin} ⋮")
    written = source.line(span.line)
    text, start = _window(written, span.column - 1, _WIDTH - gutter - 3)
    marked = visible(written[span.column - 1 : span.column - 1 + span.width])
    room = max(1, cells(text) - start)
    lines.append(f"{span.line:>{gutter}} | {text}".rstrip())
    lines.append(f"{margin} | {' ' * start}{mark * max(1, min(cells(marked), room))}")
    return lines


def _window(line: str, column: int, room: int) -> tuple[str, int]:
    """Return as much of a line as there is room for, and the cell at which `column` begins.

    A line that is too long is cut so that what stands at the column can be seen. No more of it
    is looked at than there is room for.
    """
    begin = 0 if _fits(line, room) else _begin(line, column, room - _BEFORE_CARET)
    text = _CUT if begin else ""
    start = cells(text) + cells(visible(line[begin:column]))
    used, end = cells(text), begin
    while end < len(line) and used + cells(shape(line[end])) <= room - 1:
        text += shape(line[end])
        used += cells(shape(line[end]))
        end += 1
    if end < len(line):
        is_last = end == len(line) - 1 and used + cells(shape(line[end])) <= room
        text += shape(line[end]) if is_last else _CUT
    return text, start


def _fits(line: str, room: int) -> bool:
    """Say whether a whole line has room; the rest of one that has not is left unseen."""
    used = 0
    for character in line:
        used += cells(shape(character))
        if used > room:
            return False
    return True


def _begin(line: str, column: int, most: int) -> int:
    """Return the first index from which no more than so many cells lie before `column`."""
    begin, used = min(column, len(line)), 0
    while begin and used + cells(shape(line[begin - 1])) <= most:
        begin -= 1
        used += cells(shape(line[begin]))
    return begin
