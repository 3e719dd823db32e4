import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.flight.constants import STILL_AIR, YELLOW
from tactics.flight.court import FULL_SINGLES, Area, Stage, court_for
from tactics.flight.launch import Cannot, aim
from tactics.flight.motion import launches
from tactics.flight.strike import Branch, Strike
from tactics.flight.trajectory import clearance_m, fly
from tactics.flight.window import closing_pace_ms, lateral_window, vertical_window
from tests.flight.reference import place_at
from tests.flight.strategies import baseline_strikes, winds

LOW_NEAR_NET = Strike(x_m=0.0, y_m=-2.5, z_m=0.614)
RALLY = Strike(x_m=1.0, y_m=-12.585, z_m=0.95, topspin_rpm=2200)


@given(baseline_strikes(), st.floats(-3.5, 3.5), st.floats(3.0, 11.5), st.floats(14, 38), winds)
def test_an_aimed_shot_lands_where_it_was_aimed(strike, x, depth, pace, wind):
    shot = aim(strike, target_x_m=x, landing_y_m=depth, pace_ms=pace, air=wind)

    found = ~np.isnan(shot.elevation_deg)
    assert shot.flight.landing.position_m[0][found] == pytest.approx(x, abs=0.0002)
    assert shot.flight.landing.position_m[1][found] == pytest.approx(depth, abs=0.0002)


@given(baseline_strikes(), st.floats(-3.5, 3.5), st.floats(0.05, 3.0), st.floats(14, 38))
def test_an_aimed_shot_crosses_the_net_as_high_as_was_asked(strike, x, height, pace):
    shot = aim(strike, target_x_m=x, height_over_net_m=height, pace_ms=pace)

    flown = fly(shot.launch)
    found = ~np.isnan(shot.elevation_deg)
    assert clearance_m(flown.crossing, FULL_SINGLES)[found] == pytest.approx(height, abs=0.0002)
    assert flown.landing.position_m[0][found] == pytest.approx(x, abs=0.0002)


@given(baseline_strikes(), st.floats(-3.5, 3.5), st.floats(0.3, 2.5), st.floats(5.0, 11.0))
def test_height_and_depth_together_give_the_pace(strike, x, height, depth):
    shot = aim(strike, target_x_m=x, height_over_net_m=height, landing_y_m=depth)

    assert shot.is_possible.all()
    assert shot.height_over_net_m == pytest.approx(height, abs=0.0002)
    assert shot.flight.landing.position_m[1] == pytest.approx(depth, abs=0.0002)


@given(baseline_strikes(), st.floats(-4.1, 4.1), st.floats(1.0, 11.8), st.floats(10, 45))
def test_a_possible_shot_is_in_for_the_tight_solver_too(strike, x, depth, pace):
    shot = aim(strike, target_x_m=x, landing_y_m=depth, pace_ms=pace)
    possible = shot.launch.only(shot.is_possible)

    net = place_at(possible, shot.flight.crossing.time_s[shot.is_possible])
    ground = place_at(possible, shot.flight.landing.time_s[shot.is_possible])

    clear = net[2] - YELLOW.radius_m - FULL_SINGLES.net_height_m(net[0])
    box = FULL_SINGLES.box()
    assert (clear > -0.001).all()
    assert ground[2] == pytest.approx(YELLOW.radius_m, abs=0.001)
    assert box is not None
    assert box.contains(*ground[:2]).all()


@given(baseline_strikes(1), st.floats(0.2, 1.2), st.floats(0.1, 2.0))
def test_a_higher_flight_to_the_same_place_takes_longer(strike, height, more):
    low, high = (
        aim(strike, target_x_m=0.0, landing_y_m=9.0, height_over_net_m=each)
        for each in (height, height + more)
    )

    assert high.flight.landing.time_s > low.flight.landing.time_s
    assert high.pace_ms < low.pace_ms


def test_the_lob_is_the_other_way_to_the_same_place():
    drive, lob = (
        aim(RALLY, target_x_m=0.0, landing_y_m=9.0, pace_ms=22.0, branch=each) for each in Branch
    )

    assert drive.is_possible.all()
    assert lob.is_possible.all()
    assert lob.elevation_deg > drive.elevation_deg + 20
    assert lob.flight.landing.position_m[1] == pytest.approx(9.0, abs=0.0002)


def test_mirrored_shots_have_mirrored_launches():
    right = Strike(x_m=3.0, y_m=-12.0, z_m=1.0, topspin_rpm=1500, sidespin_rpm=400)
    left = Strike(x_m=-3.0, y_m=-12.0, z_m=1.0, topspin_rpm=1500, sidespin_rpm=-400)

    one = aim(right, target_x_m=-2.0, landing_y_m=9.0, pace_ms=27.0)
    other = aim(left, target_x_m=2.0, landing_y_m=9.0, pace_ms=27.0)

    assert other.elevation_deg == pytest.approx(one.elevation_deg, abs=1e-9)
    assert other.azimuth_deg == pytest.approx(-one.azimuth_deg, abs=1e-9)


def test_a_shot_too_slow_to_get_there_cannot_be_played():
    shot = aim(RALLY, target_x_m=0.0, landing_y_m=11.0, pace_ms=[9.0, 29.0])

    assert shot.is_possible.tolist() == [False, True]
    assert shot.cannot(0) is Cannot.NO_LAUNCH
    assert shot.cannot(1) is None
    assert np.isnan(shot.launch.velocity_ms[:, 0]).all()
    assert np.isnan(shot.height_over_net_m[0])


def test_a_low_ball_near_the_net_cannot_be_driven_deep():
    shot = aim(LOW_NEAR_NET, target_x_m=0.0, landing_y_m=11.0, pace_ms=24.0)

    assert not shot.is_possible.any()
    assert shot.cannot(0) is Cannot.THROUGH_THE_NET


def test_no_pace_brings_a_smash_high_over_the_net_down_at_once():
    shot = aim(
        Strike(x_m=0, y_m=-1.0, z_m=2.8), target_x_m=0, height_over_net_m=0.1, landing_y_m=11.0
    )

    assert shot.cannot(0) is Cannot.NO_LAUNCH


@pytest.mark.parametrize(
    "wanted",
    [{}, {"pace_ms": 20.0}, {"pace_ms": 20.0, "height_over_net_m": 1.0, "landing_y_m": 9.0}],
    ids=["nothing", "one", "all three"],
)
def test_exactly_two_of_pace_height_and_depth_are_asked_for(wanted):
    with pytest.raises(ValueError, match="exactly two"):
        aim(RALLY, target_x_m=0.0, **wanted)


@given(st.floats(0.0, 0.5), st.floats(1.5, 7.0), st.floats(-1000, 3000))
def test_past_the_closing_pace_there_is_no_shot_and_below_it_there_is(below, distance, topspin):
    strike = Strike(x_m=0.0, y_m=-distance, z_m=0.914 - below, topspin_rpm=topspin)

    closing = closing_pace_ms(strike)
    faster = vertical_window(strike, pace_ms=closing * 1.03)
    slower = vertical_window(strike, pace_ms=closing * 0.97)

    assert slower.is_open.all()
    assert not faster.is_open.any()
    assert np.isnan(faster.width_deg).all()


@given(st.floats(0.0, 0.5), st.floats(1.5, 7.0), st.floats(-1000, 3000), st.floats(1.05, 1.5))
def test_no_elevation_is_in_through_a_closed_window(below, distance, topspin, faster):
    strike = Strike(x_m=0.0, y_m=-distance, z_m=0.914 - below, topspin_rpm=topspin)
    pace = closing_pace_ms(strike) * faster

    every = launches(
        x_m=0,
        y_m=-distance,
        z_m=0.914 - below,
        pace_ms=pace,
        topspin_rpm=topspin,
        elevation_deg=np.arange(-20.0, 40.0, 0.1),
    )
    flight = fly(every)

    box = FULL_SINGLES.box()
    assert box is not None
    is_in = clearance_m(flight.crossing, FULL_SINGLES) >= 0
    is_in &= box.contains(*flight.landing.position_m[:2])
    assert not is_in.any()


@given(st.floats(25, 40), st.floats(1.0, 6.0), st.floats(0, 3000))
def test_a_window_shrinks_with_speed(pace, more, topspin):
    strike = Strike(x_m=0.0, y_m=-11.885, z_m=1.0, topspin_rpm=topspin)

    slow, fast = vertical_window(strike, pace_ms=[pace, pace + more]).width_deg

    assert fast < slow


def test_the_edges_of_a_window_graze_the_cord_and_the_line():
    window = vertical_window(RALLY, pace_ms=29.0)

    edges = launches(
        x_m=1.0,
        y_m=-12.585,
        z_m=0.95,
        pace_ms=29.0,
        topspin_rpm=2200,
        elevation_deg=[window.needed_deg[0], window.allowed_deg[0]],
    )
    flight = fly(edges)

    assert clearance_m(flight.crossing, FULL_SINGLES)[0] == pytest.approx(0.0, abs=0.0002)
    assert flight.landing.position_m[1, 1] == pytest.approx(11.885, abs=0.0002)


def test_a_slow_ball_may_rise_until_it_comes_down_on_the_net():
    window = vertical_window(
        Strike(x_m=0, y_m=-2.5, z_m=0.614, topspin_rpm=-800), pace_ms=11.0, azimuth_deg=12.0
    )

    assert window.width_deg[0] > 25


def test_directions_reach_from_sideline_to_sideline():
    shot = aim(RALLY, target_x_m=0.0, landing_y_m=9.0, pace_ms=29.0)
    window = lateral_window(
        RALLY, pace_ms=29.0, elevation_deg=shot.elevation_deg, azimuth_deg=shot.azimuth_deg
    )

    wide = launches(
        x_m=1.0,
        y_m=-12.585,
        z_m=0.95,
        pace_ms=29.0,
        topspin_rpm=2200,
        elevation_deg=shot.elevation_deg,
        azimuth_deg=[window.needed_deg[0], window.allowed_deg[0]],
    )

    assert fly(wide).landing.position_m[0] == pytest.approx([-4.115, 4.115], abs=0.0002)


def test_a_court_without_a_service_line_has_no_serve_window_until_it_gets_one():
    strike = Strike(x_m=0.5, y_m=-9.1, z_m=2.0)

    with pytest.raises(ValueError, match="service line"):
        vertical_window(
            strike, pace_ms=20.0, area=Area.FROM_RIGHT, court=court_for(Stage.ORANGE), air=STILL_AIR
        )

    court = court_for(Stage.ORANGE, service_line_m=4.9)
    window = vertical_window(strike, pace_ms=20.0, area=Area.FROM_RIGHT, court=court)
    assert window.is_open.all()
