"""A coach's own headings and words: the file that names them, what it does, and its proposal."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.model.ball import Ball, Chart
from tactics.model.known import OneOf, Within, point, word
from tactics.model.standard import STANDARD
from tactics.problem import Reading
from tactics.reading.charts import read_chart, read_chart_bytes
from tactics.reading.column_map import read_column_map
from tactics.reading.own_names import ColumnMap
from tactics.reading.sheet_codes import SheetCode
from tactics.report.problems import render_problems
from tactics.source import Source
from tests.golden import CASES, Golden
from tests.sheets.books import xlsx

FILES = sorted((CASES / "columns").glob("*.yaml"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_file_of_columns_earns_exactly_this_text(path: Path, golden: Golden) -> None:
    source = Source(name=path.name, text=path.read_text("utf-8"))
    read = read_column_map(source, STANDARD)
    columns = {} if read.value is None else dict(read.value.columns)
    words = {} if read.value is None else {k: dict(v) for k, v in read.value.words.items()}

    told = f"{render_problems(read.problems, [source])}columns: {columns}\nwords: {words}\n"

    golden(f"columns/{path.stem}.txt", told)


def own(text: str) -> ColumnMap:
    read = read_column_map(Source(name="columns.yaml", text=text), STANDARD)
    assert read.problems == ()
    assert read.value is not None
    return read.value


OWN = own(
    "columns:\n  Shot: intent\n  Height (cm): contact height (cm)\n  depth: court depth\n"
    "words:\n  intent: {attack: finish, calm: buy time}\n"
)
HEAD = ["game situation", "Shot", "height (CM)", "depth"]
ROWS = [
    ["baseline rally", "Attack", "110", "behind"],
    ["baseline rally", "calm", "", "behind"],
    ["baseline rally", "build", "90", "on baseline"],
]


def check(chart: Chart | None) -> None:
    assert chart is not None
    assert [ball.choice.get("intent") for ball in chart.balls] == [
        word("finish"), word("buy time"), word("build"),
    ]  # fmt: skip
    first: Ball = chart.balls[0]
    assert first.situation.get("contact height") == Within((point(1.1),))
    assert first.situation.get("court depth") == STANDARD.trait("court depth").value_of("behind")
    assert first.choice.as_dict().keys() == {"intent"}


def test_own_headings_and_words_are_read_from_a_text() -> None:
    text = "\n".join(",".join(row) for row in [HEAD, *ROWS])
    read = read_chart(Source(name="c.csv", text=text), STANDARD, OWN)

    assert read.problems == ()
    check(read.value)


def test_own_headings_and_words_are_read_from_a_spreadsheet() -> None:
    read = read_chart_bytes("c.xlsx", xlsx(balls=[HEAD, *ROWS]), STANDARD, OWN)

    assert read.problems == ()
    check(read.value)


def proposed(read: Reading[Chart]) -> str:
    (problem,) = [each for each in read.problems if each.code == SheetCode.COLUMNS_PROPOSED]
    return "\n".join(problem.paste) + "\n"


def test_the_proposal_is_a_file_that_makes_the_headings_known() -> None:
    text = (
        "day;Player's name;phase;Shot;direction of the ball;Height over net (in cm);feet: how?\n"
        "2026-03-14;Wren;baseline rally;build;crosscourt;110;set\n"
        "2026-03-14;Wren;serving;finish;straight;90;moving\n"
    )
    source = Source(name="c.csv", text=text)

    lines = proposed(read_chart(source, STANDARD))
    again = read_chart(source, STANDARD, own(lines))

    assert lines.splitlines()[0] == "columns:"
    assert again.value is not None
    assert again.value.unknown_columns == ()
    assert '"feet: how?": balance' in lines
    assert again.value.balls[0].choice.get("height over net") == Within((point(1.1),))
    assert again.value.balls[0].player == "Wren"
    assert again.value.balls[1].choice.get("intent") == OneOf(frozenset({"finish"}))


@pytest.mark.parametrize(
    ("heading", "line"),
    [
        pytest.param("Name", "  Name: player\n", id="name"),
        pytest.param("Pupil", "  Pupil: player\n", id="pupil"),
        pytest.param("Remarks", "  Remarks: note\n", id="remarks"),
        pytest.param("Drill name", "", id="the-name-of-something-else"),
    ],
)
def test_headings_that_many_charts_have_are_known_for_what_they_are(
    heading: str, line: str
) -> None:
    text = f"Day,{heading},game situation\n2026-03-14,Wren,serving\n"

    lines = proposed(read_chart(Source(name="c.csv", text=text), STANDARD))

    assert lines == f"columns:\n  Day: date\n{line}"


@given(heads=st.lists(st.text(max_size=25), min_size=1, max_size=6), cell=st.sampled_from(
    ["set", "build", "2026-03-14", "deep", "x", "1.1", "yes"]))  # fmt: skip
@settings(max_examples=40)
def test_whatever_is_proposed_can_be_read_as_a_file_of_columns(heads: list[str], cell: str) -> None:
    close = ["Shot intent", "balance of the player", "depth it bounced"]
    data = xlsx(balls=[[*close, *heads], *[[cell] * (len(heads) + 3)] * 2])
    read = read_chart_bytes("c.xlsx", data, STANDARD)

    found = [each for each in read.problems if each.code == SheetCode.COLUMNS_PROPOSED]

    for problem in found:
        assert own("\n".join(problem.paste) + "\n").columns


def test_one_heading_misspelt_has_its_own_hint_and_no_file_is_proposed() -> None:
    read = read_chart(
        Source(name="c.csv", text="game situation,intent,balence\nserving,build,set\n"), STANDARD
    )

    assert [each.code for each in read.problems] == ["unknown-column"]
