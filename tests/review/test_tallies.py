"""Counting balls under a heading."""

from hypothesis import given
from hypothesis import strategies as st

from tactics.model.choice import Cause
from tactics.model.verdict import Grade, Kept
from tactics.review.tallies import (
    CauseCount,
    by_cause,
    by_part,
    by_rule,
    by_situation,
    overall,
    rules_met,
)
from tests.review.balls import OPEN, finding, judged

BALLS = st.lists(
    st.builds(
        judged,
        st.sampled_from([Grade.SOUND, Grade.ACCEPTABLE, Grade.DOUBTFUL, Grade.UNSOUND]),
        possible=st.sampled_from([None, OPEN]),
        phase=st.sampled_from(["", "serving", "returning"]),
        lesson=st.sampled_from(["one", "two"]),
    )
)


@given(BALLS)
def test_no_ball_is_lost_between_situations(balls: list) -> None:
    tallies = by_situation(balls)

    assert sum(tally.total for tally in tallies) == len(balls) == overall(balls).total


def test_open_balls_are_in_no_share() -> None:
    balls = [judged(), judged(Grade.UNSOUND, lesson="two"), judged(Grade.UNDECIDED, possible=OPEN)]

    tally = overall(balls)

    assert (tally.kept, tally.broken, tally.open) == (1, 1, 1)
    assert (tally.kept_rate.count, tally.kept_rate.n, tally.kept_rate.lessons) == (1, 2, 2)


def test_undecided_between_two_bad_grades_still_counts_as_not_kept() -> None:
    either_way = frozenset({Grade.DOUBTFUL, Grade.UNSOUND})

    assert overall([judged(Grade.UNDECIDED, possible=either_way)]).broken == 1


def test_situations_come_in_the_order_of_a_point_and_unseen_ones_last() -> None:
    balls = [judged(phase=""), judged(phase="opponent at net"), judged(phase="serving")]

    names = [tally.name for tally in by_situation(balls)]

    assert names == ["serving", "opponent at net", "not seen"]


def test_a_part_counts_by_its_own_finding() -> None:
    ball = judged(
        Grade.DOUBTFUL,
        findings=(
            finding("direction", Grade.SOUND, "one"),
            finding("pace", Grade.DOUBTFUL, "two"),
            finding("depth", Grade.UNDECIDED, "three"),
        ),
    )

    found = {tally.name: (tally.kept, tally.broken, tally.open) for tally in by_part([ball])}

    assert found == {"direction": (1, 0, 0), "depth": (0, 0, 1), "pace": (0, 1, 0)}


def test_a_rule_broken_in_one_part_is_broken_by_the_ball() -> None:
    ball = judged(
        Grade.DOUBTFUL,
        findings=(
            finding("direction", Grade.SOUND, "wide"),
            finding("pace", Grade.DOUBTFUL, "wide"),
            finding("depth", Grade.UNDECIDED, "wide"),
        ),
    )

    assert rules_met(ball) == {"wide": Kept.NO}


def test_a_rule_whose_breach_an_option_allows_is_kept() -> None:
    ball = judged(Grade.ACCEPTABLE, findings=(finding("depth", Grade.ACCEPTABLE, "deep"),))

    assert rules_met(ball) == {"deep": Kept.YES}


def test_the_rule_broken_most_often_comes_first() -> None:
    broken = judged(Grade.UNSOUND, findings=(finding("pace", Grade.UNSOUND, "slow-down"),))
    kept = judged(findings=(finding("pace", Grade.SOUND, "a-rule"),))

    names = [tally.name for tally in by_rule([kept, kept, broken])]

    assert names == ["slow-down", "a-rule"]


def test_causes_the_coach_named_stay_apart_from_proposed_ones() -> None:
    balls = [
        judged(cause=Cause.READ),
        judged(cause=Cause.READ, proposed=True),
        judged(cause=Cause.UNLUCKY, proposed=True),
        judged(),
    ]

    assert by_cause(balls) == (
        CauseCount(cause=Cause.READ, by_coach=1, proposed=1),
        CauseCount(cause=Cause.UNLUCKY, by_coach=0, proposed=1),
    )
