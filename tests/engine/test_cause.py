"""What a bad ball is put down to: the coach's word first, a proposal where there is none."""

import pytest

from tactics.engine.audit import judge_ball
from tactics.engine.cause import cause_of
from tactics.model.ball import Ball
from tactics.model.choice import Cause, Outcome
from tactics.model.verdict import Grade
from tactics.source import Span
from tests.engine.small_sets import advisor, choice, situation

CLUB = advisor("""
    across: {concern: pattern, strength: should, advise: {direction: crosscourt}}
    chase-it: {concern: court position, strength: must, advise: {response: played}}
    go-home: {concern: court position, strength: should, advise: {afterwards: recover}}
""")
MISSED = Outcome(landed="net", as_intended="no")


def _ball(
    chosen: str, facts: str = "", outcome: Outcome = MISSED, cause: Cause | None = None
) -> Ball:
    return Ball(
        situation=situation(facts),
        choice=choice(chosen),
        outcome=outcome,
        cause=cause,
        span=Span(file="chart", line=2),
    )


def _cause(ball: Ball) -> tuple[Cause | None, bool]:
    return cause_of(ball, judge_ball(CLUB, ball))


def test_the_coach_has_the_last_word() -> None:
    ball = _ball("direction: straight", "time: late", cause=Cause.READ)

    assert _cause(ball) == (Cause.READ, False)


def test_a_coach_may_name_a_cause_for_a_good_choice_too() -> None:
    assert _cause(_ball("direction: crosscourt", cause=Cause.PHYSICAL)) == (Cause.PHYSICAL, False)


def test_a_bad_choice_with_time_and_balance_was_decided_badly() -> None:
    ball = _ball("direction: straight", "time: plenty; balance: set; steps to the ball: 2")

    assert _cause(ball) == (Cause.DECIDE, True)


@pytest.mark.parametrize(
    "facts",
    [
        "time: late",
        "time: emergency",
        "time: late or emergency",
        "balance: stretched",
        "balance: jammed",
        "steps to the ball: 5",
        "steps to the ball: far",
    ],
)
def test_a_bad_choice_made_late_or_far_away_is_charged_to_position(facts: str) -> None:
    assert _cause(_ball("direction: straight", facts)) == (Cause.POSITION, True)


@pytest.mark.parametrize(
    "facts", ["time: normal or late", "steps to the ball: 4", "balance: moving", ""]
)
def test_what_only_may_have_been_late_is_not(facts: str) -> None:
    assert _cause(_ball("direction: straight", facts)) == (Cause.DECIDE, True)


def test_a_bad_choice_in_trouble_with_the_opponent_in_was_not_read() -> None:
    ball = _ball("direction: straight", "game situation: opponent at net; balance: stretched")

    assert _cause(ball) == (Cause.READ, True)


def test_a_ball_not_tried_is_a_matter_of_effort() -> None:
    assert _cause(_ball("response: let go")) == (Cause.EFFORT, True)


def test_a_good_choice_that_failed_was_not_carried_out() -> None:
    assert _cause(_ball("direction: crosscourt")) == (Cause.EXECUTE, True)


@pytest.mark.parametrize("disturbed", ["net cord", "bad bounce", "gust", "let"])
def test_a_good_choice_that_was_disturbed_was_unlucky(disturbed: str) -> None:
    outcome = Outcome(landed="net", as_intended="no", disturbed=disturbed)

    assert _cause(_ball("direction: crosscourt", outcome=outcome)) == (Cause.UNLUCKY, True)


def test_a_good_choice_that_failed_with_something_sore_is_physical() -> None:
    ball = _ball("direction: crosscourt", "restricted today: yes")

    assert _cause(ball) == (Cause.PHYSICAL, True)


@pytest.mark.parametrize("as_intended", ["yes", "unsure", ""])
def test_a_good_choice_that_did_not_surely_fail_has_no_cause(as_intended: str) -> None:
    outcome = Outcome(landed="in", as_intended=as_intended)

    assert _cause(_ball("direction: crosscourt", outcome=outcome)) == (None, False)


def test_a_bad_choice_that_came_off_still_has_a_cause() -> None:
    outcome = Outcome(landed="in", as_intended="yes", ending="winner")

    assert _cause(_ball("direction: straight", outcome=outcome)) == (Cause.DECIDE, True)


def test_no_cause_is_proposed_where_nothing_could_be_decided() -> None:
    ball = _ball("pace: 70 %")

    assert judge_ball(CLUB, ball).grade is Grade.UNDECIDED
    assert _cause(ball) == (None, False)
