"""The blank chart: what it offers, and that what is filled in reads back without a problem."""

import io
import zipfile
from xml.etree import ElementTree

import pytest
import python_calamine
from hypothesis import given, settings

from tactics.cli.blank import write_blank
from tactics.cli.main import Exit
from tactics.model.ball import Ball
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Role, Trait, Word
from tactics.reading.chart_writing import columns, write_row
from tactics.reading.charts import read_chart_bytes
from tactics.report.blank_sheet import ROWS, blank_sheet
from tests.strategies import balls

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
GRIP = Trait(
    name="=own, fact", role=Role.FACT, kind=Kind.WORDS, own=True, says="=1+1",
    words=(Word(name="a, b"), Word(name='=say "hi"')),
)  # fmt: skip


def parts(data: bytes) -> dict[str, ElementTree.Element]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {
            name: ElementTree.fromstring(archive.read(name))
            for name in archive.namelist()
            if name.endswith(".xml")
        }


def sheet(data: bytes, name: str) -> list[list[object]]:
    book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
    return book.get_sheet_by_name(name).to_python(skip_empty_area=False)


BLANK = blank_sheet(STANDARD)


def test_the_same_words_give_the_same_file() -> None:
    assert blank_sheet(STANDARD) == BLANK


def test_a_blank_chart_is_a_chart_without_balls() -> None:
    read = read_chart_bytes("blank.xlsx", BLANK, STANDARD)

    assert read.value is not None
    assert read.value.balls == ()
    assert [problem.code for problem in read.problems] == ["empty-chart"]


@given(ball=balls())
@settings(max_examples=10)
def test_a_filled_in_row_is_read_back_as_the_same_ball(ball: Ball) -> None:
    read = read_chart_bytes("b.xlsx", blank_sheet(STANDARD, [write_row(ball, STANDARD)]), STANDARD)

    assert read.problems == ()
    assert read.value is not None
    assert read.value.balls == (ball,)


def test_every_word_of_a_list_may_be_chosen_and_none_is_a_problem() -> None:
    traits = columns(STANDARD)
    longest = max(len(trait.words) for trait in traits)
    rows = [
        [trait.words[row % len(trait.words)].name if trait.words else "" for trait in traits]
        for row in range(longest)
    ]

    read = read_chart_bytes("b.xlsx", blank_sheet(STANDARD, rows), STANDARD)

    assert read.problems == ()
    assert read.value is not None
    assert len(read.value.balls) == longest


def test_each_column_with_words_has_a_list_of_exactly_these_words() -> None:
    root = parts(BLANK)["xl/worksheets/sheet1.xml"]
    lists = sheet(BLANK, "lists")
    found = {each.get("sqref"): each.findtext(f"{_MAIN}formula1") for each in root.iter(
        f"{_MAIN}dataValidation")}  # fmt: skip
    header = sheet(BLANK, "balls")[0]

    assert len(found) == sum(bool(trait.words) for trait in columns(STANDARD) if not trait.derived)
    for index, name in enumerate(header):
        words = [word.name for word in STANDARD.trait(str(name)).words]
        assert [row[index] for row in lists if index < len(row) and row[index]] == words
    assert all(f":{''.join(filter(str.isalpha, at.split(':')[0]))}{ROWS + 1}" in at for at in found)


def test_own_facts_of_a_rule_set_are_there_and_are_never_formulas() -> None:
    words = STANDARD.with_own([GRIP])
    data = blank_sheet(words)
    xml = parts(data)

    assert "=own, fact" in sheet(data, "balls")[0]
    assert ["=own, fact", '=say "hi"'] in [row[:2] for row in sheet(data, "words")]
    assert not [each for root in xml.values() for each in root.iter(f"{_MAIN}f")]


def test_the_page_of_words_explains_every_word_of_every_column() -> None:
    said = {(row[0], row[1]) for row in sheet(BLANK, "words")}

    for trait in columns(STANDARD):
        if not trait.derived:
            assert {(trait.name, word.name) for word in trait.words} <= said


def test_the_paper_sheet_fits_one_page_of_a4_across() -> None:
    root = parts(BLANK)["xl/worksheets/sheet3.xml"]
    setup, fit = root.find(f"{_MAIN}pageSetup"), root.find(f"{_MAIN}sheetPr/{_MAIN}pageSetUpPr")

    assert setup is not None
    assert (setup.get("paperSize"), setup.get("orientation")) == ("9", "landscape")
    assert fit is not None
    assert fit.get("fitToPage") == "1"
    assert setup.get("fitToHeight") in (None, "1")
    text = [str(cell) for row in sheet(BLANK, "on paper") for cell in row]
    assert all(trait.name in text for trait in columns(STANDARD) if trait.quick)


def test_the_header_stays_in_view_and_every_heading_has_a_note() -> None:
    xml = parts(BLANK)
    pane = xml["xl/worksheets/sheet1.xml"].find(f".//{_MAIN}pane")

    assert pane is not None
    assert (pane.get("state"), pane.get("ySplit")) == ("frozen", "1")
    notes = list(xml["xl/comments1.xml"].iter(f"{_MAIN}comment"))
    assert len(notes) == len(sheet(BLANK, "balls")[0])


class Options:
    def __init__(self, blank: str, *rules: str) -> None:
        self.blank, self.rules = blank, list(rules)


def test_a_blank_chart_is_written_once_and_never_over_a_file(
    tmp_path, monkeypatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    assert write_blank(Options("balls.xlsx")) == Exit.FINE
    before = (tmp_path / "balls.xlsx").read_bytes()
    assert write_blank(Options("balls.xlsx")) == Exit.COULD_NOT_RUN
    assert write_blank(Options("balls.ods")) == Exit.COULD_NOT_RUN

    assert (tmp_path / "balls.xlsx").read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == ["balls.xlsx"]
    said = capsys.readouterr()
    assert "then: tactics audit balls.xlsx" in said.out
    assert "may hold balls; name another file" in said.err
    assert "balls.xlsx" in said.err.splitlines()[-1]
