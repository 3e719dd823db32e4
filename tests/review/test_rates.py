"""Shares with n, an interval and a standing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.report.rates import counted_share, rate_cell, rate_words
from tactics.review.rates import Rate, Standing, wilson

COUNTS = st.integers(1, 500).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@pytest.mark.parametrize(
    ("count", "n", "low", "high"),
    [
        pytest.param(7, 10, 40, 89, id="seven-of-ten"),
        pytest.param(14, 20, 48, 85, id="fourteen-of-twenty"),
        pytest.param(21, 30, 52, 83, id="twenty-one-of-thirty"),
        pytest.param(35, 50, 56, 81, id="thirty-five-of-fifty"),
        pytest.param(70, 100, 60, 78, id="seventy-of-a-hundred"),
        pytest.param(0, 10, 0, 28, id="none-of-ten"),
        pytest.param(10, 10, 72, 100, id="all-of-ten"),
        pytest.param(0, 0, 0, 100, id="no-balls-say-nothing"),
    ],
)
def test_the_interval_of_a_share_is_wilsons(count: int, n: int, low: int, high: int) -> None:
    assert tuple(round(100 * end) for end in wilson(count, n)) == (low, high)


@given(COUNTS)
def test_an_interval_holds_its_share_and_lies_between_none_and_all(pair: tuple[int, int]) -> None:
    count, n = pair

    low, high = wilson(count, n)

    assert 0 <= low <= count / n <= high <= 1


@given(COUNTS)
def test_the_interval_of_the_other_share_is_the_mirror_image(pair: tuple[int, int]) -> None:
    count, n = pair

    low, high = wilson(count, n)

    assert wilson(n - count, n) == pytest.approx((1 - high, 1 - low))


@given(COUNTS)
def test_ten_times_the_balls_make_a_narrower_interval(pair: tuple[int, int]) -> None:
    count, n = pair
    low, high = wilson(count, n)

    more_low, more_high = wilson(10 * count, 10 * n)

    assert more_high - more_low < high - low


@pytest.mark.parametrize(
    ("n", "lessons", "standing"),
    [
        pytest.param(0, 0, Standing.NOT_ENOUGH, id="none"),
        pytest.param(9, 5, Standing.NOT_ENOUGH, id="nine"),
        pytest.param(10, 1, Standing.EARLY_SIGN, id="ten"),
        pytest.param(29, 9, Standing.EARLY_SIGN, id="twenty-nine"),
        pytest.param(200, 2, Standing.EARLY_SIGN, id="many-balls-of-two-lessons"),
        pytest.param(30, 3, Standing.PATTERN, id="thirty-over-three-lessons"),
    ],
)
def test_a_share_has_a_standing(n: int, lessons: int, standing: Standing) -> None:
    assert Rate(count=0, n=n, lessons=lessons).standing is standing


def test_below_ten_balls_no_percentage_is_said() -> None:
    words = rate_words(Rate(count=6, n=7, lessons=3))

    assert words == "not enough balls yet (n = 7)"


def test_a_percentage_comes_with_interval_n_and_standing() -> None:
    words = rate_words(Rate(count=14, n=20, lessons=2))

    assert words == "70 % (48 to 85 %), n = 20, early sign"


def test_a_cell_leaves_n_to_its_column() -> None:
    assert rate_cell(Rate(count=21, n=30, lessons=3)) == "70 % (52 to 83 %), pattern"


@pytest.mark.parametrize(
    ("count", "n", "said"),
    [
        pytest.param(57, 515, "11 % (9 to 14 %) of 515", id="many"),
        pytest.param(4, 9, "4 of 9", id="below-ten"),
        pytest.param(0, 0, "none", id="without-any"),
    ],
)
def test_a_share_of_other_balls_has_its_n_and_interval(count: int, n: int, said: str) -> None:
    assert counted_share(Rate(count=count, n=n, lessons=3)) == said
