"""The estimate of the point: the laws it keeps, with their known limits."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.flight.assumptions import (
    DRAWS,
    RANGES,
    SPOKEN_IN_DOUBLES,
    SPOKEN_IN_WIND,
    SPOKEN_ON_SMALL_COURTS,
    drawn_assumptions,
)
from tactics.flight.constants import Air
from tactics.flight.court import Format, Stage, court_for
from tactics.flight.estimate import point_values
from tactics.flight.exchange import exchanges
from tactics.flight.levels import BEGINNER, CLUB, COMPETITIVE, TOUR
from tactics.flight.moment import Moment, home_depth_m
from tactics.flight.point import (
    TIE,
    compare_shots,
    drawn_values,
    order_of,
    point_order,
    point_ranges,
    serve_chance,
    spoken_assumptions,
)
from tactics.flight.scatter import level_scatter
from tactics.flight.shots import Contact
from tactics.flight.venue import FULL_COURT, Venue
from tests.flight.exchange_strategies import (
    aimed_shots,
    high_balls,
    mirrored_moment,
    mirrored_shots,
    moments,
    targets,
)

POWER = 4  # 32 balls a shot: laws hold ball by ball
HOME = Moment(contact=Contact(x_m=0.0, depth_m=12.885, height_m=0.95))


def chances(shots, moment, **more):
    return point_values(shots, moment, power=POWER, **more).chance


@settings(max_examples=15, deadline=None)
@given(moments, targets)
def test_the_estimate_is_the_same_mirrored(moment, places):
    shots = high_balls(moment, places)

    here, there = chances(shots, moment), chances(mirrored_shots(shots), mirrored_moment(moment))

    # one of the 1024 balls that give the share in may land on the line itself
    assert there == pytest.approx(here, abs=1.5e-3, nan_ok=True)


@settings(max_examples=15, deadline=None)
@given(moments, targets)
def test_the_chance_lies_between_nothing_and_the_share_in(moment, places):
    shots = high_balls(moment, places)

    values = point_values(shots, moment, power=POWER)

    exists = shots.exists
    assert (values.chance[exists] >= 0.0).all()
    assert (values.chance[exists] <= values.share_in[exists]).all()


@settings(max_examples=10, deadline=None)
@given(moments, targets)
def test_nobody_who_cannot_reach_a_ball_wins_against_it(moment, places):
    shots = high_balls(moment, places)

    values = point_values(shots, replace(moment, opponent_late_s=60.0), power=POWER)

    assert values.chance == pytest.approx(values.share_in, abs=1e-6, nan_ok=True)


@settings(max_examples=15, deadline=None)
@given(moments, targets, st.floats(0.0, 0.6), st.floats(0.02, 0.6))
def test_a_later_opponent_never_costs_the_hitter(moment, places, late, more):
    shots = high_balls(moment, places)

    soon, later = (
        chances(shots, replace(moment, opponent_late_s=each)) for each in (late, late + more)
    )

    assert not (later < soon - 1e-9).any()


@settings(max_examples=15, deadline=None)
@given(moments, targets, st.floats(0.0, 3.0), st.floats(0.1, 3.0))
def test_a_longer_way_home_never_helps_the_hitter(moment, places, extra, more):
    shots = high_balls(moment, places)

    near, far = (chances(shots, moment, extra_m=each) for each in (extra, extra + more))

    assert not (far > near + 1e-9).any()


@settings(max_examples=12, deadline=None)
@given(
    moments,
    st.tuples(st.floats(-3.5, 3.5), st.floats(7, 10)),
    st.tuples(st.floats(-5, 5), st.floats(13.9, 17)),
)
def test_an_opponent_a_metre_nearer_to_the_ball_helps_the_hitter_by_a_point_at_most(
    moment, place, stands
):
    shots = high_balls(moment, [place])
    far = replace(moment, opponent_x_m=stands[0], opponent_depth_m=stands[1])
    done = exchanges(shots, far)
    to_x, to_y = done.contact_x_m[0] - stands[0], done.contact_y_m[0] - stands[1]
    way = max(float(np.hypot(to_x, to_y)), 1.0)
    near = replace(
        far,
        opponent_x_m=stands[0] + float(to_x) / way,
        opponent_depth_m=stands[1] + float(to_y) / way,
    )

    gained = chances(shots, near) - chances(shots, far)

    # stepping towards one meeting leads away from others, least so for who stands behind the ball
    assert not (gained > 0.01).any()


@settings(max_examples=12, deadline=None)
@given(moments, targets, st.floats(0.0, 3.0), st.floats(0.0, 4.0))
def test_an_opponent_nearer_to_every_place_of_the_path_never_helps_the_hitter(
    moment, places, forward, inwards
):
    shots = high_balls(moment, places)
    # nobody meets a ball further back than 5 m behind the baseline, and none flies so far aside
    corner = replace(moment, opponent_x_m=14.0, opponent_depth_m=20.0)
    nearer = replace(corner, opponent_x_m=14.0 - inwards, opponent_depth_m=20.0 - forward)

    far, near = (chances(shots, each) for each in (corner, nearer))

    assert not (near > far + 1e-9).any()


INSIDE = np.arange(0.2, 4.2, 0.4)


def best_inside(level, scatter, opponent_x):
    moment = Moment(
        contact=Contact(x_m=0.0, depth_m=home_depth_m(level, FULL_COURT), height_m=0.95),
        hitter=level,
        opponent=level,
        opponent_x_m=opponent_x,
        own_scatter=level_scatter(level).times(scatter),
    )
    shots = aimed_shots(
        moment.contact,
        4.115 - INSIDE,
        8.4,
        {"club": 1.6, "competitive": 0.75, "tour": 0.55}[level.name],
        level.rally_spin_rpm,
        FULL_COURT,
    )
    values = point_values(shots, moment).chance
    return INSIDE[values >= np.nanmax(values) - TIE]


@pytest.mark.parametrize("level", [CLUB, COMPETITIVE, TOUR], ids=lambda level: level.name)
@pytest.mark.parametrize("opponent_x", [0.0, -3.5], ids=["at home", "pulled wide"])
def test_with_more_scatter_the_best_aim_is_never_nearer_to_the_line(level, opponent_x):
    ties = [best_inside(level, factor, opponent_x) for factor in (0.5, 0.7, 1.0, 1.4)]

    steps = list(pairwise(ties))
    assert all(wild.max() >= calm.min() for calm, wild in steps)
    assert ties[-1].max() > ties[0].min()


HEIGHTS = np.array([0.7, 1.0, 1.5, 2.0, 2.5, 3.0])


@pytest.mark.parametrize(
    ("level", "spin"),
    [(CLUB, 1500.0), (COMPETITIVE, 2400.0), (TOUR, 3000.0)],
    ids=lambda v: str(v)[:5],
)
def test_a_longer_way_home_asks_for_a_higher_flight(level, spin):
    contact = Contact(x_m=0.0, depth_m=12.885, height_m=0.95)
    moment = Moment(contact=contact, hitter=level, opponent=level)
    shots = aimed_shots(contact, np.zeros(6), 9.385, HEIGHTS, spin, FULL_COURT)

    rows = [chances(shots, moment, extra_m=extra) for extra in (0.0, 1.0, 2.0, 3.0)]

    best = [HEIGHTS[row >= row.max() - TIE] for row in rows]
    steps = list(pairwise(best))
    assert all(longer.max() >= short.min() for short, longer in steps)
    assert best[-1].max() > best[0].min()


@pytest.mark.parametrize("level", [BEGINNER, CLUB, COMPETITIVE, TOUR], ids=lambda v: v.name)
def test_between_equals_a_neutral_rally_is_about_even(level):
    moment = Moment(
        contact=Contact(x_m=0.0, depth_m=home_depth_m(level, FULL_COURT), height_m=0.95),
        hitter=level,
        opponent=level,
    )
    x, y, height = (
        each.ravel()
        for each in np.meshgrid(
            [0.0, 1.0, 2.1, 3.1], [7.4, 8.385, 9.385], [0.5, 0.8, 1.4, 2.0, 2.6]
        )
    )
    shots = aimed_shots(moment.contact, x, y, height, level.rally_spin_rpm, FULL_COURT)
    known = shots.only(shots.pace_ms <= 1.15 * level.rally_pace_ms)

    assert np.nanmax(point_values(known, moment).chance) == pytest.approx(0.5, abs=0.06)


def test_the_draws_cover_every_range_evenly_and_never_change():
    draws = drawn_assumptions()

    for name, (low, high) in RANGES.items():
        values = np.sort([getattr(each, name) for each in draws])
        assert np.diff(values) == pytest.approx((high - low) / DRAWS)
        assert low < values[0]
        assert values[-1] < high
    assert drawn_assumptions() is draws


def test_no_two_assumptions_move_together():
    table = np.array([[getattr(each, name) for name in RANGES] for each in drawn_assumptions()])

    together = np.abs(np.corrcoef(table.T) - np.eye(len(RANGES)))

    assert together.max() < 0.25


def test_the_order_names_shots_without_values_and_leaves_out_the_impossible():
    order = order_of(np.array([0.31, np.nan, 0.455, 0.45]))

    assert order.numbers == (2, 3, 0)
    assert order.behind_points == (0, 0, 15)
    assert order.tied_with_best == (2, 3)
    assert order_of(np.array([np.nan])).numbers == ()


def test_the_order_comes_out_of_the_estimate():
    shots = high_balls(HOME, [(0.0, 8.4), (3.9, 11.5)])

    assert point_order(shots, HOME).numbers == (0, 1)


def test_a_range_is_in_steps_of_five_and_carries_its_assumptions():
    draws = [np.array([0.3 + 0.001 * k, np.nan]) for k in range(40)]

    known, impossible = point_ranges(draws, HOME)

    assert (known.low_pct, known.high_pct) == (30, 35)
    assert known.assumptions == spoken_assumptions(HOME)
    assert impossible is None


def test_two_shots_are_compared_draw_by_draw():
    draws = [np.array([0.5, 0.4 + 0.2 * (k < 4), 0.5, np.nan]) for k in range(40)]

    assert compare_shots(draws, 0, 1).share_first == 0.9
    assert compare_shots(draws, 0, 1).survives
    assert not compare_shots(draws, 0, 2).survives
    assert compare_shots(draws, 0, 3) is None


def test_the_range_of_a_rally_ball_holds_its_middle_value():
    shots = high_balls(HOME, [(0.0, 8.4)], height_m=1.8)

    (found,) = point_ranges(drawn_values(shots, HOME), HOME)

    middle = 100 * point_values(shots, HOME).chance[0]
    assert found.low_pct - 5 <= middle <= found.high_pct + 5
    assert found.low_pct < found.high_pct


def test_a_second_serve_counts_after_a_fault():
    assert serve_chance(np.array(0.4), np.array(0.6), np.array(0.5)) == pytest.approx(0.6)


def test_wind_doubles_and_small_courts_are_said():
    windy = replace(HOME, venue=Venue(air=Air(wind_along_ms=3.0)))
    small = replace(HOME, venue=Venue(court=court_for(Stage.RED)))
    doubles = replace(HOME, venue=Venue(court=court_for(format_=Format.DOUBLES)))

    assert SPOKEN_IN_WIND in spoken_assumptions(windy)
    assert SPOKEN_ON_SMALL_COURTS in spoken_assumptions(small)
    assert SPOKEN_IN_DOUBLES in spoken_assumptions(doubles)
    assert SPOKEN_IN_WIND not in spoken_assumptions(HOME)
