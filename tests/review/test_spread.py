"""How alike the balls of a lesson are, and what they are worth then."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from tactics.review.spread import Spread, design_effect, likeness

by_lesson = arrays(np.float64, st.integers(1, 12), elements=st.integers(0, 40).map(float))


def lessons_of(rng: np.random.Generator, alike: float, lessons: int = 400) -> tuple:
    balls = rng.integers(5, 30, lessons)
    share = rng.beta(0.3 * (1 / alike - 1), 0.7 * (1 / alike - 1), lessons) if alike else 0.3
    return rng.binomial(balls, share).astype(float), balls.astype(float)


@pytest.mark.parametrize("alike", [0.0, 0.05, 0.2])
def test_likeness_is_found_back(alike: float) -> None:
    rng = np.random.default_rng(5)
    rules = [lessons_of(rng, alike) for _ in range(10)]

    found = likeness([hits for hits, _ in rules], [balls for _, balls in rules])

    assert found == pytest.approx(alike, abs=0.02)


@given(by_lesson, st.floats(0, 1))
def test_balls_never_count_more_than_once_nor_less_than_one_a_lesson(
    balls: np.ndarray, alike: float
) -> None:
    effect = design_effect(balls, alike)

    assert 1.0 <= effect <= max(1.0, balls.max()) + 1e-9
    assert design_effect(balls, 0.0) == 1.0


def test_ten_balls_of_one_lesson_that_are_quite_alike_are_one_ball() -> None:
    assert design_effect(np.array([10.0]), 1.0) == 10.0
    assert design_effect(np.array([1.0] * 10), 1.0) == 1.0


def test_rules_together_are_worth_what_their_variances_say() -> None:
    met = np.array([[10.0, 0.0], [5.0, 5.0], [2.0, 8.0]])
    spread = Spread(broken=met / 2, met=met, alike=0.3)

    effects = [design_effect(met[place], 0.3) for place in (0, 2)]

    assert spread.worth_of([0, 2]) == pytest.approx(400 / (10 * effects[0] + 10 * effects[1]))
    assert spread.worth_of([]) == 0.0
    assert spread.worth(1) == pytest.approx(10 / design_effect(met[1], 0.3))


def test_lessons_without_a_difference_leave_every_ball_its_weight() -> None:
    even = np.array([3.0] * 8)

    assert likeness([even], [even * 4]) == 0.0
    assert likeness([np.array([3.0])], [np.array([4.0])]) == 0.0
    assert likeness([], []) == 0.0
