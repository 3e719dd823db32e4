"""Intervals, tails and many comparisons at once, against other implementations and print."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta, binom, binomtest, norm

from tactics.review.comparing import (
    balls_needed,
    chance_of_change,
    chance_of_more,
    holm,
    newcombe,
    wilson_of,
)
from tactics.review.exact import beta_share
from tactics.review.rates import wilson

counts = st.integers(1, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
chances = st.lists(st.floats(0, 1), max_size=12)


@given(counts)
def test_score_intervals_are_those_of_scipy(drawn: tuple[int, int]) -> None:
    count, n = drawn

    found = binomtest(count, n).proportion_ci(0.95, method="wilson")

    assert wilson(count, n) == pytest.approx((found.low, found.high), abs=1e-6)
    assert wilson_of(count / n, n) == pytest.approx((found.low, found.high), abs=1e-6)


def test_the_printed_difference_of_two_shares_has_this_interval() -> None:
    # Newcombe 1998, table II (a), method 10: 56 of 70 against 48 of 80
    assert newcombe(48 / 80, 80, 56 / 70, 70) == pytest.approx((0.0524, 0.3339), abs=5e-5)
    # (c): 6 of 7 against 2 of 7
    assert newcombe(2 / 7, 7, 6 / 7, 7) == pytest.approx((0.0582, 0.8062), abs=5e-5)


@given(counts, counts)
def test_an_interval_of_a_change_holds_the_change_and_turns_round_with_it(
    then: tuple[int, int], now: tuple[int, int]
) -> None:
    before, after = then[0] / then[1], now[0] / now[1]

    low, high = newcombe(before, then[1], after, now[1])
    back = newcombe(after, now[1], before, then[1])

    assert -1 <= low <= after - before + 1e-12
    assert after - before - 1e-12 <= high <= 1
    assert back == pytest.approx((-high, -low), abs=1e-12)


@given(counts, counts)
def test_the_chance_of_a_change_is_the_pooled_score_test(
    then: tuple[int, int], now: tuple[int, int]
) -> None:
    pooled = (then[0] + now[0]) / (then[1] + now[1])
    error = np.sqrt(pooled * (1 - pooled) * (1 / then[1] + 1 / now[1]))

    found = chance_of_change(then[0] / then[1], then[1], now[0] / now[1], now[1])

    z = abs(now[0] / now[1] - then[0] / then[1]) / error if error else 0.0
    assert found == pytest.approx(2 * norm.sf(z), abs=1e-9)


@given(chances)
def test_several_looks_are_allowed_for_as_holm_says(alone: list[float]) -> None:
    together = holm(alone)

    order = sorted(range(len(alone)), key=lambda place: alone[place])
    for rank, place in enumerate(order):
        worst = max((len(alone) - r) * alone[p] for r, p in enumerate(order[: rank + 1]))
        assert together[place] == pytest.approx(min(1.0, worst))
    assert all(t >= a for t, a in zip(together, alone, strict=True))


@given(chances, st.randoms(use_true_random=False))
def test_the_order_of_looking_does_not_matter(alone: list[float], random) -> None:
    places = list(range(len(alone)))
    random.shuffle(places)

    shuffled = holm([alone[place] for place in places])

    assert dict(zip(places, shuffled, strict=True)) == dict(enumerate(holm(alone)))


@pytest.mark.parametrize(
    ("before", "after", "balls"), [(0.60, 0.75, 152), (0.50, 0.70, 93), (0.60, 0.70, 356)]
)
def test_balls_needed_to_see_a_change(before: float, after: float, balls: int) -> None:
    assert balls_needed(before, after) == balls
    assert balls_needed(after, before) == balls


def test_so_many_balls_do_show_the_change_in_four_seasons_of_five() -> None:
    rng, n = np.random.default_rng(3), balls_needed(0.6, 0.75)
    then, now = rng.binomial(n, 0.6, 2_000), rng.binomial(n, 0.75, 2_000)

    seen = [
        chance_of_change(a / n, n, b / n, n) < 0.05
        for a, b in zip(then.tolist(), now.tolist(), strict=True)
    ]

    assert np.mean(seen) == pytest.approx(0.8, abs=0.03)


@given(st.integers(1, 200), st.floats(0.01, 0.99), st.data())
def test_the_chance_of_more_is_an_exact_tail_on_the_safe_side(
    n: int, rest: float, data: st.DataObject
) -> None:
    count = data.draw(st.integers(0, n))

    found = chance_of_more(count / n, n, rest, 1e9)

    tail = binom.sf(count - 1, n, rest)
    assert found == 1.0 if count / n <= rest else found == pytest.approx(tail, abs=1e-4)
    assert chance_of_more(count / n, n, rest, 50) >= found - 1e-9


@given(st.floats(0.1, 300), st.floats(0.1, 300), st.floats(0, 1))
def test_parts_of_a_ball_are_counted_by_the_beta_function(a: float, b: float, x: float) -> None:
    assert beta_share(a, b, x) == pytest.approx(beta.cdf(x, a, b), abs=1e-9)
