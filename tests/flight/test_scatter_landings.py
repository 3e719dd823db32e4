"""A player's own scatter from landing places."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from tactics.flight.landings import CONFIDENCE, LandingScatter, fit_landings, measured_scatter
from tactics.flight.levels import CLUB
from tactics.flight.ranges import OutOfRange
from tactics.flight.scatter import level_scatter
from tactics.flight.shots import Contact

SHANKS = ([9.0, -8.0], [2.0, 20.0])


def balls(seed, n=20, sideways=1.2, deep=2.0):
    rng = np.random.default_rng(seed)
    return rng.normal(0.3, sideways, n), rng.normal(9.0, deep, n)


def test_the_interval_holds_the_truth_about_as_often_as_it_says():
    fits = [fit_landings(*balls(seed)) for seed in range(600)]

    held = np.mean([fit.sideways.low_m <= 1.2 <= fit.sideways.high_m for fit in fits])

    assert held == pytest.approx(CONFIDENCE, abs=0.04)


def test_a_few_shanks_are_set_aside_and_hardly_matter():
    x, y = balls(7)
    clean = fit_landings(x, y)

    shanked = fit_landings([*x, *SHANKS[0]], [*y, *SHANKS[1]])

    assert shanked.set_aside == clean.set_aside + 2
    assert shanked.n == clean.n
    assert shanked.sideways.sd_m == pytest.approx(clean.sideways.sd_m)


def test_shanks_of_a_fifth_or_more_are_the_players_scatter():
    x, y = balls(3, n=9)

    fit = fit_landings([*x, 12, -12, 13], [*y, 9, 9, 9])

    assert fit.set_aside == 0


def test_balls_that_all_lie_in_one_place_are_no_measurement():
    problems = fit_landings([1.0] * 10, [9.0] * 10)

    assert [each.sentence for each in problems] == [
        "sideways scatter 0 m cannot be used: 0.05 to 15 m is possible",
        "depth scatter 0 m cannot be used: 0.05 to 15 m is possible",
    ]


def test_the_middle_lies_in_its_interval_about_as_often_as_it_says():
    fits = [fit_landings(*balls(seed, n=12)) for seed in range(600)]

    held = np.mean([f.depth.middle_low_m <= 9.0 <= f.depth.middle_high_m for f in fits])

    assert held == pytest.approx(CONFIDENCE, abs=0.04)


@pytest.mark.parametrize("n", [8, 20, 200])
def test_intervals_are_those_of_chi_square_and_student(n):
    x, y = balls(5, n=n)
    fit = fit_landings(x, y)
    free, sd = fit.n - 1, fit.depth.sd_m

    low, high = (sd * (free / stats.chi2.ppf(share, free)) ** 0.5 for share in (0.95, 0.05))
    away = stats.t.ppf(0.95, free) * sd / fit.n**0.5

    assert (fit.depth.low_m, fit.depth.high_m) == pytest.approx((low, high), rel=0.01)
    assert fit.depth.middle_high_m - fit.depth.middle_m == pytest.approx(away, rel=0.002)


@given(st.integers(0, 500), st.floats(-5, 5), st.floats(0.2, 3))
def test_moving_or_scaling_the_balls_moves_or_scales_the_scatter(seed, move, scale):
    x, y = balls(seed)
    plain = fit_landings(x, y)

    other = fit_landings(move + scale * x, y)

    assert other.sideways.sd_m == pytest.approx(scale * plain.sideways.sd_m)
    assert other.sideways.middle_m == pytest.approx(move + scale * plain.sideways.middle_m)
    assert other.set_aside == plain.set_aside


@given(st.integers(0, 500))
def test_more_balls_narrow_the_interval(seed):
    few, many = fit_landings(*balls(seed, 12)), fit_landings(*balls(seed, 120))

    assert few.sideways.high_m / few.sideways.low_m > many.sideways.high_m / many.sideways.low_m


def test_too_few_balls_are_said_to_be_too_few():
    (problem,) = fit_landings([0.0] * 5, [9.0] * 5)

    assert isinstance(problem, OutOfRange)
    assert problem.sentence == "number of balls 5 cannot be used: 8 to 100000 is possible"


@pytest.mark.parametrize("wrong", [float("nan"), 300.0], ids=["no number", "another court"])
def test_a_strange_place_is_named(wrong):
    (problem,) = fit_landings([0.0] * 9 + [wrong], [9.0] * 10)

    assert problem.sentence.startswith("sideways place")


def test_depths_and_places_must_be_as_many():
    problems = fit_landings([0.0] * 10, [9.0] * 9)

    assert [problem.name for problem in problems] == ["number of depths"]


def test_the_own_scatter_gives_back_the_angles_that_made_the_balls():
    preset = level_scatter(CLUB)
    contact = Contact(x_m=0.0, depth_m=12.585, height_m=0.95)
    fit = fit_landings(*balls(5, 400, sideways=1.51, deep=2.55))
    assert isinstance(fit, LandingScatter)

    own = measured_scatter(
        fit, preset, contact=contact, pace_ms=21.0, topspin_rpm=1000.0, landing_y_m=8.885
    )

    assert own.sd_azimuth_deg == pytest.approx(preset.sd_azimuth_deg, rel=0.1)
    assert own.sd_elevation_deg == pytest.approx(preset.sd_elevation_deg, rel=0.15)
    assert own.sd_spin == preset.sd_spin
