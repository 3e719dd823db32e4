"""The pages of the codes for spreadsheets and files of columns."""

import re
from pathlib import Path

import pytest

import tactics
from tactics.model.standard import STANDARD
from tactics.reading.charts import read_chart_bytes
from tactics.reading.column_map import read_column_map
from tactics.reading.sheet_codes import SheetCode
from tactics.source import Source

PAGES = Path(tactics.__file__).parent / "pages"


def blocks(code: str, kind: str) -> list[str]:
    text = (PAGES / f"{code}.md").read_text("utf-8")
    return re.findall(rf"(?s)```{kind}\n(.*?)```", text)


@pytest.mark.parametrize("code", SheetCode, ids=str)
def test_a_page_has_the_four_headings(code: SheetCode) -> None:
    text = (PAGES / f"{code}.md").read_text("utf-8")

    assert text.startswith(f"# {code}\n")
    assert re.findall(r"(?m)^## (.+)$", text) == [
        "What it means", "Why it matters", "Wrong", "Right",
    ]  # fmt: skip
    assert text.count("```") == 4


def test_the_headings_of_the_wrong_chart_are_proposed_and_those_of_the_right_one_known() -> None:
    wrong, right = blocks(SheetCode.COLUMNS_PROPOSED, "csv")

    found = [
        problem.code for problem in read_chart_bytes("c.csv", wrong.encode(), STANDARD).problems
    ]
    assert SheetCode.COLUMNS_PROPOSED in found
    assert read_chart_bytes("c.csv", right.encode(), STANDARD).problems == ()


def test_the_wrong_file_of_columns_earns_its_code_and_the_right_one_none() -> None:
    wrong, right = blocks(SheetCode.NOT_A_COLUMN, "yaml")

    found = read_column_map(Source(name="columns.yaml", text=wrong), STANDARD).problems
    assert [problem.code for problem in found] == [SheetCode.NOT_A_COLUMN]
    assert read_column_map(Source(name="columns.yaml", text=right), STANDARD).problems == ()
