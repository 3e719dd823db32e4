"""Where to stand for a return, for every pair of hands."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.flight.constants import SURFACES, Air, SurfaceName
from tactics.flight.court import Format, Stage, court_for
from tactics.flight.levels import CLUB, LEVELS, TOUR
from tactics.flight.ranges import OutOfRange
from tactics.flight.stand import (
    FLAT,
    KICK,
    SLICE,
    Hand,
    ReturnStand,
    Server,
    ServeSide,
    return_stand,
    stand_by_depth,
)
from tactics.flight.venue import FULL_COURT, Venue

servers = st.builds(
    Server,
    hand=st.sampled_from(Hand),
    side=st.sampled_from(ServeSide),
    level=st.sampled_from([LEVELS["club"], LEVELS["competitive"], LEVELS["tour"]]),
    contact_height_m=st.floats(2.5, 2.9),
)
OTHER_HAND = {Hand.LEFT: Hand.RIGHT, Hand.RIGHT: Hand.LEFT}
OTHER_SIDE = {ServeSide.DEUCE: ServeSide.AD, ServeSide.AD: ServeSide.DEUCE}


def stand(server: Server, **more) -> ReturnStand:
    found = return_stand(server, **more)
    assert isinstance(found, ReturnStand)
    return found


@settings(max_examples=20, deadline=None)
@given(servers, st.floats(-1.5, 3.0))
def test_a_left_handers_ad_court_is_a_right_handers_deuce_court_mirrored(server, behind):
    other = replace(server, hand=OTHER_HAND[server.hand], side=OTHER_SIDE[server.side])

    here, there = (stand(each, behind_baseline_m=behind) for each in (server, other))

    assert there.by_angle_x_m == pytest.approx(-here.by_angle_x_m, abs=1e-5)
    assert there.by_time_x_m == pytest.approx(-here.by_time_x_m, abs=1e-5)
    assert there.covers_wide_m == pytest.approx(here.covers_wide_m, abs=1e-5)


@pytest.mark.parametrize(
    ("hand", "side", "runs_wide"),
    [
        (Hand.RIGHT, ServeSide.DEUCE, True),
        (Hand.RIGHT, ServeSide.AD, False),
        (Hand.LEFT, ServeSide.DEUCE, False),
        (Hand.LEFT, ServeSide.AD, True),
    ],
)
def test_the_side_on_which_the_slice_runs_wide_follows_from_the_hand(hand, side, runs_wide):
    server = Server(hand=hand, side=side)

    assert server.slice_runs_wide is runs_wide
    assert server.shapes == (SLICE if runs_wide else KICK, FLAT)


def test_the_returner_stands_wider_where_the_slice_runs_wide():
    wide, narrow = (stand(Server(hand=Hand.LEFT, side=side)) for side in reversed(ServeSide))

    assert 0.4 < narrow.inside_line_m - wide.inside_line_m < 1.1


@settings(max_examples=20, deadline=None)
@given(servers, st.floats(-1.5, 1.5), st.floats(0.5, 1.5))
def test_further_back_the_ball_comes_later_and_the_fan_is_wider(server, behind, more):
    near, far = (stand(server, behind_baseline_m=each) for each in (behind, behind + more))

    assert far.wide.time_s > near.wide.time_s
    assert abs(far.wide.x_m - far.centre.x_m) > abs(near.wide.x_m - near.centre.x_m)


@settings(max_examples=20, deadline=None)
@given(servers)
def test_by_time_both_serves_are_the_same_share_of_what_is_covered(server):
    found = stand(server, returner=TOUR)

    wide, centre = (
        found.to_wide_m / found.covers_wide_m,
        found.to_centre_m / found.covers_centre_m,
    )

    assert wide == pytest.approx(centre)
    assert found.wide.time_s > found.centre.time_s


def test_a_serve_curved_further_asks_for_a_wider_place():
    server = Server(hand=Hand.RIGHT, side=ServeSide.DEUCE)
    straight = replace(SLICE, side_rpm=0.0)

    assert abs(stand(server).by_angle_x_m) > abs(stand(replace(server, wide=straight)).by_angle_x_m)


@pytest.mark.parametrize("behind", [-5.0, 7.0, float("nan")])
def test_a_place_off_the_court_is_named_with_its_range(behind):
    problem = return_stand(Server(), CLUB, behind)

    assert isinstance(problem, OutOfRange)
    assert "-4 to 6 m is possible" in problem.sentence


def test_a_serve_too_fast_to_land_in_is_hit_slower():
    fast = stand(Server(contact_height_m=2.4, pace_ms=66.0))

    # at 66 m/s without loss of pace the ball would be there after 0.37 s
    assert 0.42 < fast.centre.time_s < 0.70


def test_a_serve_that_cannot_land_in_has_no_fan():
    assert return_stand(Server(contact_height_m=0.4, pace_ms=80.0)) is None


def test_a_stage_without_service_line_has_no_serve_until_it_is_given_one():
    server = Server(level=LEVELS["beginner"], pace_ms=20.0, contact_height_m=2.0)
    without = Venue(court=court_for(Stage.ORANGE))
    with_line = Venue(court=court_for(Stage.ORANGE, service_line_m=5.0))

    assert return_stand(server, venue=without, behind_baseline_m=-2.0) is None
    assert return_stand(server, venue=with_line, behind_baseline_m=-2.0) is not None


def test_a_slow_serve_bounces_twice_before_it_is_far_behind_the_baseline():
    slow = Server(level=LEVELS["beginner"])

    assert return_stand(slow, behind_baseline_m=-1.0) is not None
    assert return_stand(slow, behind_baseline_m=6.0) is None


@pytest.mark.parametrize(
    "venue",
    [
        Venue(surface=SURFACES[SurfaceName.CLAY]),
        Venue(court=court_for(format_=Format.DOUBLES)),
        Venue(court=court_for(Stage.GREEN)),
        Venue(air=Air(density_kg_m3=0.95, wind_across_ms=3.0)),
    ],
    ids=["clay", "doubles", "green", "high and windy"],
)
def test_conditions_change_the_place(venue):
    server = Server(hand=Hand.LEFT, side=ServeSide.AD)

    assert stand(server, venue=venue).wide.time_s != stand(server).wide.time_s or (
        venue.court is not FULL_COURT.court
    )


def test_the_depths_of_a_table_are_answered_in_their_order():
    depths = [each.depth_m for each in stand_by_depth(Server())]

    assert depths == sorted(depths)
