"""Targets of the player's own: the words for them, and grades that come from the rules."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.engine.compile import compile_rules
from tactics.model.known import number, word
from tactics.model.standard import STANDARD
from tactics.model.verdict import Grade
from tactics.quiz.aiming import AIM_STEP_M, first_spot, graded_spot, moved, roads_to
from tactics.reading.rules import combine
from tactics.report.court_picture import BASELINE_M, SINGLES_HALF_M, Spot
from tactics.source import Source
from tests.screens.questions import WHERE, WIDE

RULES = """\
rule set: Aims
author: A test
precedence: [feasibility]
rules:
  wide-go-cross:
    title: Pulled wide, go crosscourt with room
    concern: feasibility
    strength: should
    when: {court width: wide forehand}
    advise: {direction: crosscourt, depth: at least 9 m, inside line: at least 1.2 m}
    because: The diagonal has the most room.
    cue: Wide out, back across
    examples:
      - {given: {court width: wide forehand}, choose: {direction: straight}, grade: doubtful}
      - {given: {court width: wide forehand}, choose: {direction: crosscourt}, grade: sound}
"""


@pytest.mark.parametrize(
    ("spot", "grade"),
    [
        pytest.param(Spot(x_m=-2.1, y_m=10.5), Grade.SOUND, id="cross-and-deep"),
        pytest.param(Spot(x_m=-3.9, y_m=10.5), Grade.DOUBTFUL, id="too-near-the-line"),
        pytest.param(Spot(x_m=2.1, y_m=10.5), Grade.DOUBTFUL, id="straight"),
        pytest.param(Spot(x_m=-2.1, y_m=5.0), Grade.DOUBTFUL, id="short"),
        pytest.param(Spot(x_m=-3.1, y_m=10.5), Grade.SOUND, id="near-enough-for-a-drawing"),
    ],
)
def test_a_target_is_graded_by_the_rules(spot: Spot, grade: Grade) -> None:
    rules = combine([Source(name="aims.yaml", text=RULES)], lambda _: None).value
    assert rules is not None

    option = graded_spot(compile_rules(rules, "matcher"), WHERE, spot)

    assert option.grade is grade


def test_a_left_handers_mirrored_target_has_the_same_grade() -> None:
    rules = combine([Source(name="aims.yaml", text=RULES)], lambda _: None).value
    assert rules is not None
    advisor = compile_rules(rules, "matcher")
    mirrored = replace(WHERE, situation=WHERE.situation.mirrored())

    for x_m in (-3.9, -2.1, 0.0, 2.1):
        here = graded_spot(advisor, WHERE, Spot(x_m=x_m, y_m=10.5))
        there = graded_spot(advisor, mirrored, Spot(x_m=-x_m, y_m=10.5))
        assert (here.grade, here.choice) == (there.grade, there.choice)


@pytest.mark.parametrize(
    ("spot", "roads"),
    [
        pytest.param(Spot(x_m=-3.0, y_m=10.0), ("crosscourt",), id="cross"),
        pytest.param(Spot(x_m=3.0, y_m=10.0), ("straight",), id="straight"),
        pytest.param(Spot(x_m=-3.0, y_m=4.0), ("crosscourt", "sharp angle"), id="angle"),
        pytest.param(Spot(x_m=0.5, y_m=10.0), ("middle", "at body", "behind"), id="at-them"),
    ],
)
def test_a_place_may_be_reached_by_several_roads(spot: Spot, roads: tuple[str, ...]) -> None:
    assert roads_to(spot, WIDE, STANDARD) == roads


def test_a_forehand_from_the_backhand_side_goes_inside_out_as_well() -> None:
    around = WIDE.with_facts({"court width": number(-3.0), "wing": word("forehand")})

    assert "inside-out" in roads_to(Spot(x_m=3.0, y_m=10.0), around, STANDARD)
    assert "inside-in" in roads_to(Spot(x_m=-3.0, y_m=10.0), around, STANDARD)


@given(st.lists(st.sampled_from([(-1, 0), (1, 0), (0, -1), (0, 1)]), max_size=60))
def test_a_target_never_leaves_the_court(moves: list[tuple[int, int]]) -> None:
    spot = first_spot()

    for along, right in moves:
        spot = moved(spot, along, right)

    assert abs(spot.x_m) < SINGLES_HALF_M
    assert AIM_STEP_M < spot.y_m < BASELINE_M
