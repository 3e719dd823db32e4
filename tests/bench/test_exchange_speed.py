"""How long the answers of one situation take: run with `pytest tests/bench --benchmark-only`."""

import time

import numpy as np
import pytest

from tactics.flight.candidates import SHORTLIST, best, candidate_grid, fly_grid, shortlist
from tactics.flight.estimate import point_values
from tactics.flight.exchange import exchanges
from tactics.flight.levels import CLUB, COMPETITIVE, TOUR, Level
from tactics.flight.margin import Stroke, margin_curve
from tactics.flight.moment import Moment
from tactics.flight.point import drawn_values
from tactics.flight.scatter import level_scatter
from tactics.flight.shots import Contact
from tactics.flight.stand import Server, return_stand

pytest.importorskip("pytest_benchmark")
CONTACT = Contact(x_m=1.5, depth_m=12.5, height_m=0.95)
LEVELS = [CLUB, COMPETITIVE, TOUR]


def moment_of(level: Level) -> Moment:
    return Moment(contact=CONTACT, hitter=level, opponent=level, opponent_x_m=-1.0)


def fly_whole_grid(moment: Moment):
    grid = candidate_grid(moment)
    return grid, fly_grid(grid, moment)


def estimate_dozen(grid, flown, moment: Moment):
    chosen = grid.only(shortlist(grid, flown, moment))
    return exchanges(chosen.shots, moment), point_values(chosen.shots, moment)


@pytest.mark.parametrize("level", LEVELS, ids=lambda level: level.name)
def test_grid_flown_with_shares_and_time_to_spare(benchmark, level):
    moment = moment_of(level)

    grid, flown = benchmark(fly_whole_grid, moment)

    benchmark.extra_info["candidates"] = len(grid.shots)
    assert len(flown) == len(grid.shots)


def test_grid_of_the_first_call_in_a_fresh_cache(benchmark):
    moment = moment_of(COMPETITIVE)

    began = time.perf_counter()
    fly_whole_grid(moment)
    benchmark.extra_info["first_call_s"] = round(time.perf_counter() - began, 3)

    benchmark(candidate_grid, moment)


@pytest.mark.parametrize("level", LEVELS, ids=lambda level: level.name)
def test_full_estimate_of_the_best_dozen(benchmark, level):
    moment = moment_of(level)
    grid, flown = fly_whole_grid(moment)

    _, values = benchmark(estimate_dozen, grid, flown, moment)

    assert values.chance.size == SHORTLIST


@pytest.mark.parametrize("level", LEVELS, ids=lambda level: level.name)
def test_range_of_the_best_dozen(benchmark, level):
    moment = moment_of(level)
    shots = best(moment).candidates.shots

    draws = benchmark.pedantic(
        lambda: list(drawn_values(shots, moment)), rounds=3, iterations=1, warmup_rounds=1
    )

    assert np.stack(draws).shape == (40, SHORTLIST)


def test_one_margin_curve(benchmark):
    stroke = Stroke(contact=CONTACT, pace_ms=21.0, topspin_rpm=1000.0)

    assert benchmark(margin_curve, stroke, level_scatter(CLUB))


def test_one_return_stand(benchmark):
    assert benchmark(return_stand, Server())
