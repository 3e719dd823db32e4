"""Scatter by level and under strain, and the point sets that stand for random errors."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm, qmc

from tactics.flight.levels import CLUB, LEVELS
from tactics.flight.margin import inside_line_m, sideways_sd_m
from tactics.flight.normal import from_logit, logit, normal_share, quasi_normals
from tactics.flight.scatter import (
    Balance,
    Strain,
    comfortable_pace_share,
    level_scatter,
    strained_scatter,
)
from tactics.flight.shares import mirrored_normals

strains = st.builds(
    Strain,
    balance=st.sampled_from(Balance),
    is_late=st.booleans(),
    is_awkward_height=st.booleans(),
    has_little_time=st.booleans(),
)


def test_a_better_level_strays_less_in_every_way():
    rows = [level_scatter(level) for level in LEVELS.values()]

    table = np.array([[r.sd_elevation_deg, r.sd_azimuth_deg, r.sd_speed, r.sd_spin] for r in rows])

    assert (np.diff(table, axis=0) < 0).all()


@given(strains, st.floats(0.3, 1.3), st.floats(0.0, 0.5))
def test_more_pace_never_shrinks_scatter(strain, pace, more):
    base = level_scatter(CLUB)

    slow, fast = (strained_scatter(base, strain, share) for share in (pace, pace + more))

    assert fast.sd_azimuth_deg >= slow.sd_azimuth_deg
    assert fast.sd_spin == slow.sd_spin == base.sd_spin


@given(strains)
def test_strain_never_shrinks_scatter(strain):
    assert strained_scatter(level_scatter(CLUB), strain, 0.8).sd_speed >= CLUB.sd_speed


def test_a_set_player_is_comfortable_at_rally_pace_and_a_late_one_is_not():
    assert comfortable_pace_share(1.0) == 1.0
    assert comfortable_pace_share(1.6) == pytest.approx(0.85)


def test_a_serve_strays_less_and_has_its_own_pace():
    served = strained_scatter(level_scatter(CLUB), Strain(is_serve=True), 1.8)

    assert served.sd_azimuth_deg == pytest.approx(0.6 * CLUB.sd_azimuth_deg)


def test_late_and_stretched_are_one_strain_not_two():
    assert Strain(balance=Balance.STRETCHED, is_late=True).factor == 1.6


def test_inside_line_in_scatter_units_becomes_metres_for_the_player():
    scatter = level_scatter(CLUB)

    assert inside_line_m(1.4, scatter) == pytest.approx(1.4 * sideways_sd_m(scatter))
    assert sideways_sd_m(scatter) == pytest.approx(1.51, abs=0.01)


@pytest.mark.parametrize("power", [6, 9, 12])
def test_the_fixed_points_are_the_known_low_discrepancy_sequence(power):
    expected = qmc.Sobol(4, scramble=False, bits=30).random_base2(power)

    shares = norm.cdf(quasi_normals(power)) - 0.5 / 2**power

    assert shares == pytest.approx(expected, abs=1e-12)


def test_the_points_are_the_same_left_and_right():
    points = mirrored_normals(5)

    assert points[:32] * [1, -1, 1, 1] == pytest.approx(points[32:])


@given(st.floats(-8, 8))
def test_the_normal_share_is_right_and_symmetric(z):
    assert normal_share(z) == pytest.approx(norm.cdf(z), abs=1e-7)
    assert normal_share(z) + normal_share(-z) == pytest.approx(1.0, abs=2e-9)


@given(st.floats(0.001, 0.999))
def test_odds_and_share_are_inverse(share):
    assert from_logit(logit(share)) == pytest.approx(share)
