"""What cannot happen is looked up by game situation: the same lines are found as without."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.quiz.nearby import around
from tactics.quiz.plain import situation_of
from tests.quiz.made import SETS, maker


@pytest.mark.parametrize("name", SETS)
@given(seed=st.integers(0, 10_000))
def test_no_line_is_lost_by_looking_in_one_game_situation(name, seed):
    play = maker(name).play
    ball = play.ball(Random(seed), "right")
    for each in [ball] if ball is not None else []:
        for fact in play.changeable:
            for number in (0.3, 3.0, 11.0):
                changed = {**each, fact: number if isinstance(each.get(fact), float) else None}
                expected = [line.what for line in play.laws.lines if line.holds(changed)]

                assert list(play.laws.broken(changed)) == expected
                assert play.laws.allow(changed) is (not expected)
                about = [line for line in play.laws.lines if fact in line.facts]
                is_allowed = not any(line.holds(changed) for line in about)
                assert play.laws.allow_change(changed, fact) is is_allowed


@given(seed=st.integers(0, 10_000))
def test_a_changed_ball_has_the_situation_of_its_facts(seed):
    play = maker("singles-club").play
    ball = play.ball(Random(seed), "right")
    if ball is None:
        return
    before = situation_of(ball)
    for near in around(play, ball, play.changeable[:6]):
        assert near.situation(before) == situation_of(near.ball)
