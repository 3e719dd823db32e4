"""Corners of reading YAML as text: what no case file can hold, and the places of words."""

import os
from itertools import pairwise

import pytest
import yaml

from tactics.problem import Problem, Reading
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.decoding import decode
from tactics.reading.rules import read_rules
from tactics.reading.yaml_text import Mapping, Node, Scalar, Sequence, read_yaml, words_of
from tactics.source import Source
from tests.reading.rule_texts import FULL


def read(text: str) -> Reading[Node]:
    return read_yaml(Source(name="club.yaml", text=text))


def only(problems: tuple[Problem, ...]) -> Problem:
    (problem,) = problems
    return problem


# --- words stay words -----------------------------------------------------------------------


@pytest.mark.parametrize(
    "written", ["6:4", "40:15", "no", "on", "off", "Yes", "~", "null", "017", "1e3", "2026-03-14",
                ".inf", "0x1F", "1_000", "=", "true"]
)  # fmt: skip
def test_a_word_is_never_guessed_to_be_something_else(written: str) -> None:
    root = read(f"score: {written}\n").value

    assert root is not None
    assert [word.text for word in words_of(root)] == [written]


def test_every_word_has_its_place() -> None:
    root = read("a name: [one, 'two  words']\nother:\n").value

    assert isinstance(root, Mapping)
    (key, value), (_, empty) = root.pairs
    assert isinstance(value, Sequence)
    assert (key.span.line, key.span.column, key.span.width) == (1, 1, 6)
    assert (value.span.column, value.span.width) == (9, 19)
    assert [(word.text, word.span.column, word.span.width) for word in words_of(value)] == [
        ("one", 10, 3),
        ("two  words", 15, 12),
    ]
    assert isinstance(empty, Scalar)
    assert (empty.text, empty.span.line, empty.span.column) == ("", 2, 6)


def test_a_text_over_several_lines_has_its_place_on_the_first() -> None:
    root = read("note: one\n  two\nmore: |\n  three\n").value

    assert root is not None
    places = [(word.text, word.span.width, word.is_whole) for word in words_of(root)]
    assert places == [("one two", 3, False), ("three\n", 1, False)]


# --- too much -------------------------------------------------------------------------------


def test_a_file_of_ten_megabytes_is_not_even_looked_at() -> None:
    decoded = decode("club.yaml", b"rules: x\n" * 1_200_000)

    assert decoded.value is None
    assert only(decoded.problems).code == Code.FILE_TOO_LARGE
    assert "larger than 1.0 MB" in only(decoded.problems).sentence


def test_a_text_of_ten_megabytes_is_not_looked_at_either() -> None:
    assert only(read("rules: x\n" * 1_200_000).problems).code == Code.FILE_TOO_LARGE


@pytest.mark.parametrize(
    "text",
    [
        "a: " + "[" * 1000,
        "a: " + "[" * 1000 + "]" * 1000,
        "a: " + "{b: " * 1000 + "c" + "}" * 1000,
        "\n".join(" " * level + "a:" for level in range(1000)),
        "\n".join("  " * level + "- - a:" for level in range(500)),
        "- " * 1000 + "a",
    ],
    ids=["open brackets", "brackets", "braces", "lines", "lists", "hyphens"],
)
def test_a_thousand_levels_are_too_deep(text: str) -> None:
    reading = read(text)

    assert reading.value is None
    assert only(reading.problems).code == Code.TOO_DEEP


def test_shortcuts_are_refused_before_they_multiply() -> None:
    names = [f"n{number}" for number in range(60)]
    lines = [f"{names[0]}: &{names[0]} [x, x, x, x, x, x, x, x, x, x]"]
    for below, name in pairwise(names):
        lines.append(f"{name}: &{name} [{', '.join([f'*{below}'] * 10)}]")

    reading = read("\n".join(lines))

    assert reading.value is None
    assert only(reading.problems).code == Code.SHORTCUT


def test_a_file_of_bytes_is_no_rule_file() -> None:
    data = os.urandom(4000) + b"\0"

    decoded = decode("club.yaml", data)

    assert decoded.value is None
    assert only(decoded.problems).code in (Code.NOT_TEXT, Code.NOT_UTF_8)


# --- encodings ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32"]
)
def test_a_rule_file_may_come_in_any_unicode_encoding(encoding: str) -> None:
    decoded = decode("club.yaml", FULL.encode(encoding))

    assert decoded.problems == ()
    assert decoded.value == Source(name="club.yaml", text=FULL)


def test_a_letter_that_is_not_utf_8_is_shown_with_its_place() -> None:
    decoded = decode("club.yaml", "rule set: A\nauthor: José\n".encode("latin-1"))

    problem = only(decoded.problems)
    assert problem.code == Code.NOT_UTF_8
    assert (problem.span.line, problem.span.column) == (2, 12)


def test_a_packed_file_is_named_as_one() -> None:
    problem = only(decode("club.yaml", b"PK\x03\x04\0\0" + bytes(50)).problems)

    assert problem.code == Code.NOT_TEXT
    assert "spreadsheet" in problem.hint


# --- reading on -----------------------------------------------------------------------------


def test_what_has_one_repair_does_not_hide_what_comes_behind_it() -> None:
    reading = read("title: Low: lift it\ncue: 'Don't'\nnote: @home\nwhen: {a: b c: d\n")

    assert [problem.code for problem in reading.problems] == [
        Code.COLON_IN_TEXT,
        Code.TEXT_AFTER_QUOTE,
        Code.QUOTES_NEEDED,
        Code.OPEN_BRACKET,
        Code.COLON_IN_TEXT,
    ]
    assert reading.value is not None
    assert [word.text for word in words_of(reading.value)] == [
        "Low: lift it", "Don't", "@home", "b c: d",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "code", "repaired"),
    [
        ("title: Low: lift it\n", Code.COLON_IN_TEXT, '"Low: lift it"'),
        ("a: {title: Low: lift it, b: c}\n", Code.COLON_IN_TEXT, '"Low: lift it"'),
        ('a: "Low\nb: c\n', Code.MISSING_QUOTE, '"Low"'),
        ('a: "Low\nb: "c"\n', Code.MISSING_QUOTE, '"Low"'),
        ("a: 'Low\nb: c\n", Code.MISSING_QUOTE, "'Low'"),
        ('a: "Good" balls\n', Code.TEXT_AFTER_QUOTE, "'\"Good\" balls'"),
        ("a: *Low* balls\n", Code.QUOTES_NEEDED, '"*Low* balls"'),
        ("a: {b: >= 3 m, c: d}\n", Code.QUOTES_NEEDED, "at least 3 m"),
        ("a: %x\n", Code.QUOTES_NEEDED, '"%x"'),
        ("a: [b, c\nd: e\n", Code.OPEN_BRACKET, "[b, c]"),
        ("a: {b: [c, d}\n", Code.OPEN_BRACKET, "]}"),
        ("a: [b, c}\n", Code.OPEN_BRACKET, "]"),
        ("a: b\ntitle Low\nc: d\n", Code.MISSING_COLON, "title:"),
        ("a: b\ntitle:Low\nc: d\n", Code.MISSING_COLON, ": "),
        ("a: {wing: forehand balance: set}\n", Code.MISSING_COMMA, ", "),
        ("x:\n  title: X\n   concern: y\n", Code.INDENTATION, "  "),
        ("a:\n    b: c\n  d: e\n", Code.INDENTATION, "    "),
        ("when {balance: set}\n", Code.MISSING_COLON, ": {"),
        ("- balance {set: x}\n", Code.MISSING_COLON, ": {"),
        ("a: {b: c, stage [red]}\n", Code.MISSING_COLON, "stage:"),
        ("a: {balance set, wing: forehand}\n", Code.MISSING_COLON, "balance:"),
        ("a: {b: [c] d: e}\n", Code.MISSING_COMMA, "],"),
        ("a: b, c]\n", Code.OPEN_BRACKET, "[b, c]"),
        (
            "when: balance: set, wing: forehand}\n",
            Code.OPEN_BRACKET,
            "{balance: set, wing: forehand}",
        ),
        ("a: {b: c, d]}\n", Code.OPEN_BRACKET, "[c, d"),
        ("- {a: b: c}, d: e}\n", Code.OPEN_BRACKET, "{b"),
        ("a: [b: c}, {d: e}]\n", Code.OPEN_BRACKET, "{b: c"),
        ('a: "\\d"\n', Code.BACKSLASH, '"\\\\d"'),
    ],
)
def test_a_slip_in_the_layout_is_named_with_its_repair(
    text: str, code: Code, repaired: str
) -> None:
    problem = read(text).problems[0]

    assert (problem.code, problem.replacement) == (code, repaired)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("a: b\n---\nc: d\n", Code.SECOND_DOCUMENT),
        ("a: &x b\n", Code.SHORTCUT),
        ("a: *x\n", Code.SHORTCUT),
        ("a: !x b\n", Code.TAG),
        ("<<: {a: b}\n", Code.MERGE_KEY),
        ("[a]: b\n", Code.NAME_WANTED),
        ("a: - b\n", Code.LAYOUT),
        ("a: ]\n", Code.LAYOUT),
        ("a: [b, , c]\n", Code.LAYOUT),
        (": b\n", Code.LAYOUT),
        ("a: b\n- c\n", Code.INDENTATION),
        ("- a\nb: c\n", Code.INDENTATION),
        ("title Low\nc: d\n", Code.MISSING_COLON),
        ("note: one\n  and two: three\n", Code.COLON_IN_TEXT),
        ('a: "\\x1b[31m"\n', Code.STRANGE_CHARACTER),
        ("a: b\x07\n", Code.STRANGE_CHARACTER),
        ("a\u200b: b\n", Code.STRANGE_CHARACTER),
        ("a:\n\tb: c\n", Code.TAB),
        ("a:\n\u00a0 b: c\n", Code.TAB),
        ("a:\tb\n", Code.TAB),
        ("# only this\n", Code.EMPTY_FILE),
        (" \n", Code.EMPTY_FILE),
    ],
)
def test_a_slip_in_the_layout_is_named(text: str, code: Code) -> None:
    assert read(text).problems[0].code == code


@pytest.mark.parametrize("text", ["a: b\t# c\n", "# a\tb\na: b\n", "a: b\n\t\nc: d\n", "a: b\t\n"])
def test_a_tab_that_changes_nothing_is_no_problem(text: str) -> None:
    assert read(text).problems == ()


# --- with and without the fast parser -------------------------------------------------------

SLIPS = (
    FULL,
    "a: Low: b\n", 'a: "Low\nb: "c"\n', "a: 'don't'\n", "a: [b, c\nd: e\n", "a: {b: [c}\n",
    "a: b\ntitle Low\nc: d\n", "title: X\n   concern: y\n", "a:\n    b: c\n  d: e\n", "a: - b\n",
    "a: *Low* b\n", "a: !x b\n", "a: \"\\d\"\n", "a: [b, , c]\n", "a: > 3 m\n", "a: ]\n", "a: @x\n",
)  # fmt: skip


@pytest.mark.parametrize("text", SLIPS)
def test_the_slow_parser_says_the_same(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    source = Source(name="club.yaml", text=text)
    fast = read_yaml(source), read_rules(source)

    monkeypatch.setattr(yaml_text, "_LOADER", yaml.SafeLoader)

    assert (read_yaml(source), read_rules(source)) == fast
