"""Lines, tables and sections."""

from hypothesis import given
from hypothesis import strategies as st

from tactics.report.layout import (
    Section,
    bullet,
    counted,
    definitions,
    labelled,
    table,
    text_of,
    wrapped,
)


def test_a_long_name_in_a_table_goes_on_below_itself() -> None:
    lines = table(("", "n"), [("a-name-that-is-long", "3")], frozenset((1,)), name_width=12)

    assert lines == ("                n", "  a-name-that-  3", "    is-long")


def test_a_table_without_rows_has_no_header_either() -> None:
    assert table(("a", "b"), []) == ()


def test_labels_stand_in_a_column_of_their_own() -> None:
    assert definitions([("a", "one"), ("bbb", "two")]) == ("  a    one", "  bbb  two")


def test_text_beside_a_label_stays_in_its_column() -> None:
    lines = labelled("pace", "word " * 20, 4)

    assert [line.index("word") for line in lines] == [8, 8]


def test_sections_without_lines_are_left_out() -> None:
    sections = [
        Section(title="One", lines=("  a",)),
        Section(title="Two", lines=()),
        Section(title="", lines=("b",)),
    ]

    assert text_of(sections, str.upper) == "ONE\n  a\n\nb\n"


def test_text_of_a_coach_cannot_move_the_cursor() -> None:
    text = text_of([Section(title="\x1b[2J", lines=("a\x1b[31mb\u202ec",))])

    assert text == "\\x1b[2J\na\\x1b[31mb\\u202ec\n"


def test_one_is_not_many() -> None:
    assert counted(1, "ball") == "1 ball"
    assert counted(2, "ball") == "2 balls"
    assert counted(0, "lesson or match", "lessons or matches") == "0 lessons or matches"


@given(st.lists(st.text(st.characters(categories=["L", "N"]), min_size=1, max_size=30)))
def test_wrapped_text_keeps_its_words_and_its_width(words: list[str]) -> None:
    lines = (*wrapped(" ".join(words), "  "), *bullet(" ".join(words), "  "))

    assert all(len(line) <= 80 for line in lines)
    assert [word for line in wrapped(" ".join(words), "  ") for word in line.split()] == words
