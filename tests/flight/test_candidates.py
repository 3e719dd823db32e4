"""The grid of candidates and the short list of the best."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.flight.candidates import (
    MOST_PACE,
    SHORTLIST,
    best,
    candidate_grid,
    fly_grid,
    shortlist,
)
from tactics.flight.constants import Air
from tactics.flight.court import Area, Format, Stage, court_for
from tactics.flight.estimate import point_values
from tactics.flight.levels import BEGINNER, CLUB, COMPETITIVE, TOUR
from tactics.flight.moment import Moment
from tactics.flight.point import TIE
from tactics.flight.scatter import Balance, Strain, level_scatter
from tactics.flight.shots import Contact
from tactics.flight.venue import Venue

HOME = Moment(contact=Contact(x_m=1.0, depth_m=12.5, height_m=0.95), hitter=COMPETITIVE)


def test_the_grid_has_at_least_three_hundred_shots_that_can_be_played():
    grid = candidate_grid(HOME)

    assert len(grid.shots) >= 300
    assert grid.shots.exists.all()
    assert (grid.shots.pace_ms <= MOST_PACE * HOME.hitter_pace_ms).all()


@pytest.mark.parametrize(
    "moment", [HOME, replace(HOME, contact=Contact(x_m=-3, depth_m=9, height_m=1.1))]
)
def test_every_candidate_lands_where_it_is_aimed_and_clears_the_net(moment):
    grid = candidate_grid(moment)

    flown = fly_grid(grid, moment)

    assert flown.landing_x_m == pytest.approx(grid.target_x_m, abs=1e-3)
    assert flown.landing_y_m == pytest.approx(grid.target_y_m, abs=1e-3)
    assert (flown.height_over_net_m >= 0.0).all()


def test_the_short_list_holds_the_best_of_the_whole_grid():
    grid = candidate_grid(HOME)
    chosen = shortlist(grid, fly_grid(grid, HOME), HOME)

    everything = point_values(grid.shots, HOME, power=2).chance

    assert everything[chosen].max() >= everything.max() - 2 * TIE


def test_the_best_come_in_order_without_values():
    found = best(HOME)

    assert len(found.candidates.shots) == SHORTLIST
    assert sorted(found.order.numbers) == list(range(SHORTLIST))
    assert found.order.behind_points[0] == 0
    assert list(found.order.behind_points) == sorted(found.order.behind_points)
    assert len(found.exchanges) == SHORTLIST


def test_the_answer_is_the_same_every_time():
    assert best(HOME).order == best(HOME).order


@settings(max_examples=5, deadline=None)
@given(
    st.sampled_from([CLUB, COMPETITIVE, TOUR]),
    st.floats(-3.0, 3.0),
    st.floats(-3.5, 3.5),
    st.sampled_from([(0.5, 1.0), (0.7, 1.4), (1.0, 2.0)]),
)
def test_more_scatter_never_makes_the_best_choice_bolder(level, x, opponent_x, factors):
    moment = Moment(
        contact=Contact(x_m=x, depth_m=12.5, height_m=0.95),
        hitter=level,
        opponent=level,
        opponent_x_m=opponent_x,
    )
    grid = candidate_grid(moment)
    grid = grid.only(np.arange(0, len(grid.shots), 2))  # every other one: half the time
    inside = 4.115 - np.abs(grid.target_x_m)

    calm, wild = (
        _ties(grid, replace(moment, own_scatter=level_scatter(level).times(factor)))
        for factor in factors
    )

    closer = inside[wild].max() <= inside[calm].min()
    faster = grid.shots.pace_ms[wild].min() >= grid.shots.pace_ms[calm].max()
    strictly = (
        inside[wild].max() < inside[calm].min()
        or grid.shots.pace_ms[wild].min() > grid.shots.pace_ms[calm].max()
    )
    assert not (closer and faster and strictly)


def _ties(grid, moment):
    values = point_values(grid.shots, moment, power=3, sample_s=0.2).chance
    return np.flatnonzero(values >= values.max() - TIE)


def test_a_stretched_beginner_still_gets_an_answer():
    moment = Moment(
        contact=Contact(x_m=5.0, depth_m=13.5, height_m=0.4),
        hitter=BEGINNER,
        strain=Strain(balance=Balance.STRETCHED, has_little_time=True),
    )

    assert best(moment).order.numbers


@pytest.mark.parametrize("stage", Stage)
@pytest.mark.parametrize("format_", Format)
def test_every_stage_and_format_has_a_short_list(stage, format_):
    venue = Venue(court=court_for(stage, format_), air=Air(wind_along_ms=2.0, wind_across_ms=-2.0))
    contact = Contact(x_m=0.5, depth_m=12.0 * venue.length_scale, height_m=0.8)

    found = best(Moment(contact=contact, hitter=CLUB, opponent=CLUB, venue=venue), 6)

    assert len(found.order.numbers) == 6
    assert (found.exchanges.shares.into_court > 0.2).all()


@pytest.mark.parametrize("area", [Area.FROM_RIGHT, Area.FROM_LEFT])
def test_serves_land_in_the_box_of_their_side(area):
    side = 1.0 if area is Area.FROM_RIGHT else -1.0
    moment = Moment(
        contact=Contact(x_m=0.9 * side, depth_m=11.885, height_m=2.7),
        strain=Strain(is_serve=True),
        hitter=COMPETITIVE,
        area=area,
    )

    grid = candidate_grid(moment)

    assert len(grid.shots) > 200
    assert (np.sign(grid.target_x_m) == -side).all()
    assert best(moment, 5).order.numbers


def test_a_left_hander_s_serves_curve_the_other_way():
    moment = Moment(contact=Contact(x_m=0.9, depth_m=11.885, height_m=2.7), area=Area.FROM_RIGHT)

    right, left = (candidate_grid(moment, server_curves_left=each) for each in (True, False))

    assert right.shots.sidespin_rpm.max() > 0.0
    assert left.shots.sidespin_rpm.min() < 0.0


def test_a_contact_from_which_nothing_can_be_played_has_no_best():
    under = Moment(contact=Contact(x_m=0.0, depth_m=0.06, height_m=0.04), hitter=BEGINNER)

    assert best(under).order.numbers == ()
