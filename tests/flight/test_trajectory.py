from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.flight.constants import (
    GRAVITY_MS2,
    STILL_AIR,
    VACUUM,
    YELLOW,
    Air,
    air_density_kg_m3,
)
from tactics.flight.court import FULL_SINGLES
from tactics.flight.motion import Motion, joined, launches
from tactics.flight.path import trace
from tactics.flight.trajectory import BATCH, clearance_m, fly
from tests.flight.reference import place_at
from tests.flight.strategies import mirrored, shots, still_airs, winds

TEN_THOUSAND = 10_000


def random_shots(n: int, seed: int = 7) -> Motion:
    """Seven groundstrokes, two serves and a lob in every ten."""
    rng = np.random.default_rng(seed)
    kind = rng.choice(3, n, p=(0.7, 0.2, 0.1))
    low = np.array(
        [
            [-6, -16, 0.3, 15, 0, -15, -2500, -800],
            [-2, -11.9, 2.3, 25, -9, -14, 0, -3000],
            [-5, -15, 0.3, 13, 35, -15, -1500, -800],
        ]
    )
    high = np.array(
        [
            [6, -1, 1.8, 40, 20, 15, 3500, 800],
            [2, -11.8, 3.1, 65, 3, 14, 4500, 3000],
            [5, -3, 1.5, 24, 65, 15, 3000, 800],
        ]
    )
    x, y, z, pace, elevation, azimuth, topspin, sidespin = rng.uniform(low[kind], high[kind]).T
    return launches(
        x_m=x,
        y_m=y,
        z_m=z,
        pace_ms=pace,
        elevation_deg=elevation,
        azimuth_deg=azimuth,
        topspin_rpm=topspin,
        sidespin_rpm=sidespin,
    )


def energy(velocity_ms, z_m):
    return (velocity_ms**2).sum(axis=0) / 2 + GRAVITY_MS2 * z_m


@pytest.mark.parametrize(
    "air", [STILL_AIR, Air(wind_along_ms=-6.0, wind_across_ms=4.0)], ids=["still", "wind"]
)
def test_ten_thousand_landings_are_within_a_millimetre_of_the_tight_solver(air):
    launch = random_shots(TEN_THOUSAND)

    flight = fly(launch, air=air)
    exact = place_at(launch, flight.landing.time_s, air=air)

    fall = flight.landing.velocity_ms
    early = (exact[2] - YELLOW.radius_m) / -fall[2]  # s: what the height error means in time
    miss = exact[:2] + early * fall[:2] - flight.landing.position_m[:2]
    assert flight.landing.happens.all()
    assert np.hypot(*miss).max() < 0.001


def test_ten_thousand_net_heights_are_within_a_tenth_of_a_millimetre():
    launch = random_shots(TEN_THOUSAND)

    crossing = fly(launch).crossing
    crosses = crossing.happens
    exact = place_at(launch.only(crosses), crossing.time_s[crosses])

    assert np.abs(exact - crossing.position_m[:, crosses]).max() < 0.0001


@given(shots(has_spin=False))
def test_without_air_and_spin_the_flight_is_the_parabola(launch):
    x, y, z = launch.position_m
    vx, vy, vz = launch.velocity_ms

    landing = fly(launch, air=VACUUM).landing

    time = (vz + np.sqrt(vz**2 + 2 * GRAVITY_MS2 * (z - YELLOW.radius_m))) / GRAVITY_MS2
    assert landing.time_s == pytest.approx(time, abs=1e-9)
    assert landing.position_m[0] == pytest.approx(x + vx * time, abs=1e-8)
    assert landing.position_m[1] == pytest.approx(y + vy * time, abs=1e-8)


@given(shots(), still_airs)
def test_energy_never_grows_in_still_air(launch, air):
    states = trace(launch, air=air).states

    kept = energy(states[:, 3:6].swapaxes(0, 1), states[:, 2])

    assert (np.diff(kept, axis=0) <= 1e-6 * kept[:-1].clip(1.0)).all()


@given(shots(), winds)
def test_a_mirrored_launch_in_mirrored_wind_flies_the_mirrored_path(launch, wind):
    flight = fly(launch, air=wind)

    mirror = fly(mirrored(launch), air=replace(wind, wind_across_ms=-wind.wind_across_ms))

    expected = mirrored(flight.landing)
    assert mirror.landing.position_m == pytest.approx(expected.position_m, abs=1e-9)
    assert mirror.landing.velocity_ms == pytest.approx(expected.velocity_ms, abs=1e-9)


@given(
    st.floats(15, 45),
    st.floats(-3, 15),
    st.floats(0.4, 1.5),
    st.floats(0, 3500),
    st.floats(50, 1000),
)
def test_more_topspin_lands_shorter_at_the_same_launch(pace, elevation, height, topspin, more):
    launch = launches(
        x_m=0,
        y_m=-12,
        z_m=height,
        pace_ms=pace,
        elevation_deg=elevation,
        topspin_rpm=[topspin, topspin + more],
    )

    less, spun = fly(launch).landing.position_m[1]

    assert spun < less


@given(shots(1, elevation=(-60, 60)), st.floats(100, 4000))
def test_side_spin_curves_the_ball_to_its_side(launch, sidespin):
    straight = launches(
        x_m=0,
        y_m=-12,
        z_m=1,
        pace_ms=launch.speed_ms,
        elevation_deg=5,
        sidespin_rpm=[0, sidespin, -sidespin],
    )

    middle, left, right = fly(straight).landing.position_m[0]

    assert left < middle < right


@given(shots(), winds)
def test_a_finer_step_tells_the_same_story(launch, wind):
    usual, fine = fly(launch, air=wind), fly(launch, air=wind, step_s=0.01)

    assert usual.landing.position_m == pytest.approx(fine.landing.position_m, abs=0.001)


@given(shots(), winds)
def test_the_whole_path_and_the_events_agree(launch, wind):
    flight, path = fly(launch, air=wind), trace(launch, air=wind)

    assert path.landing().position_m == pytest.approx(flight.landing.position_m, nan_ok=True)
    assert path.crossing().position_m == pytest.approx(flight.crossing.position_m, nan_ok=True)
    assert path.at(flight.landing.time_s).position_m == pytest.approx(
        flight.landing.position_m, abs=1e-7
    )


@given(shots())
def test_nothing_on_the_path_is_higher_than_its_top(launch):
    path = trace(launch)
    landing = path.landing()
    times = np.linspace(0, 1, 41)[:, np.newaxis] * landing.time_s

    top = path.apex()

    assert (path.at(times).position_m[2] <= top.position_m[2] + 1e-4).all()


def test_a_ball_too_weak_for_the_net_has_no_crossing_unless_it_may_sink():
    weak = launches(x_m=0, y_m=-12, z_m=1, pace_ms=12, elevation_deg=0)

    dead, sunk = fly(weak), fly(weak, sink_to_m=-8.0)

    assert not dead.crossing.happens[0]
    assert sunk.crossing.happens[0]
    assert clearance_m(sunk.crossing, FULL_SINGLES)[0] < -1
    assert sunk.landing.position_m == pytest.approx(dead.landing.position_m)


def test_sinking_changes_nothing_for_balls_that_get_over():
    launch = random_shots(500)

    plain, sunk = fly(launch), fly(launch, sink_to_m=-8.0)

    crosses = plain.crossing.happens
    assert sunk.crossing.position_m[:, crosses] == pytest.approx(
        plain.crossing.position_m[:, crosses]
    )
    assert sunk.landing.time_s == pytest.approx(plain.landing.time_s)


def test_the_order_of_balls_and_the_size_of_the_batch_do_not_matter():
    launch = random_shots(BATCH + 700)
    some = np.arange(3, BATCH + 700, 97)

    together, alone = fly(launch).landing, fly(launch.only(some)).landing

    assert together.position_m[:, some] == pytest.approx(alone.position_m, abs=1e-12)


def test_no_balls_fly_nowhere():
    nobody = launches(x_m=[], y_m=[], z_m=[], pace_ms=[], elevation_deg=[])

    assert len(fly(nobody).landing) == 0
    assert len(joined([])) == 0


def test_a_ball_hit_from_beyond_the_net_or_under_the_ground_has_no_such_event():
    launch = launches(x_m=0, y_m=[1, -5], z_m=[1, -1], pace_ms=20, elevation_deg=0)

    flight = fly(launch)

    assert flight.crossing.happens.tolist() == [False, False]
    assert flight.landing.happens.tolist() == [True, False]


def test_unknown_balls_stay_unknown_and_stop_at_once():
    launch = launches(x_m=0, y_m=-12, z_m=np.nan, pace_ms=20, elevation_deg=[3, 4])

    assert not fly(launch).landing.happens.any()


def test_a_long_fall_ends_at_the_speed_the_formula_gives():
    ball = replace(YELLOW, drag=0.507)
    drop = launches(x_m=0, y_m=-5, z_m=40 + ball.radius_m, pace_ms=0, elevation_deg=0)

    speed = fly(drop, ball=ball).landing.speed_ms[0]

    k = STILL_AIR.density_kg_m3 * np.pi * ball.radius_m**2 / (2 * ball.mass_kg)
    terminal = np.sqrt(GRAVITY_MS2 / (k * ball.drag))
    exact = terminal * np.sqrt(1 - np.exp(-2 * GRAVITY_MS2 * 40 / terminal**2))
    assert terminal == pytest.approx(23.28, abs=0.01)
    assert exact == pytest.approx(20.36, abs=0.01)
    assert speed == pytest.approx(exact, abs=1e-6)


@pytest.mark.parametrize(
    ("altitude_m", "temperature_c", "density"),
    [
        (0, 15, 1.225),
        (0, 20, 1.204),
        (0, 35, 1.145),
        (1000, 20, 1.068),
        (1609, 20, 0.991),
        (2240, 20, 0.917),
    ],
)
def test_air_gets_thin_with_height_and_heat(altitude_m, temperature_c, density):
    assert air_density_kg_m3(altitude_m, temperature_c) == pytest.approx(density, abs=0.0006)
