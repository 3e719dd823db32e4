"""Corners of showing a problem: widths, cuts, second places, and nothing raw on the screen."""

from tactics.problem import Also, Problem, Severity
from tactics.report.problems import as_dict, first_line, render_problems, render_short
from tactics.report.visible import cells, visible
from tactics.source import Source, Span

SOURCE = Source(name="club.yaml", text="one: two\n日本: [\tend]\n" + "x" * 200 + "\n")


def problem(line: int, column: int, width: int, **more) -> Problem:
    span = Span(file="club.yaml", line=line, column=column, width=width)
    return Problem(code="tab", span=span, sentence="it is so", **more)


def shown(*problems: Problem) -> list[str]:
    return render_problems(problems, [SOURCE]).splitlines()


def test_the_first_line_is_a_message_in_itself() -> None:
    warning = problem(1, 6, 3, severity=Severity.WARNING)

    assert first_line(warning) == "club.yaml:1:6: warning: it is so [tab]"
    assert render_short([warning, warning]).splitlines() == [first_line(warning)] * 2


def test_a_caret_stands_under_wide_letters() -> None:
    assert shown(problem(2, 1, 2))[2:4] == ["2 | 日本: [→   end]", "  | ^^^^"]
    assert shown(problem(2, 7, 3))[3] == "  |            ^^^"


def test_a_long_line_is_cut_around_the_place() -> None:
    start, end = shown(problem(3, 1, 5)), shown(problem(3, 196, 5))

    assert start[2].endswith("x…")
    assert end[2].startswith("3 | …x")
    assert max(map(cells, start[1:] + end[1:])) <= 80
    assert end[3].endswith("^^^^^")


def test_a_mark_that_is_wider_than_the_screen_is_cut_too() -> None:
    assert max(map(len, shown(problem(3, 1, 200))[1:])) <= 80


def test_the_opener_is_shown_above_with_a_gap_where_lines_are_left_out() -> None:
    assert shown(problem(3, 1, 1, opener=1))[1:4] == ["  |", "1 | one: two", "  ⋮"]
    assert shown(problem(2, 1, 1, opener=1))[1:4] == ["  |", "1 | one: two", "2 | 日本: [→   end]"]


def test_a_second_place_is_shown_with_its_text() -> None:
    also = Also(span=Span(file="club.yaml", line=1, column=1, width=3), text="the first one")
    elsewhere = Also(span=Span(file="base.yaml", line=7, column=2), text="and here")

    lines = shown(problem(2, 1, 2, also=(also, elsewhere)))

    assert lines[4:8] == ["  = the first one: line 1", "  |", "1 | one: two", "  | ---"]
    assert lines[8] == "  = and here: base.yaml:7:2"


def test_a_place_in_a_file_nobody_holds_is_named_all_the_same() -> None:
    assert render_problems([problem(1, 1, 1, hint="do this")]).splitlines() == [
        "club.yaml:1:1: error: it is so [tab]",
        "  = do this",
        "  = more: tactics explain tab",
    ]


def test_nothing_from_a_file_can_move_the_cursor() -> None:
    dirty = "a\x1b[31m\u202eb\u2066\x9b\x00\ud800\u2028c"
    span = Span(file=f"f{dirty}.yaml", line=1, column=1, width=3)
    source = Source(name=span.file, text=dirty)

    text = render_problems([Problem(code="tab", span=span, sentence=dirty, hint=dirty)], [source])

    assert all(letter == "\n" or letter.isprintable() for letter in text)
    assert text.encode("utf-8")
    assert visible("\x1b\u202e") == "\\x1b\\u202e"


def test_a_problem_becomes_plain_values() -> None:
    also = Also(span=Span(file="club.yaml", line=1), text="the first one")

    plain = as_dict(problem(2, 3, 4, hint="do this", replacement="this", also=(also,)))

    assert plain == {
        "code": "tab", "severity": "error", "file": "club.yaml", "line": 2, "column": 3, "width": 4,
        "sentence": "it is so", "hint": "do this", "replacement": "this",
        "also": [{"file": "club.yaml", "line": 1, "column": 1, "width": 1,
                  "text": "the first one"}],
    }  # fmt: skip
