"""Shares of balls in, and the margins that give a wanted share."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import qmc

from tactics.flight.court import Area
from tactics.flight.launch import aim
from tactics.flight.levels import BEGINNER, CLUB, COMPETITIVE, TOUR
from tactics.flight.margin import (
    WANTED,
    Margin,
    Stroke,
    margin_curve,
    margin_for,
    most_pace_ms,
)
from tactics.flight.ranges import OutOfRange
from tactics.flight.scatter import level_scatter
from tactics.flight.shares import shares_of_balls
from tactics.flight.shots import Contact, Shots, spread_of
from tactics.flight.strike import Strike
from tactics.flight.trajectory import clearance_m, fly
from tactics.flight.venue import FULL_COURT
from tests.flight.exchange_strategies import (
    LEVELS,
    aimed_shots,
    contacts,
    high_balls,
    mirrored_shots,
    moments,
)
from tests.flight.exchange_strategies import targets as places

BOX = FULL_COURT.court.box()
CONTACT = Contact(x_m=1.0, depth_m=12.585, height_m=0.95)


def one_shot(contact, pace, elevation, azimuth, topspin, side=0.0):
    columns = [np.array([float(each)]) for each in (pace, elevation, azimuth, topspin, side)]
    names = ("pace_ms", "elevation_deg", "azimuth_deg", "topspin_rpm", "sidespin_rpm")
    return Shots(contact=contact, **dict(zip(names, columns, strict=True)))


SIMULATED = {
    "club rally ball": (CLUB, 1.0, one_shot(CONTACT, 21, 20.2, -2.6, 1000), Area.COURT),
    "club stretched drive": (
        CLUB,
        1.6,
        one_shot(Contact(x_m=6.115, depth_m=13.885, height_m=0.8), 27, 9.693, -7.81, 400),
        Area.COURT,
    ),
    "tour serve": (
        TOUR,
        0.6,
        one_shot(Contact(x_m=-0.9, depth_m=11.885, height_m=2.7), 42, -3.2, 12, 900, -2000),
        Area.FROM_LEFT,
    ),
    "beginner low ball": (
        BEGINNER,
        1.2,
        one_shot(Contact(x_m=0.0, depth_m=2.5, height_m=0.614), 13, 20, 4, -500),
        Area.COURT,
    ),
    "tour short angle": (TOUR, 1.25, one_shot(CONTACT, 27, 10, -12, 3200), Area.COURT),
}


@pytest.mark.parametrize("name", SIMULATED)
def test_the_share_in_is_that_of_direct_simulation_within_a_third_of_a_point(name):
    level, factor, shot, area = SIMULATED[name]
    spread = spread_of([level_scatter(level).times(factor)])
    box = FULL_COURT.court.box(area)

    shares = shares_of_balls(shot, spread, FULL_COURT, box)

    draws = qmc.MultivariateNormalQMC(np.zeros(4), rng=np.random.default_rng(1)).random(2**17)
    flight = fly(shot.scattered(draws, spread), step_s=0.1)
    x, y, _ = flight.landing.position_m
    is_in = (clearance_m(flight.crossing, FULL_COURT.court) >= 0) & box.contains(x, y)
    assert shares.into_court == pytest.approx(is_in.mean(), abs=0.003)


@settings(max_examples=20, deadline=None)
@given(moments, places)
def test_the_shares_add_up_to_one_and_are_the_same_mirrored(moment, targets):
    shots = high_balls(moment, targets)
    spread = spread_of([moment.scatter] * len(shots))

    shares = shares_of_balls(shots, spread, FULL_COURT, BOX)
    other = shares_of_balls(mirrored_shots(shots), spread, FULL_COURT, BOX)

    total = shares.into_court + shares.into_net + shares.long + shares.wide
    assert total == pytest.approx(np.where(shots.exists, 1.0, np.nan), nan_ok=True)
    assert other.into_court == pytest.approx(shares.into_court, abs=5e-4, nan_ok=True)
    assert other.wide == pytest.approx(shares.wide, abs=5e-4, nan_ok=True)


@settings(max_examples=25, deadline=None)
@given(contacts, LEVELS, st.floats(0.4, 1.6), st.floats(1.05, 2.0), st.floats(0.8, 2.5))
def test_more_scatter_never_raises_the_share_in_of_a_ball_aimed_at_the_middle(
    contact, level, factor, more, height
):
    middle = aimed_shots(contact, np.zeros(1), 7.5, height, 800.0, FULL_COURT)
    scatter = level_scatter(level).times(factor)

    calm, wild = (
        shares_of_balls(middle, spread_of([each]), FULL_COURT, BOX).into_court
        for each in (scatter, scatter.times(more))
    )

    # three tenths of a point is what the quadrature is good for
    assert wild <= calm + 0.003


def test_a_shot_that_does_not_exist_has_no_shares():
    shares = shares_of_balls(
        one_shot(CONTACT, 20, np.nan, 0, 0), spread_of([level_scatter(CLUB)]), FULL_COURT, BOX
    )

    assert np.isnan([shares.into_court, shares.into_net, shares.long, shares.wide]).all()


strokes = st.builds(
    Stroke,
    contact=contacts,
    pace_ms=st.floats(17, 30),
    topspin_rpm=st.floats(500, 3000),
    line=st.sampled_from([-1, 1]),
)


@settings(max_examples=20, deadline=None)
@given(strokes, LEVELS, st.floats(0.6, 1.0), st.floats(1.05, 1.6))
def test_no_margin_shrinks_with_scatter(stroke, level, factor, more):
    scatter = level_scatter(level).times(factor)

    calm, wild = (margin_curve(stroke, each) for each in (scatter, scatter.times(more)))

    reached = [(a, b) for a, b in zip(calm, wild, strict=True) if a and b and b.is_enough]
    assert all(a.is_enough for a, _ in reached)
    assert all(b.inside_line_m >= a.inside_line_m - 0.02 for a, b in reached)
    assert all(b.height_over_net_m >= a.height_over_net_m - 0.02 for a, b in reached)


@settings(max_examples=8, deadline=None)
@given(strokes, LEVELS)
def test_a_higher_wanted_share_never_asks_for_a_smaller_margin(stroke, level):
    curve = [each for each in margin_curve(stroke, level_scatter(level)) if each]

    inside = [each.inside_line_m for each in curve]
    height = [each.height_over_net_m for each in curve]

    assert inside == sorted(inside)
    assert height == sorted(height)


@settings(max_examples=8, deadline=None)
@given(strokes, LEVELS, st.sampled_from(WANTED))
def test_margins_are_the_same_mirrored(stroke, level, wanted):
    contact = Contact(
        x_m=-stroke.contact.x_m, depth_m=stroke.contact.depth_m, height_m=stroke.contact.height_m
    )
    other = Stroke(
        contact=contact,
        pace_ms=stroke.pace_ms,
        topspin_rpm=stroke.topspin_rpm,
        line=-stroke.line,
    )

    here, there = (margin_for(each, level_scatter(level), wanted) for each in (stroke, other))

    assert (here is None) == (there is None)
    assert not here or there.inside_line_m == pytest.approx(here.inside_line_m, abs=0.02)
    assert not here or there.height_over_net_m == pytest.approx(here.height_over_net_m, abs=0.02)


@pytest.mark.parametrize("level", [CLUB, COMPETITIVE, TOUR], ids=lambda level: level.name)
def test_an_aim_that_is_enough_gives_the_wanted_share_when_it_is_flown(level):
    stroke = Stroke(contact=CONTACT, pace_ms=level.rally_pace_ms, topspin_rpm=level.rally_spin_rpm)
    found = margin_for(stroke, level_scatter(level), 0.8)
    assert isinstance(found, Margin)

    shot = _aimed(stroke, found)
    spread = spread_of([level_scatter(level)])
    shares = shares_of_balls(shot, spread, FULL_COURT, BOX)

    assert shares.into_court == pytest.approx(0.8, abs=0.015)


SERVES = {
    "wide from the right": (Area.FROM_RIGHT, 0.9, -1),
    "down the T from the right": (Area.FROM_RIGHT, 0.9, 1),
    "wide from the left": (Area.FROM_LEFT, -0.9, 1),
}


@pytest.mark.parametrize("serve", SERVES.values(), ids=SERVES)
def test_a_serves_margin_is_that_of_its_box(serve):
    area, x, line = serve
    contact = Contact(x_m=x, depth_m=11.885, height_m=2.7)
    stroke = Stroke(contact=contact, pace_ms=38.0, topspin_rpm=1200.0, line=line, area=area)
    scatter = level_scatter(COMPETITIVE).times(0.6)
    found = margin_for(stroke, scatter, 0.7)
    assert isinstance(found, Margin)

    shot = _aimed(stroke, found)
    shares = shares_of_balls(shot, spread_of([scatter]), FULL_COURT, stroke.box(FULL_COURT))

    assert found.is_enough
    assert shares.into_court == pytest.approx(0.7, abs=0.015)
    assert shares.into_net == pytest.approx(found.share_net, abs=0.015)
    assert shares.long == pytest.approx(found.share_long, abs=0.015)


@pytest.mark.parametrize("factor", [0.3, 1.0])
def test_as_many_balls_meet_the_net_as_fly_wide(factor):
    stroke = Stroke(contact=CONTACT, pace_ms=21.0, topspin_rpm=1000.0)

    found = margin_for(stroke, level_scatter(CLUB).times(factor), 0.7)

    assert isinstance(found, Margin)
    past_the_net = 1.0 - found.share_net - found.share_long
    assert found.share_wide / past_the_net == pytest.approx(found.share_net, abs=0.01)


@pytest.mark.parametrize("level", [CLUB, COMPETITIVE, TOUR], ids=lambda level: level.name)
def test_no_height_gives_more_balls_in_than_the_best_margin(level):
    stroke = Stroke(contact=CONTACT, pace_ms=1.3 * level.rally_pace_ms, topspin_rpm=500.0)
    scatter = level_scatter(level)
    found = margin_for(stroke, scatter, 0.99)
    assert isinstance(found, Margin)

    heights = np.arange(0.1, 3.0, 0.1)
    done = aim(
        Strike(x_m=1.0, y_m=-12.585, z_m=0.95, topspin_rpm=500.0),
        target_x_m=0.0, pace_ms=stroke.pace_ms, height_over_net_m=heights,
    )  # fmt: skip
    shots = [
        one_shot(CONTACT, stroke.pace_ms, done.elevation_deg[i], done.azimuth_deg[i], 500.0)
        for i in np.flatnonzero(done.is_possible)
    ]
    best = max(
        float(shares_of_balls(shot, spread_of([scatter]), FULL_COURT, BOX).into_court[0])
        for shot in shots
    )

    assert found.share_in >= best - 0.015


def _aimed(stroke, margin):
    contact = stroke.contact
    box = stroke.box(FULL_COURT)
    edge = box.x_high_m if stroke.line > 0 else box.x_low_m
    done = aim(
        Strike(
            x_m=contact.x_m,
            y_m=-contact.depth_m,
            z_m=contact.height_m,
            topspin_rpm=stroke.topspin_rpm,
        ),
        target_x_m=edge - stroke.line * margin.inside_line_m,
        pace_ms=stroke.pace_ms,
        height_over_net_m=margin.height_over_net_m,
    )
    return one_shot(
        contact, stroke.pace_ms, done.elevation_deg[0], done.azimuth_deg[0], stroke.topspin_rpm
    )


@pytest.mark.parametrize("wanted", [0.1, 1.0, float("nan")])
def test_a_share_nobody_can_want_is_named_with_its_range(wanted):
    stroke = Stroke(contact=CONTACT, pace_ms=21.0, topspin_rpm=1000.0)

    problem = margin_for(stroke, level_scatter(CLUB), wanted)

    assert isinstance(problem, OutOfRange)
    assert "0.3 to 0.99 is possible" in problem.sentence


def test_too_much_pace_is_not_enough_and_less_pace_is():
    hard = Stroke(contact=CONTACT, pace_ms=31.0, topspin_rpm=500.0)
    scatter = level_scatter(CLUB)

    at_once = margin_for(hard, scatter, 0.75)
    pace = most_pace_ms(hard, scatter, 0.75)

    assert isinstance(at_once, Margin)
    assert not at_once.is_enough
    assert pace is not None
    assert 15.0 < pace < 31.0


def test_a_stroke_that_cannot_be_played_has_no_margin():
    stuck = Stroke(
        contact=Contact(x_m=0.0, depth_m=13.0, height_m=0.3), pace_ms=4.0, topspin_rpm=0.0
    )

    assert margin_for(stuck, level_scatter(CLUB), 0.7) is None
    assert most_pace_ms(stuck, level_scatter(CLUB), 0.7) is None
