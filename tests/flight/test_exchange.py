"""The exchange: time for both players, the opponent's contact and fan."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.flight.constants import SURFACES, VACUUM, Air, SurfaceName, air_density_kg_m3
from tactics.flight.court import Area, Format, Stage, court_for
from tactics.flight.exchange import exchanges, fan_of_replies
from tactics.flight.interception import meetings
from tactics.flight.levels import BEGINNER, CLUB
from tactics.flight.limits import Quantity
from tactics.flight.moment import Moment, home_depth_m, rally_pace_ms, remarks_on
from tactics.flight.motion import launches
from tactics.flight.shots import Contact
from tactics.flight.trajectory import fly
from tactics.flight.venue import FULL_COURT, Venue
from tests.flight.exchange_strategies import (
    aimed_shots,
    high_balls,
    mirrored_moment,
    mirrored_shots,
    moments,
    targets,
)

HOME = Moment(contact=Contact(x_m=0.0, depth_m=12.885, height_m=0.95))


@settings(max_examples=25, deadline=None)
@given(moments, targets)
def test_everything_is_the_same_mirrored(moment, places):
    shots = high_balls(moment, places)

    here = exchanges(shots, moment)
    there = exchanges(mirrored_shots(shots), mirrored_moment(moment))

    same = ("contact_time_s", "hitter_spare_s", "opponent_spare_s", "contact_height_m", "run_m")
    for name in same:
        assert getattr(there, name) == pytest.approx(getattr(here, name), abs=1e-9, nan_ok=True)
    assert there.home_x_m == pytest.approx(-here.home_x_m, abs=1e-9, nan_ok=True)


@settings(max_examples=25, deadline=None)
@given(moments, st.floats(-3, 3), st.floats(0.5, 2.0), st.floats(0.2, 2.0))
def test_a_higher_flight_takes_longer_and_leaves_the_hitter_more_time(moment, x, height, more):
    heights = np.array([height, height + more])
    shots = aimed_shots(moment.contact, np.full(2, x), 9.0, heights, 1200.0, FULL_COURT)
    back = replace(moment, opponent_depth_m=None)

    done = exchanges(shots, back)

    longer, spared = (np.diff(each) for each in (done.flight_time_s, done.hitter_spare_s))
    assert not (longer <= 0.0).any()
    assert not (spared <= -0.02).any()


@pytest.mark.parametrize("stage", [Stage.RED, Stage.ORANGE], ids=str)
def test_on_a_short_court_pace_and_place_go_with_its_length(stage):
    small = Venue(court=court_for(stage))
    share = small.court.half_length_m / FULL_COURT.court.half_length_m

    lands = []
    for venue, scale in ((FULL_COURT, 1.0), (small, share)):
        rally = launches(
            x_m=0.0, y_m=-12.0 * scale, z_m=venue.ball.radius_m, elevation_deg=20.0,
            pace_ms=rally_pace_ms(CLUB, venue),
        )  # fmt: skip
        landing = fly(rally, ball=venue.ball, air=VACUUM).landing.position_m[1, 0]
        lands.append(landing / venue.court.half_length_m)
    behind = [home_depth_m(CLUB, v) / v.court.half_length_m for v in (FULL_COURT, small)]

    assert lands[1] == pytest.approx(lands[0], abs=1e-3)
    assert behind[1] == pytest.approx(behind[0])


def test_a_ball_is_volleyed_up_to_seven_metres_from_the_net_and_no_further():
    shots = aimed_shots(HOME.contact, np.zeros(1), 10.0, 0.5, 1200.0, FULL_COURT)
    launch = shots.launch()

    found = meetings(launch, fly(launch).landing, FULL_COURT, sample_s=0.02)
    depths = found.y_m[found.is_in_air]

    assert 6.0 < depths.max() <= 7.0
    assert 0.3 < depths.min() < 3.0


@settings(max_examples=20, deadline=None)
@given(moments, targets)
def test_the_fan_is_sorted_and_each_reply_lands_on_the_hitters_side(moment, places):
    shots = high_balls(moment, places)

    fan = fan_of_replies(exchanges(shots, moment), 0, moment)

    shares = [reply.share_in for reply in fan]
    assert shares == sorted(shares, reverse=True)
    assert all(0.05 <= share <= 1.0 for share in shares)
    assert all(0.0 < reply.target_depth_m < 11.885 for reply in fan)


def test_an_opponent_at_the_net_takes_a_ball_within_reach_in_the_air():
    at_net = replace(HOME, opponent_depth_m=2.5)
    shots = high_balls(at_net, [(0.5, 8.0)], height_m=0.6)

    volley, bounced = (exchanges(shots, each) for each in (at_net, HOME))

    assert volley.contact_time_s < bounced.contact_time_s
    assert volley.contact_y_m < 7.0
    assert volley.contact_time_s < volley.flight_time_s


@pytest.mark.parametrize(("depth", "volleys"), [(5.0, True), (8.0, False)])
def test_only_an_opponent_near_the_net_meets_a_drive_before_it_bounces(depth, volleys):
    shots = aimed_shots(HOME.contact, np.zeros(1), 10.0, 0.8, 1200.0, FULL_COURT)

    done = exchanges(shots, replace(HOME, opponent_depth_m=depth))

    assert bool(done.contact_time_s[0] < done.flight_time_s[0]) is volleys


def test_an_opponent_at_the_net_lacks_time_for_a_good_lob():
    at_net = replace(HOME, opponent_depth_m=2.0)

    lob = exchanges(high_balls(at_net, [(3.0, 10.0)], height_m=3.5), at_net)

    assert lob.opponent_spare_s < 0.3
    assert lob.contact_time_s > lob.flight_time_s


def test_a_late_opponent_has_that_much_less_time():
    shots = high_balls(HOME, [(3.0, 9.0)])

    on_time, late = (
        exchanges(shots, replace(HOME, opponent_late_s=each)).opponent_spare_s for each in (0, 0.3)
    )

    assert on_time - late == pytest.approx(0.3)


def test_a_shot_that_does_not_exist_gives_no_numbers_and_no_fan():
    shots = replace(high_balls(HOME, [(0.0, 9.0)]), elevation_deg=np.array([np.nan]))

    done = exchanges(shots, HOME)

    assert np.isnan([done.flight_time_s, done.hitter_spare_s, done.opponent_spare_s]).all()
    assert fan_of_replies(done, 0, HOME) == ()


@pytest.mark.parametrize("stage", Stage)
@pytest.mark.parametrize("format_", Format)
def test_every_stage_and_format_has_an_exchange(stage, format_):
    venue = Venue(court=court_for(stage, format_))
    along = venue.length_scale
    contact = Contact(x_m=0.0, depth_m=12.0 * along, height_m=0.8)
    moment = Moment(contact=contact, hitter=BEGINNER, opponent=BEGINNER, venue=venue)
    shots = aimed_shots(contact, np.zeros(1), 8.0 * along, 1.5 * along, 0.0, venue)

    done = exchanges(shots, moment)

    assert done.shares.into_court > 0.3
    assert done.opponent_spare_s > 0.0
    assert home_depth_m(BEGINNER, venue) > venue.court.half_length_m
    assert fan_of_replies(done, 0, moment)


VENUES = {
    "clay": Venue(surface=SURFACES[SurfaceName.CLAY]),
    "altitude": Venue(air=Air(density_kg_m3=air_density_kg_m3(2240.0, 20.0))),
    "cold": Venue(air=Air(density_kg_m3=air_density_kg_m3(0.0, 2.0))),
    "tail wind": Venue(air=Air(wind_along_ms=5.0)),
    "cross wind": Venue(air=Air(wind_across_ms=5.0)),
}


@pytest.mark.parametrize("name", VENUES)
def test_conditions_change_the_exchange_of_the_same_launch(name):
    shots = high_balls(HOME, [(1.0, 8.0)])

    plain, other = (
        exchanges(shots, replace(HOME, venue=each)) for each in (FULL_COURT, VENUES[name])
    )

    assert other.contact_time_s != pytest.approx(plain.contact_time_s, abs=1e-4)


def test_a_serve_is_read_later_and_cannot_be_volleyed():
    contact = Contact(x_m=0.9, depth_m=11.885, height_m=2.7)
    serve = Moment(contact=contact, area=Area.FROM_RIGHT, opponent_depth_m=2.0)
    shots = aimed_shots(contact, np.array([-2.0]), 5.0, 0.5, 1000.0, FULL_COURT)

    done = exchanges(shots, serve)

    assert serve.opponent_reaction_s > HOME.opponent_reaction_s
    assert done.contact_time_s > done.flight_time_s


def test_serving_without_a_service_line_is_said_at_once():
    moment = replace(HOME, venue=Venue(court=court_for(Stage.RED)), area=Area.FROM_LEFT)

    with pytest.raises(ValueError, match="no service line"):
        exchanges(high_balls(HOME, [(0.0, 5.0)]), moment)


def test_impossible_places_are_named_with_their_range():
    under = replace(
        HOME, contact=Contact(x_m=0.0, depth_m=12.0, height_m=-0.2), opponent_depth_m=40.0
    )

    remarks = [each for each in remarks_on(under) if each.is_impossible]

    assert [each.quantity for each in remarks] == [
        Quantity.CONTACT_HEIGHT,
        Quantity.OPPONENT_DEPTH,
    ]
    assert remarks_on(HOME) == ()
    assert HOME.hitter is CLUB


def test_wind_is_remarked_on_in_the_unit_it_is_told_in():
    stormy = replace(FULL_COURT, air=Air(wind_along_ms=-20.0))

    (remark,) = remarks_on(replace(HOME, venue=stormy))

    assert remark.sentence == (
        "wind along the court -72 km/h is unusual: -32 to 32 km/h is common; it was computed all "
        "the same"
    )
