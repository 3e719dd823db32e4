"""How many flights a second: run with `pytest tests/bench --benchmark-only`."""

import math
import time

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from tactics.flight.bounce import bounce, meet
from tactics.flight.constants import GRAVITY_MS2, STILL_AIR, YELLOW
from tactics.flight.court import FULL_SINGLES
from tactics.flight.launch import aim
from tactics.flight.strike import Strike
from tactics.flight.trajectory import fly
from tests.flight.reference import accelerations
from tests.flight.test_trajectory import random_shots

pytest.importorskip("pytest_benchmark")
BALLS = 10_000
ONE_BY_ONE = 60


def _slope_of_one(launch):
    """The equations for a single ball in plain Python numbers, the fastest a solver can be fed."""
    wx, wy, wz = launch.spin_rad_s[:, 0].tolist()
    k = STILL_AIR.density_kg_m3 * math.pi * YELLOW.radius_m**2 / (2 * YELLOW.mass_kg)

    def slope(_, state):
        _, _, _, vx, vy, vz = state.tolist()
        speed = math.sqrt(vx * vx + vy * vy + vz * vz)
        tx, ty, tz = wy * vz - wz * vy, wz * vx - wx * vz, wx * vy - wy * vx
        spin = YELLOW.radius_m * math.sqrt(tx * tx + ty * ty + tz * tz) / (speed * speed)
        lift, drag = k * YELLOW.radius_m / (1 + 2 * spin), k * YELLOW.drag * speed
        return (
            vx,
            vy,
            vz,
            lift * tx - drag * vx,
            lift * ty - drag * vy,
            lift * tz - drag * vz - GRAVITY_MS2,
        )

    return slope


def _slope_in_vectors(launch):
    """The same in array notation, the usual way to write it."""

    def slope(_, state):
        velocity = state[3:, np.newaxis]
        change = accelerations(velocity, launch.spin_rad_s, YELLOW, STILL_AIR)
        return np.concatenate([state[3:], change[:, 0]])

    return slope


def _landing_of_one(launch, slope):
    """What a loop over a general solver does: one ball, tight tolerances, an event."""

    def ground(_, state):
        return state[2] - YELLOW.radius_m

    ground.terminal, ground.direction = True, -1
    start = [*launch.position_m[:, 0], *launch.velocity_ms[:, 0]]
    done = solve_ivp(
        slope,
        (0, 20),
        start,
        method="DOP853",
        rtol=1e-10,
        atol=1e-12,
        max_step=0.2,
        events=ground,
    )
    return done.y_events[0][0][:2]


def test_ten_thousand_mixed_flights(benchmark):
    launch = random_shots(BALLS)

    flight = benchmark(fly, launch)

    per_second = BALLS / benchmark.stats.stats.median
    benchmark.extra_info["flights_per_second"] = round(per_second)
    for name, slope_of in (("plain", _slope_of_one), ("array", _slope_in_vectors)):
        began = time.perf_counter()
        some = (launch.only(np.array([i])) for i in range(ONE_BY_ONE))
        singly = np.array([_landing_of_one(each, slope_of(each)) for each in some])
        one_by_one = ONE_BY_ONE / (time.perf_counter() - began)
        benchmark.extra_info[f"solver_loop_per_second_{name}_numbers"] = round(one_by_one)
        benchmark.extra_info[f"times_the_loop_{name}_numbers"] = round(per_second / one_by_one)
        assert np.abs(singly - flight.landing.position_m[:2, :ONE_BY_ONE].T).max() < 0.001
    print(benchmark.extra_info)


def test_ten_thousand_flights_with_height_over_net_for_all(benchmark):
    launch = random_shots(BALLS)

    flight = benchmark(fly, launch, sink_to_m=-8.0)

    benchmark.extra_info["flights_per_second"] = round(BALLS / benchmark.stats.stats.median)
    assert flight.crossing.happens.mean() > 0.95


@pytest.mark.parametrize("wanted", ["landing_y_m", "height_over_net_m"])
def test_three_hundred_aimed_shots(benchmark, wanted):
    values = (
        np.linspace(0.3, 2.0, 300) if wanted == "height_over_net_m" else np.linspace(5, 11, 300)
    )
    strike = Strike(x_m=1.0, y_m=-12.5, z_m=0.95, topspin_rpm=np.linspace(-1000, 2800, 300))
    across, pace = np.tile([-3.0, 0.0, 3.0], 100), np.linspace(20, 33, 300)

    shots = benchmark(aim, strike, target_x_m=across, pace_ms=pace, **{wanted: values})

    assert shots.is_possible.mean() > 0.9


def test_three_hundred_balls_to_the_opponent(benchmark):
    landing = fly(random_shots(300)).landing

    contact = benchmark(lambda: meet(bounce(landing), FULL_SINGLES))

    assert contact.happens.any()
