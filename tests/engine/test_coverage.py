"""What a rule set does not speak about is counted apart, and what was left open is said."""

import pytest

from tactics.engine.audit import audit
from tactics.engine.coverage import as_covered, is_covered, left_open
from tactics.model.audit import Audit
from tactics.model.ball import Ball, Chart
from tactics.model.verdict import Grade
from tactics.source import Span
from tests.engine.small_sets import advisor, choice, rules, situation, value

APPLIES_TO = """
    applies to: {format: singles, stage: [green, full court], stature: at least 1.5 m}
"""
ACROSS = """
    across: {concern: pattern, strength: should, when: {stage: [green, full court]},
             advise: {direction: crosscourt}}
"""


@pytest.mark.parametrize(
    ("facts", "covered"),
    [
        ("format: singles; stage: full court", True),
        ("format: doubles; stage: full court", False),
        ("format: singles; stage: red", False),
        ("format: not seen", True),
        ("stage: red or green", True),
        ("stature: 1.4 m", False),
        ("stature: 1.4 m to 1.6 m", True),
        ("stature: 1.2 m or 1.6 m", True),
        ("stage: not applicable", False),
    ],
)
def test_a_ball_is_covered_where_it_can_lie_inside(facts: str, covered: bool) -> None:
    assert is_covered(rules(ACROSS, APPLIES_TO), situation(facts)) is covered


def test_every_ball_is_covered_by_a_set_that_names_no_limits() -> None:
    assert is_covered(rules(ACROSS), situation("format: doubles; stage: red"))


def test_a_fact_left_open_is_taken_as_what_the_set_applies_to() -> None:
    club = rules(ACROSS, APPLIES_TO)

    taken = as_covered(club, situation("format: singles"))

    assert taken.get("stage") == value("stage", "green or full court")
    assert left_open(club, situation("format: singles")) == ("stage", "stature")


def test_a_fact_that_was_charted_is_left_as_it_is() -> None:
    whole = situation("format: singles; stage: red or green; stature: 1.7 m")

    assert as_covered(rules(ACROSS, APPLIES_TO), whole) == whole


def _audit(*facts: str) -> Audit:
    balls = tuple(
        Ball(
            situation=situation(each),
            choice=choice("direction: straight"),
            span=Span(file="chart", line=line),
        )
        for line, each in enumerate(facts, start=2)
    )
    return audit([Chart(name="chart", balls=balls)], advisor(ACROSS, APPLIES_TO))


def test_a_ball_outside_is_not_judged_and_counted_apart() -> None:
    result = _audit("format: doubles", "format: singles")

    assert [ball.span.line for ball in result.not_covered] == [2]
    assert [each.ball.span.line for each in result.judged] == [3]


def test_a_ball_that_left_the_limits_open_is_judged_as_if_inside() -> None:
    (judged,) = _audit("format: singles").judged

    assert judged.verdict.grade is Grade.DOUBTFUL


def test_what_was_assumed_is_counted_by_fact() -> None:
    result = _audit("format: singles", "format: singles; stature: 1.7 m", "format: doubles")

    assert result.assumed == (("stage", 2), ("stature", 1))
