import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.flight.bounce import bounce, grip_share, meet, pace_rating
from tactics.flight.constants import GREEN, HARD, ORANGE, RED_FELT, SURFACES, YELLOW, SurfaceName
from tactics.flight.court import FULL_SINGLES
from tactics.flight.motion import launches
from tactics.flight.path import trace
from tactics.flight.trajectory import fly
from tests.flight.strategies import mirrored, shots, surfaces


def total_energy(motion):
    turn = YELLOW.inertia_share * YELLOW.radius_m**2 * (motion.spin_rad_s**2).sum(axis=0)
    return (motion.velocity_ms**2).sum(axis=0) / 2 + turn / 2


def slip_speed(motion):
    vx, vy, _ = motion.velocity_ms
    wx, wy, _ = motion.spin_rad_s
    return vx - YELLOW.radius_m * wy, vy + YELLOW.radius_m * wx


@given(shots(), surfaces)
def test_a_bounce_never_adds_energy(launch, surface):
    landing = fly(launch).landing

    after = bounce(landing, surface=surface)

    assert (total_energy(after) <= total_energy(landing) * (1 + 1e-12)).all()


@given(shots(), surfaces)
def test_friction_only_ever_works_against_the_slip(launch, surface):
    landing = fly(launch).landing

    before, after = slip_speed(landing), slip_speed(bounce(landing, surface=surface))

    share = surface.grip_restitution
    for was, is_now in zip(before, after, strict=True):
        assert (np.abs(is_now) <= np.abs(was) + 1e-9).all()
        assert (is_now * was >= -(share + 1e-9) * was**2 - 1e-9).all()


@given(shots(), surfaces)
def test_a_mirrored_ball_bounces_to_the_mirrored_side(launch, surface):
    landing = fly(launch).landing

    one, other = bounce(landing, surface=surface), bounce(mirrored(landing), surface=surface)

    assert other.velocity_ms == pytest.approx(mirrored(one).velocity_ms, abs=1e-9)
    assert other.spin_rad_s == pytest.approx(mirrored(one).spin_rad_s, abs=1e-9)


@given(shots(), st.floats(0.2, 2.0), st.floats(0.0, 4.0))
def test_the_opponent_meets_the_ball_after_the_bounce_and_before_the_next(launch, height, behind):
    landing = fly(launch).landing
    after = bounce(landing)

    contact = meet(after, FULL_SINGLES, height_m=height, latest_behind_m=behind)

    second = fly(after).landing
    known = contact.happens & (landing.position_m[1] < 11.885 + behind)
    assert (contact.time_s >= landing.time_s - 1e-9)[known].all()
    assert (contact.time_s <= second.time_s + 1e-9)[known].all()
    assert (contact.position_m[1] <= 11.885 + behind + 1e-6)[known].all()


def test_the_opponent_meets_a_falling_ball_at_the_wanted_height():
    high = bounce(fly(launches(x_m=0, y_m=-12, z_m=1, pace_ms=18, elevation_deg=40)).landing)

    contact = meet(high, FULL_SINGLES, latest_behind_m=30.0)

    assert contact.position_m[2] == pytest.approx(0.9, abs=1e-4)
    assert contact.velocity_ms[2] < 0


def test_a_ball_that_stays_low_is_met_at_its_top():
    low = bounce(fly(launches(x_m=0, y_m=-5, z_m=0.5, pace_ms=15, elevation_deg=5)).landing)

    contact = meet(low, FULL_SINGLES)

    top = trace(low).apex()
    assert top.position_m[2] < 0.9
    assert contact.position_m == pytest.approx(top.position_m, abs=1e-6)


def test_a_ball_that_flies_on_is_met_at_the_latest_place():
    deep = bounce(fly(launches(x_m=0, y_m=-12, z_m=1, pace_ms=19, elevation_deg=48)).landing)

    contact = meet(deep, FULL_SINGLES)

    assert contact.position_m[1] == pytest.approx(11.885 + 2.0, abs=1e-4)
    assert contact.position_m[2] > 0.9


def test_steep_balls_grip_and_flat_ones_slide():
    landing = fly(
        launches(x_m=0, y_m=-12, z_m=[0.6, 1.0], pace_ms=[19, 30], elevation_deg=[48, 6])
    ).landing

    share = grip_share(landing)

    assert share[0] == pytest.approx(1.0)
    assert share[1] < 0.9


def test_a_ball_without_slip_keeps_its_pace_along_the_ground():
    rolling = fly(launches(x_m=0, y_m=-12, z_m=2, pace_ms=0.0, elevation_deg=0)).landing

    after = bounce(rolling)

    assert after.velocity_ms[:2, 0].tolist() == [0.0, 0.0]
    assert after.velocity_ms[2] == pytest.approx(-HARD.restitution * rolling.velocity_ms[2])


def test_courts_rank_by_pace_as_players_say():
    grass, hard, clay = (pace_rating(SURFACES[name]) for name in SurfaceName)

    assert grass > hard > clay
    assert grass == pytest.approx(49, abs=0.6)
    assert clay == pytest.approx(20, abs=0.6)


def test_a_warmer_court_is_read_at_the_same_temperature():
    assert pace_rating(HARD, temperature_c=33.0) == pytest.approx(pace_rating(HARD) + 4.5)


def test_children_s_balls_bounce_lower():
    drop = launches(x_m=0, y_m=-5, z_m=2.54, pace_ms=0.0, elevation_deg=0)

    rises = [
        bounce(fly(drop, ball=ball).landing, ball=ball).velocity_ms[2, 0]
        for ball in (YELLOW, GREEN, ORANGE, RED_FELT)
    ]

    assert rises == sorted(rises, reverse=True)
