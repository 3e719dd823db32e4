"""What advice says about rules that do not get their way, and what is aimed at."""

import pytest

from tactics.engine.advise import Advice, advise
from tactics.engine.compile import compile_rules
from tactics.model.known import number, word
from tactics.model.situation import Situation
from tactics.report.advice import open_by_fact, set_aside_lines, standard_lines
from tactics.report.aims import aims
from tests.conftest import Read

RULES = """
rule set: Test
precedence: [feasibility, pattern]
rules:
  low:
    title: Low
    concern: feasibility
    strength: must
    advise: {height over net: at most 0.5 m}
    aim: {height over net: 0.4 m, pace: 60 %, depth: 5 m}
    because: So.
    cue: Low
  high:
    title: High
    concern: feasibility
    strength: should
    advise: {height over net: at least 1 m, direction: not straight}
    aim: {height over net: 2 m}
    because: So.
    cue: High
  deep:
    title: Deep
    concern: pattern
    strength: should
    when: {balance: set}
    advise: {depth: deep, direction: crosscourt, pace: [60 % to 70 %]}
    aim: {depth: 10 m}
    because: So.
    cue: Deep
"""


@pytest.fixture
def advice(read: Read) -> Advice:
    """Return what the rules say to a player who is set."""
    rules = read(RULES).value
    assert rules is not None
    return advise(compile_rules(rules), Situation.of({"balance": word("set")}))


def test_a_should_that_no_must_keeping_answer_can_keep_yields_and_is_listed(
    advice: Advice,
) -> None:
    assert set_aside_lines(advice) == (
        "  - deep is overruled on direction: feasibility comes before pattern",
        "  - high yields on height over net: no answer that keeps low could keep it, and",
        "    a must goes before a should",
    )


def test_an_aim_lies_inside_the_standard_and_comes_from_who_decides(advice: Advice) -> None:
    found = aims(advice)

    assert found["height over net"] == number(0.4)
    assert found["depth"] == number(10)
    assert found["pace"] == number(60)


def test_standards_are_listed_in_the_order_of_the_vocabulary(advice: Advice) -> None:
    assert standard_lines(advice) == (
        "  direction        anything but straight",
        "  depth            9.1 to 10.9 m (deep); aim 10 m",
        "  height over net  at most 0.5 m; aim 0.4 m",
        "  pace             60 to 70 %; aim 60 %",
    )


def test_a_fact_not_seen_is_named_with_the_rules_that_hang_on_it(read: Read) -> None:
    rules = read(RULES).value
    assert rules is not None
    advisor = compile_rules(rules)

    (open_,) = open_by_fact(advise(advisor, Situation()))

    assert open_[0] == "balance"
    assert [advisor.program.ready[place].rule.id for place in open_[1]] == ["deep"]
