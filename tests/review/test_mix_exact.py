"""The exact interval against an independent implementation and against its own promise."""

from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta

from tactics.review.exact import at_least, exact_interval

counts = st.integers(1, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


def test_published_looking_shares_have_these_intervals() -> None:
    assert exact_interval(13, 16) == pytest.approx((0.5435, 0.9595), abs=5e-5)
    assert exact_interval(0, 10) == pytest.approx((0.0, 0.3085), abs=5e-5)
    assert exact_interval(10, 10) == pytest.approx((0.6915, 1.0), abs=5e-5)


def test_without_balls_every_share_is_possible() -> None:
    assert exact_interval(0, 0) == (0.0, 1.0)


@given(counts)
def test_the_ends_are_those_of_the_beta_quantiles(drawn: tuple[int, int]) -> None:
    count, n = drawn

    low, high = exact_interval(count, n)

    assert low == pytest.approx(beta.ppf(0.025, count, n - count + 1) if count else 0.0, abs=1e-9)
    assert high == pytest.approx(
        beta.ppf(0.975, count + 1, n - count) if count < n else 1.0, abs=1e-9
    )


@given(st.integers(1, 25), st.floats(0.01, 0.99), st.data())
def test_the_tail_is_the_sum_of_its_terms(n: int, p: float, data: st.DataObject) -> None:
    count = data.draw(st.integers(1, n))

    found = at_least(count, n, p)

    assert found == pytest.approx(
        sum(comb(n, k) * p**k * (1 - p) ** (n - k) for k in range(count, n + 1)), abs=1e-12
    )


@pytest.mark.parametrize("p", [0.05, 0.3, 2 / 3, 0.9])
def test_the_interval_holds_the_truth_as_often_as_it_says(p: float) -> None:
    n = 40

    held = sum(
        comb(n, k) * p**k * (1 - p) ** (n - k)
        for k in range(n + 1)
        if exact_interval(k, n)[0] <= p <= exact_interval(k, n)[1]
    )

    assert held >= 0.95


def test_a_very_large_chart_is_no_trouble() -> None:
    low, high = exact_interval(66_000, 100_000)

    assert low == pytest.approx(0.65705, abs=1e-4)
    assert high == pytest.approx(0.66294, abs=1e-4)
