"""A situation in a player's words, and what is different next door."""

import pytest

from tactics.model.situation import Situation
from tactics.quiz.plain import known_of
from tactics.quiz.telling import changed, facts_sentence
from tests.quiz.made import maker

ADVISOR = maker("singles-club").advisor


def situation(**facts):
    return Situation.of({name.replace("_", " "): known_of(value) for name, value in facts.items()})


@pytest.mark.parametrize(
    ("facts", "text"),
    [
        ({"court_depth": 10.2}, "you are inside the baseline"),
        ({"court_depth": 3.5}, "you are 3.5 m from the net"),
        ({"opponent_depth": 13.4}, "the opponent is 1.5 m behind the baseline"),
        ({"body_height": 0.7}, "the ball is met at chest height"),
        ({"incoming_time": 2.0}, "it is a slow ball"),
        ({"incoming_spin": "flat"}, "the ball is hit flat"),
        ({"incoming_spin": "slice"}, "the ball comes with slice"),
        ({"serve_number": "second"}, "it is a second serve"),
        ({"serve_side": "ad"}, "it is the ad side"),
        ({"own_hand": "right", "opponent_hand": "left"},
         "you are right-handed, the opponent left-handed"),
        ({"score_state": "match point"}, "it is a match point"),
        ({"wind": "against"}, "the wind is against you"),
        ({"open_court": 5.0}, "the open court is large"),
    ],
)  # fmt: skip
def test_a_changed_fact_is_said_in_a_few_words(facts, text):
    fact = list(facts)[-1].replace("_", " ")

    assert changed(ADVISOR, situation(**facts), fact) == text


def test_facts_that_have_no_place_in_the_sentence_stand_behind_it():
    here = situation(game_situation="baseline rally", balance="set", open_court=5.0,
                     own_hand="left", opponent_hand="left", score_state="normal")  # fmt: skip

    text = facts_sentence(ADVISOR, here, tuple(name for name, _ in here.facts))

    assert text == (
        "Baseline rally, both players back; you are set. You are both left-handed. "
        "The open court is large. Nothing special hangs on the point."
    )


def test_a_ball_over_the_head_is_said_once():
    here = situation(wing="overhead", body_height=1.1)

    text = facts_sentence(ADVISOR, here, ("wing", "body height"))

    assert text == "The ball, met overhead."
