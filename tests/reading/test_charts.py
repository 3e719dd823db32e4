"""Corners of the chart reader that no case file says better."""

import re
from pathlib import Path

import pytest

import tactics
from tactics.model.ball import Ball
from tactics.model.choice import Cause, Outcome
from tactics.model.known import (
    NOT_APPLICABLE,
    NOT_SEEN,
    Interval,
    OneOf,
    Within,
    at_least,
    between,
    number,
    point,
)
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Role, Trait, Word
from tactics.model.verdict import Grade
from tactics.problem import Severity
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_dates import read_date
from tactics.reading.chart_rows import Row, Table
from tactics.reading.chart_writing import header, write_known
from tactics.reading.charts import read_chart, read_chart_bytes
from tactics.reading.table import read_table
from tactics.source import Source, Span

PAGES = Path(tactics.__file__).parent / "pages"


def read(text: str):
    return read_chart(Source(name="chart.csv", text=text), STANDARD)


def one_ball(text: str) -> Ball:
    chart = read(text).value
    assert chart is not None
    (ball,) = chart.balls
    return ball


def cell(column: str, text: str):
    """What the reader makes of one cell of a fact or a part."""
    ball = one_ball(f'{column}\n"{text}"\n')
    return {**ball.situation.as_dict(), **ball.choice.as_dict()}.get(STANDARD.trait(column).folded)


@pytest.mark.parametrize("text", ["?", "-", "not seen", "Not_Seen", "\N{EN DASH}"])
def test_a_fact_that_was_not_seen_is_not_listed(text: str) -> None:
    assert cell("balance", text) is None
    assert one_ball(f"balance,intent\n{text},build\n").situation.get("balance") is NOT_SEEN


@pytest.mark.parametrize("text", ["n/a", "N/A", "n.a.", "not applicable", "not-applicable"])
@pytest.mark.parametrize("column", ["incoming direction", "contact height"])
def test_a_fact_that_does_not_exist_is_not_one_that_was_missed(column: str, text: str) -> None:
    assert cell(column, text) is NOT_APPLICABLE


@pytest.mark.parametrize(
    ("column", "text", "known"),
    [
        ("court depth", "3 ft", number(0.9144)),
        ("inside line", "60 cm", number(0.6)),
        ("court width", "+1.2", number(1.2)),
        ("court width", "-1,2 m", number(-1.2)),
        ("court width", "\N{MINUS SIGN}1.2 m", number(-1.2)),
        ("incoming pace", "45 mph", number(72.42048)),
        ("height over net", "at least 1.2 m", Within((at_least(1.2),))),
        ("height over net", "1 to 1.4 m", Within((between(1.0, 1.4),))),
        ("height over net", "3 or 4 ft", Within((point(0.9144), point(1.2192)))),
        ("incoming pace", "40 km/h", number(40.0)),
        ("incoming pace", "10 / 20 m/s", Within((point(36.0), point(72.0)))),
        ("body height", "waist or chest", Within((Interval((0.52, 0), (0.8, 0)),))),
        ("balance", "set/moving", OneOf(frozenset({"set", "moving"}))),
        ("direction", "to the T", OneOf(frozenset({"T"}))),
    ],
)  # fmt: skip
def test_a_cell_says_what_a_coach_means(column: str, text: str, known) -> None:
    assert cell(column, text) == known


def test_one_piece_that_was_not_seen_leaves_everything_open() -> None:
    assert cell("court depth", "behind /") is None
    assert cell("balance", "set / ?") is None


def test_a_question_mark_about_a_restriction_is_not_an_empty_cell() -> None:
    column = "restricted today"
    assert cell(column, "?") == OneOf(frozenset({"no", "yes"}))
    assert Situation.of({}) == one_ball(f"{column},intent\n,build\n").situation


def test_the_coach_keeps_cause_mark_and_words_on_the_outcome() -> None:
    ball = one_ball("intent,cause,mark,landed,point won\nbuild,decide,doubtful,net,lost\n")
    assert (ball.cause, ball.mark) == (Cause.DECIDE, Grade.DOUBTFUL)
    assert ball.outcome == Outcome(landed="net", point_won="no")


def test_nothing_is_filled_down_from_the_row_above() -> None:
    chart = read("own hand,stage,intent\nleft,green,build\n,,build\n").value
    assert chart is not None
    assert chart.balls[1].situation == Situation.of({})


def test_derived_facts_and_parts_are_read_where_they_are_charted() -> None:
    ball = one_ball("hands,finds\nopposite,backhand\n")
    assert ball.situation.get("hands") == OneOf(frozenset({"opposite"}))
    assert ball.choice.get("finds") == OneOf(frozenset({"backhand"}))


def test_facts_of_a_rule_set_are_columns_too() -> None:
    own = Trait(
        name="returner shift", role=Role.FACT, kind=Kind.WORDS,
        words=(Word(name="none"), Word(name="to the T")),
    )  # fmt: skip
    words = STANDARD.with_own([own])
    source = Source(name="c", text="Returner_Shift,intent\nto the t,build\n")
    chart = read_chart(source, words).value
    assert chart is not None
    assert chart.balls[0].situation.get("returner shift") == OneOf(frozenset({"to the T"}))
    assert "returner shift" in header(words)


def test_the_quick_form_comes_first_and_the_note_last() -> None:
    names = header(STANDARD)
    quick = [trait.name for trait in STANDARD.traits if trait.quick]
    assert set(quick) <= set(names[: len(quick) + 5])
    assert names[:2] == ("date", "player")
    assert names[-1] == "note"
    assert len(names) == len(set(names)) == len(STANDARD.traits)


@pytest.mark.parametrize(
    ("text", "iso"),
    [
        ("2026-03-14", "2026-03-14"),
        ("2026/3/4", "2026-03-04"),
        ("4.3.2026", "2026-03-04"),
        ("4. 3. 2026", "2026-03-04"),
        ("14-03-2026", "2026-03-14"),
        ("2026-03-14T18:30", "2026-03-14"),
        ("03/04/2026", None),
        ("03/14/2026", None),
        ("2026-13-01", None),
        ("2026-03/14", None),
        ("14/3", None),
        ("45000", None),
    ],
)
def test_a_date_is_read_in_one_way_or_not_at_all(text: str, iso: str | None) -> None:
    assert read_date(text) == iso


def test_a_ball_without_a_readable_date_is_still_a_ball() -> None:
    found = read("date,game situation,intent\n03/04/2026,serving,build\n")
    assert found.value is not None
    assert found.value.balls[0].date == ""
    assert [each.severity for each in found.problems] == [Severity.WARNING]


def test_a_number_in_the_heading_is_the_unit_of_bare_numbers_only() -> None:
    ball = one_ball("Contact-Height [in],intent\n30 to 36,build\n")
    assert ball.situation.get("contact height") == Within((between(0.762, 0.9144),))
    ball = one_ball("contact height (in),intent\n1 m,build\n")
    assert ball.situation.get("contact height") == number(1.0)


def test_an_ordinary_unit_in_a_heading_must_suit_the_fact() -> None:
    found = read("contact height (mph),intent,game situation\n3,build,serving\n")
    assert [each.code for each in found.problems] == [ChartCode.UNKNOWN_COLUMN]


def test_a_table_need_not_come_from_a_text() -> None:
    def place(row: Row, index: int) -> Span:
        return Span(file="book.xlsx, sheet 1", line=row.number, column=index + 1)

    table = Table(
        name="book.xlsx",
        header=Row(1, ("intent", "game situation"), ""),
        rows=(Row(2, ("build", "serving"), ""), Row(4, ("bild", "serving"), "bild serving")),
        start=lambda row: place(row, 0),
        place=place,
    )
    found = read_table(table, STANDARD)
    assert found.value is not None
    assert len(found.value.balls) == len(found.value.left_out) == 1
    assert found.problems[0].span == place(table.rows[1], 0)


def test_many_bad_texts_in_a_column_are_all_named() -> None:
    count = 700
    rows = "".join(f"oddity {number},serving\n" for number in range(count))
    found = read("intent,game situation\n" + rows)
    assert found.value is not None
    assert len(found.value.left_out) == len(found.problems) == count


@pytest.mark.parametrize(
    "text",
    ['"a"b,"c\n' * 3000, '"a\n"",no\n' * 3000, '"a","b\n' * 3000, '"' * 30_001],
    ids=["stray", "pairs", "chain", "only quotes"],
)
def test_broken_quotes_lose_no_line(text: str) -> None:
    found = read("intent,balance\n" + text)
    assert found.value is not None
    lines = sum(len(row.text.splitlines()) for row in found.value.left_out)
    assert lines == len(text.splitlines())


def test_a_header_with_an_open_quote_is_the_only_problem() -> None:
    found = read('intent,"balance,game situation\nbuild,set,serving\n')
    assert found.value is None
    assert [each.code for each in found.problems] == [ChartCode.OPEN_QUOTE]


def test_words_are_written_so_that_a_coach_would_type_them() -> None:
    trait = STANDARD.trait("court depth")
    assert write_known(Within((trait.words[5].interval,)), trait) == "behind"
    assert write_known(Within((at_least(12.9),)), trait) == "behind / far behind"
    assert write_known(number(12.5), trait) == "12.5 m"
    assert cell("court depth", "12 to 13 m / behind") == Within((Interval((12.0, 0), (14.9, 0)),))
    written = write_known(Within((Interval((12.0, 0), (14.9, 0)),)), trait)
    assert written == "12 m to 12.9 m / behind"


def as_bytes(code: str, block: str) -> bytes:
    """A page draws what cannot be typed: ␀ for NUL, an accent for a letter in another encoding."""
    encoding = "cp1252" if code == ChartCode.CHART_ENCODING else "utf-8"
    return block.replace("\N{SYMBOL FOR NULL}", "\0").encode(encoding)


@pytest.mark.parametrize("code", list(ChartCode))
def test_the_page_of_a_code_shows_it_and_its_cure(code: ChartCode) -> None:
    page = (PAGES / f"{code}.md").read_text(encoding="utf-8")
    headings = re.findall(r"^## (.+)$", page, re.MULTILINE)
    assert headings == ["What it means", "Why it matters", "Wrong", "Right"]
    wrong, right = re.findall(r"^```csv\n(.*?)^```$", page, re.MULTILINE | re.DOTALL)
    found = read_chart_bytes("page.csv", as_bytes(code, wrong), STANDARD)
    assert {each.code for each in found.problems} == {code}
    cured = read_chart_bytes("page.csv", as_bytes("", right), STANDARD)
    assert cured.problems == ()
    assert cured.value is not None
    assert len(cured.value.balls) == 1
