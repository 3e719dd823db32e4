"""The table of levels and free numbers, and the one thing that it is set by."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from tactics.flight.assumptions import MIDDLE, RANGES, Assumptions, drawn_assumptions
from tactics.flight.estimate import point_values
from tactics.flight.launch import aim
from tactics.flight.levels import CLUB, COMPETITIVE, LEVELS, TOUR
from tactics.flight.moment import Moment, home_depth_m
from tactics.flight.shots import Contact, Shots
from tactics.flight.strike import Strike
from tactics.flight.venue import FULL_COURT

# scatter of elevation, azimuth (degrees), speed and spin; rally pace (m/s) and spin (rpm), place
# behind the baseline (m), reaction (s); running: acceleration (m/s2) and top speed
# (m/s); first serve (m/s) and reaction to a serve (s)
TABLE = {
    "tour": (1.0, 1.8, 0.045, 0.10, 33.0, 2700.0, 2.0, 0.10, 7.0, 8.0, 52.0, 0.18),
    "competitive": (1.4, 2.6, 0.055, 0.12, 29.0, 2200.0, 1.5, 0.14, 6.5, 7.5, 44.0, 0.21),
    "club": (2.2, 4.0, 0.08, 0.20, 21.0, 1000.0, 1.0, 0.18, 5.5, 6.5, 35.0, 0.25),
    "beginner": (3.5, 6.0, 0.13, 0.30, 17.5, 0.0, 0.5, 0.25, 4.5, 5.5, 25.0, 0.30),
}
COLUMNS = (
    "sd_elevation_deg", "sd_azimuth_deg", "sd_speed", "sd_spin", "rally_pace_ms", "rally_spin_rpm",
    "behind_baseline_m", "reaction_s", "acceleration_ms2", "top_speed_ms",
    "serve_pace_ms", "serve_reaction_s",
)  # fmt: skip
CALIBRATED = {
    "tour": (1.08, -0.401, -0.453),
    "competitive": (1.14, 0.029, 0.224),
    "club": (1.64, 0.312, 0.223),
    "beginner": (1.86, 0.678, 0.746),
}
FREE = {
    "reach_m": 1.20, "split_step": 0.87, "stroke_end_s": 0.25, "reaction_shift_s": 0.0,
    "hitter_scatter": 1.0, "opponent_scatter": 1.0, "drag": 0.53, "loss_when_late": 0.22,
    "spread_time_s": 0.15, "set_spare_s": 0.35, "late_factor": 1.6, "late_pace_cap": 0.85,
    "late_pace_share": 0.85, "pace_growth": 1.0, "gain_from_attack": 0.15,
}  # fmt: skip
FIRST_SERVES_KMH = {
    "beginner": (80, 120), "club": (120, 150), "competitive": (140, 165), "tour": (170, 215),
}  # fmt: skip


@pytest.mark.parametrize("name", TABLE)
def test_a_level_is_what_its_row_says(name):
    level = LEVELS[name]

    assert tuple(getattr(level, column) for column in COLUMNS) == TABLE[name]
    assert (level.rally_spare_s, level.reply_odds, level.point_odds) == CALIBRATED[name]


@pytest.mark.parametrize("name", FIRST_SERVES_KMH)
def test_a_first_serve_is_as_fast_as_that_level_was_seen_to_serve(name):
    low, high = FIRST_SERVES_KMH[name]

    assert low <= 3.6 * LEVELS[name].serve_pace_ms <= high


def test_the_free_numbers_are_in_the_middle_of_what_is_drawn():
    drawn = drawn_assumptions()

    assert {name: getattr(MIDDLE, name) for name in FREE} == FREE
    assert set(RANGES) == set(FREE) == set(Assumptions.__dataclass_fields__)
    for name, (low, high) in RANGES.items():
        values = [getattr(each, name) for each in drawn]
        assert low <= min(values) < FREE[name] < max(values) <= high


@pytest.mark.parametrize("level", [CLUB, COMPETITIVE, TOUR], ids=lambda level: level.name)
def test_between_equals_the_best_neutral_ball_is_worth_half_the_points(level):
    depth = home_depth_m(level, FULL_COURT)
    contact = Contact(x_m=0.0, depth_m=depth, height_m=0.95)
    options = product((0.7, 0.85, 1.0, 1.15), (10.385, 9.385, 8.385, 7.4), (0.0, 1.0, 2.1, 3.1))
    pace, y, x = np.array(list(options)).T
    done = aim(
        Strike(x_m=0.0, y_m=-depth, z_m=0.95, topspin_rpm=level.rally_spin_rpm),
        target_x_m=x, landing_y_m=y, pace_ms=pace * level.rally_pace_ms,
    )  # fmt: skip
    shots = Shots(
        contact=contact, pace_ms=done.pace_ms, elevation_deg=done.elevation_deg,
        azimuth_deg=done.azimuth_deg, topspin_rpm=np.full(pace.size, level.rally_spin_rpm),
        sidespin_rpm=np.zeros(pace.size),
    ).only(done.is_possible)  # fmt: skip

    moment = Moment(contact=contact, hitter=level, opponent=level)
    best = np.nanmax(point_values(shots, moment).chance)
    late = np.nanmax(point_values(shots, replace(moment, opponent_late_s=0.5)).chance)

    assert best == pytest.approx(0.5, abs=0.01)
    assert late > best
