"""A line of a file is cut the same way however long it is, and no more of it is looked at."""

import sys
from collections.abc import Callable
from types import FrameType

from hypothesis import given
from hypothesis import strategies as st

from tactics.problem import Problem
from tactics.report.problems import render_problems
from tactics.report.visible import cells, shape
from tactics.source import Source, Span

ROOM = 80 - len("1 | ")
BEFORE_CARET = 24
LETTERS = st.sampled_from(["a", "b", " ", "日", "é", "\t", "\x1b", "\u0301", "\u200b", ":"])


def shown(line: str, column: int, width: int = 1) -> list[str]:
    span = Span(file="club.yaml", line=1, column=column, width=width)
    problem = Problem(code="tab", span=span, sentence="it is so")
    return render_problems([problem], [Source(name="club.yaml", text=line)]).splitlines()


def cut(line: str, column: int) -> str:
    """Return what is to be shown of a line, found by trying: the meaning of the quick way."""
    shapes = [shape(character) for character in line]
    whole = "".join(shapes)
    if cells(whole) <= ROOM:
        return whole
    fitting = (
        begin
        for begin in range(column + 1)
        if cells("".join(shapes[begin:column])) <= ROOM - BEFORE_CARET
    )
    begin = next(fitting)
    front, rest = "…" if begin else "", shapes[begin:]
    if cells(front + "".join(rest)) <= ROOM and cells(front + "".join(rest[:-1])) <= ROOM - 1:
        return front + "".join(rest)
    ends = (
        end for end in range(len(rest), -1, -1) if cells(front + "".join(rest[:end])) <= ROOM - 1
    )
    return front + "".join(rest[: next(ends)]) + "…"


@given(st.text(LETTERS, min_size=1, max_size=240), st.data())
def test_a_line_is_cut_so_that_the_place_is_seen(line: str, data: st.DataObject) -> None:
    column = data.draw(st.integers(1, len(line)))

    assert shown(line, column)[2] == f"1 | {cut(line, column - 1)}".rstrip()


def calls_of(work: Callable[[], object]) -> int:
    """Return how many functions written in Python a piece of work calls."""
    count = 0

    def note(_frame: FrameType, event: str, _arg: object) -> None:
        nonlocal count
        count += event == "call"

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        work()
    finally:
        sys.setprofile(before)
    return count


def test_a_line_of_a_hundred_thousand_letters_is_no_more_work_than_a_long_one() -> None:
    long, longer = "x" * 1_000, "x" * 100_000

    few = calls_of(lambda: shown(long, 900))
    many = calls_of(lambda: [shown(longer, column) for column in (1, 50_000, 100_000)])

    assert many <= 4 * few


def test_a_mark_of_a_hundred_thousand_letters_is_looked_at_once() -> None:
    line = "x" * 100_000

    assert calls_of(lambda: shown(line, 1, len(line))) < 10 * len(line)
    assert [len(each) for each in shown(line, 1, len(line))[2:4]] == [80, 80]


def test_a_hint_of_a_hundred_thousand_letters_is_cut() -> None:
    span = Span(file="club.yaml", line=1)
    problem = Problem(code="tab", span=span, sentence="it is so", hint="write it " * 10_000)

    assert len(render_problems([problem])) < 1_500
