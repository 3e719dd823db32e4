"""What the flight model says about aims: both pages hold, and the shipped sets are clean."""

import re
from pathlib import Path

import pytest

import tactics
from tactics.checks.flight_says import flight_says
from tactics.cli.rule_files import load_rules
from tactics.engine.compile import compile_rules
from tactics.problem import Severity
from tactics.reading.rules import read_rules
from tactics.source import Source

PAGES = Path(tactics.__file__).parent / "pages"


def found_in(text: str) -> list[str]:
    reading = read_rules(Source(name="page.yaml", text=text))
    assert reading.problems == ()
    return [each.code for each in flight_says(compile_rules(reading.value, "matcher"))]


@pytest.mark.parametrize("code", ["cannot-be-played", "flight-argues"])
def test_the_wrong_aim_of_a_page_is_found_and_the_right_one_is_not(code: str) -> None:
    page = (PAGES / f"{code}.md").read_text("utf-8")

    wrong, right = re.findall(r"(?s)```yaml\n(.*?)```", page)

    assert found_in(wrong) == [code]
    assert found_in(right) == []


@pytest.mark.parametrize("name", ["singles-club", "doubles-club", "junior-red", "junior-green"])
def test_every_aim_of_a_shipped_set_can_be_played(name: str) -> None:
    rules = load_rules([name]).reading.value

    problems = flight_says(compile_rules(rules, "matcher"))

    assert [each for each in problems if each.severity is not Severity.INFORMATION] == []
