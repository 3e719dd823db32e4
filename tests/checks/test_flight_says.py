"""What the flight model says about aims: both pages hold, and the shipped sets are clean."""

import re
from pathlib import Path

import pytest

import tactics
from tactics.checks.flight_prefers import flight_prefers
from tactics.checks.flight_says import flight_says
from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.problem import Problem, Severity
from tactics.reading.rules import read_rules
from tactics.source import Source

PAGES = Path(tactics.__file__).parent / "pages"


def advisor_of(text: str) -> Advisor:
    reading = read_rules(Source(name="page.yaml", text=text))
    assert reading.problems == ()
    return compile_rules(reading.value, "matcher")


def preferred(advisor: Advisor) -> tuple[Problem, ...]:
    return tuple(look.problem for look in flight_prefers(advisor) if look.problem is not None)


CHECKS = {
    "cannot-be-played": flight_says,
    "flight-argues": flight_says,
    "flight-prefers": preferred,
}


@pytest.mark.parametrize("code", CHECKS)
def test_the_wrong_aim_of_a_page_is_found_and_the_right_one_is_not(code: str) -> None:
    page = (PAGES / f"{code}.md").read_text("utf-8")

    wrong, right = re.findall(r"(?s)```yaml\n(.*?)```", page)

    assert [each.code for each in CHECKS[code](advisor_of(wrong))] == [code]
    assert [each.code for each in CHECKS[code](advisor_of(right))] == []


@pytest.mark.parametrize("name", ["singles-club", "doubles-club", "junior-red", "junior-green"])
def test_every_aim_of_a_shipped_set_can_be_played(name: str) -> None:
    rules = load_rules([name]).reading.value

    problems = flight_says(compile_rules(rules, "matcher"))

    assert [each for each in problems if each.severity is not Severity.INFORMATION] == []


def test_every_aim_asked_about_is_counted_and_nothing_the_rules_keep_is_preferred() -> None:
    page = (PAGES / "flight-prefers.md").read_text("utf-8")
    (wrong, _) = re.findall(r"(?s)```yaml\n(.*?)```", page)

    looks = list(flight_prefers(advisor_of(wrong)))

    assert [(look.done, look.total) for look in looks] == [(1, 1)]
    problem = looks[0].problem
    assert problem is not None
    assert problem.severity is Severity.INFORMATION
    assert "an estimate" in problem.sentence
