"""What is offered as an answer is something that somebody might really play."""

import pytest

from tactics.model.facts import FACING_NET, RALLY, SERVING
from tactics.model.standard import STANDARD
from tactics.quiz.sensible import Sense

BALL = {"game situation": RALLY, "court depth": 13.4, "court width": 0.4, "wing": "forehand",
        "incoming direction": "straight", "bounce": "falling"}  # fmt: skip


@pytest.mark.parametrize(
    "values",
    [
        {"intent": "buy time", "pace": 100.0},
        {"intent": "lob", "height over net": 0.3},
        {"intent": "lob", "direction": "sharp angle"},
        {"intent": "force", "pace": 45.0},
        {"intent": "change direction", "direction": "straight"},
        {"direction": "middle", "inside line": 0.3},
        {"stroke": "drop shot", "pace": 90.0},
    ],
)
def test_parts_that_contradict_each_other_are_never_offered(values):
    assert not Sense(BALL, {}).allows(values)


@pytest.mark.parametrize(
    "values",
    [
        {"intent": "buy time", "height over net": 2.0, "pace": 60.0},
        {"intent": "lob", "height over net": 4.5, "direction": "crosscourt"},
        {"direction": "middle", "pace": 70.0},
    ],
)
def test_parts_that_go_together_are(values):
    assert Sense(BALL, {}).allows(values)


def test_a_serve_has_three_roads_and_a_rally_ball_none_of_them():
    serve = Sense({**BALL, "game situation": SERVING}, {})

    assert serve.words(STANDARD, "direction") == ["at body", "wide", "T"]
    assert Sense(BALL, {}).words(STANDARD, "direction") == ["crosscourt", "straight", "middle"]


def test_only_a_net_player_is_passed():
    assert "pass" not in Sense(BALL, {}).words(STANDARD, "intent")
    assert "pass" in Sense({**BALL, "game situation": FACING_NET}, {}).words(STANDARD, "intent")


def test_a_word_that_the_rule_speaks_of_is_offered_as_well():
    named = Sense(BALL, {"intent": frozenset(("approach",))})

    assert "approach" in named.words(STANDARD, "intent")


def test_what_rules_merely_leave_open_is_no_sound_option():
    sense = Sense(BALL, {})

    assert not sense.is_modest({"intent": "finish"}, {"intent": "build"})
    assert sense.is_modest({"intent": "force"}, {"intent": "build"})
    assert sense.is_modest({"intent": "finish"}, {"intent": "finish"})
