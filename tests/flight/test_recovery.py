"""Running, and the place between the opponent's widest answers."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.flight.court import Format, Stage, court_for
from tactics.flight.levels import CLUB, COMPETITIVE
from tactics.flight.recovery import recovery, recovery_x_m
from tactics.flight.running import run_distance_m, run_time_s
from tactics.flight.venue import FULL_COURT, Venue
from tests.flight.exchange_strategies import LEVELS

opponents = st.tuples(st.floats(-6, 6), st.floats(0.5, 15))
depths = st.floats(1.0, 15.0)


@given(LEVELS, st.floats(0.0, 30.0))
def test_the_run_time_is_the_inverse_of_the_run(level, distance):
    assert run_distance_m(run_time_s(distance, level), level) == pytest.approx(distance, abs=2e-5)


@given(LEVELS, st.floats(0.0, 20.0), st.floats(0.01, 5.0))
def test_a_longer_way_takes_longer(level, distance, more):
    assert run_time_s(distance + more, level) > run_time_s(distance, level)


def test_nobody_runs_before_the_start_or_a_negative_way():
    assert run_distance_m(-0.5, CLUB) == 0.0
    assert run_time_s(-2.0, CLUB) == 0.0


@given(opponents, depths)
def test_the_recovery_place_is_the_same_mirrored(opponent, depth):
    x, y = opponent

    here, there = (recovery_x_m(side, y, depth, FULL_COURT) for side in (x, -x))

    assert there == pytest.approx(-here, abs=1e-12)


@given(opponents, depths)
def test_the_recovery_place_lies_between_the_widest_answers(opponent, depth):
    x, y = opponent
    court = FULL_COURT.court

    place = recovery_x_m(x, y, depth, FULL_COURT)

    marks = [(side * court.half_width_m, far) for side in (-1, 1) for far in (depth, 7.4)]
    cuts = [x + (mark - x) * (depth + y) / (far + y) for mark, far in marks]
    assert min(cuts) - 1e-9 <= place <= max(cuts) + 1e-9


@pytest.mark.parametrize(("depth", "side"), [(12.885, -1), (2.5, 1)], ids=["baseline", "net"])
def test_at_the_baseline_it_is_across_from_the_opponent_and_at_the_net_on_the_same_side(
    depth, side
):
    assert np.sign(recovery_x_m(3.0, 11.0, depth, FULL_COURT)) == side


def test_wider_lines_pull_the_place_towards_the_middle_line():
    doubles = Venue(court=court_for(format_=Format.DOUBLES))

    singles_x, doubles_x = (
        float(recovery_x_m(3.0, 11.0, 12.885, venue)) for venue in (FULL_COURT, doubles)
    )

    assert singles_x < doubles_x < 0.0


@pytest.mark.parametrize("stage", Stage)
def test_every_stage_has_a_recovery_place_inside_its_lines(stage):
    venue = Venue(court=court_for(stage))

    place = recovery_x_m(venue.court.half_width_m, venue.court.half_length_m, 7.0, venue)

    assert abs(place) < venue.court.half_width_m


RUN = {
    "from_x_m": 6.0,
    "from_depth_m": 13.9,
    "opponent_x_m": -2.8,
    "opponent_y_m": 12.0,
    "depth_m": 12.885,
    "level": CLUB,
    "venue": FULL_COURT,
}


def test_a_hitter_without_time_is_short_by_what_is_left_to_run():
    late = recovery(time_s=1.2, **RUN)

    assert late.spare_s < 0.0
    assert late.short_m == pytest.approx(late.run_m - late.covered_m)


@given(st.floats(0.3, 4.0), st.floats(0.05, 2.0))
def test_more_time_leaves_more_to_spare(time, more):
    soon, later = (recovery(time_s=each, **RUN) for each in (time, time + more))

    assert later.spare_s == pytest.approx(soon.spare_s + more)
    assert later.short_m <= soon.short_m


def test_a_faster_player_gets_home_earlier():
    club, fast = (recovery(time_s=1.6, **{**RUN, "level": each}) for each in (CLUB, COMPETITIVE))

    assert fast.spare_s > club.spare_s


def test_a_slow_stroke_costs_recovery_time():
    quick, slow = (recovery(time_s=1.6, stroke_end_s=each, **RUN) for each in (0.2, 0.4))

    assert quick.spare_s == pytest.approx(slow.spare_s + 0.2)


def test_a_small_court_without_service_line_scales_it():
    court = replace(court_for(Stage.RED), service_line_m=None)

    assert Venue(court=court).service_line_m == pytest.approx(6.4 * court.half_length_m / 11.885)
