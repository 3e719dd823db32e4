"""Counting balls under a heading."""

from hypothesis import given
from hypothesis import strategies as st

from tactics.model.choice import Cause
from tactics.model.verdict import Grade
from tests.review.balls import OPEN, counted, finding, judged

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
    ledger = counted(*balls)

    found = sum(each.tally.total for each in ledger.by_situation())
    assert found == len(balls) == ledger.all().tally.total


def test_open_balls_are_in_no_share() -> None:
    balls = [judged(), judged(Grade.UNSOUND, lesson="two"), judged(Grade.UNDECIDED, possible=OPEN)]

    tally = counted(*balls).all().tally

    assert (tally.kept, tally.broken, tally.open) == (1, 1, 1)
    assert (tally.kept_rate.count, tally.kept_rate.n, tally.kept_rate.lessons) == (1, 2, 2)


def test_undecided_between_two_bad_grades_still_counts_as_not_kept() -> None:
    either_way = frozenset({Grade.DOUBTFUL, Grade.UNSOUND})

    assert len(counted(judged(Grade.UNDECIDED, possible=either_way)).all().broken) == 1


def test_situations_come_in_the_order_of_a_point_and_unseen_ones_last() -> None:
    balls = [judged(phase=""), judged(phase="opponent at net"), judged(phase="serving")]

    names = [each.name for each in counted(*balls).by_situation()]

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

    tallies = [each.tally for each in counted(ball).by_part()]
    found = {tally.name: (tally.kept, tally.broken, tally.open) for tally in tallies}

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

    (rule,) = counted(ball).by_rule()
    assert (rule.name, len(rule.broken), len(rule.kept)) == ("wide", 1, 0)


def test_a_rule_whose_breach_an_option_allows_is_kept() -> None:
    ball = judged(Grade.ACCEPTABLE, findings=(finding("depth", Grade.ACCEPTABLE, "deep"),))

    (rule,) = counted(ball).by_rule()
    assert (rule.name, len(rule.broken), len(rule.kept)) == ("deep", 0, 1)


def test_the_rule_broken_most_often_comes_first() -> None:
    broken = judged(Grade.UNSOUND, findings=(finding("pace", Grade.UNSOUND, "slow-down"),))
    kept = judged(findings=(finding("pace", Grade.SOUND, "a-rule"),))

    names = [each.name for each in counted(kept, kept, broken).by_rule()]

    assert names == ["slow-down", "a-rule"]


def test_causes_the_coach_named_stay_apart_from_proposed_ones() -> None:
    balls = [
        judged(cause=Cause.READ),
        judged(cause=Cause.READ, proposed=True),
        judged(cause=Cause.UNLUCKY, proposed=True),
        judged(),
    ]

    found = [(c, s.tolist(), p.tolist()) for c, s, p in counted(*balls).by_cause()]
    assert found == [(Cause.READ, [0], [1]), (Cause.UNLUCKY, [], [2])]


def test_a_rule_that_spoke_on_an_undecided_ball_is_open_there() -> None:
    ball = judged(Grade.UNDECIDED, possible=OPEN, findings=(finding("depth", Grade.SOUND, "deep"),))

    (rule,) = counted(ball).by_rule()

    assert (len(rule.kept), len(rule.broken), rule.open.tolist()) == (0, 0, [0])
