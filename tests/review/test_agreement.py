"""Agreement of two raters against published values, by hand, and as laws."""

from itertools import product
from math import isclose

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tactics.review.agreement import (
    FEWEST,
    Table,
    agreement,
    apart_or_not,
    kappa,
    squared_steps,
    steps,
)

WORDS = ("sound", "acceptable", "doubtful", "unsound")
# Fleiss, Levin and Paik, Statistical Methods for Rates and Proportions: two raters, 100 people
DIAGNOSES: Table = ((75, 1, 4), (5, 4, 1), (0, 0, 10))
# Cohen 1968, weighted kappa: 200 people, disagreements weighted 1, 3 and 6
JUDGES: Table = ((88, 10, 2), (14, 40, 6), (18, 10, 12))
DISAGREEMENT = ((0, 1, 3), (1, 0, 6), (3, 6, 0))


def test_kappa_and_its_error_are_those_of_the_textbook() -> None:
    found = kappa(DIAGNOSES, apart_or_not)

    assert found is not None
    assert round(found.value, 2) == 0.68
    assert abs(found.error - 0.087) < 0.001  # the book rounds on the way
    assert found.interval is not None
    assert [round(end, 2) for end in found.interval] == [0.5, 0.85]


def test_weighted_kappa_is_that_of_the_paper_that_introduced_it() -> None:
    plain = kappa(JUDGES, apart_or_not)
    weighted = kappa(JUDGES, lambda row, column: float(DISAGREEMENT[row][column]))

    assert plain is not None
    assert weighted is not None
    assert round(plain.value, 3) == 0.492
    assert round(weighted.value, 3) == 0.348


def test_two_words_by_hand() -> None:
    # 20 yes-yes, 5 yes-no, 10 no-yes, 15 no-no: seen 0.7, by chance 0.5, so 0.4
    found = kappa(((20, 5), (10, 15)), apart_or_not)

    assert found is not None
    assert isclose(found.value, 0.4)
    assert found.interval is not None
    low, high = found.interval
    assert low < 0.4 < high
    assert isclose((low + high) / 2, 0.4)


def test_linear_weights_by_hand() -> None:
    # three words; one ball in four lies one word apart, one in four two words: the differences
    # seen are 0.25 * 0.5 + 0.25 * 1 = 0.375
    table: Table = ((1, 1, 1), (0, 0, 0), (0, 0, 1))
    # by chance: rows (3/4, 0, 1/4), columns (1/4, 1/4, 1/2)
    chance = 3 / 4 * (1 / 4 * 0.5 + 1 / 2) + 1 / 4 * (1 / 4 + 1 / 4 * 0.5)

    found = kappa(table, steps)

    assert found is not None
    assert isclose(found.value, 1 - 0.375 / chance)


PAIRS = st.lists(st.tuples(st.sampled_from(WORDS), st.sampled_from(WORDS)), min_size=1, max_size=60)
WEIGHTS = st.sampled_from([apart_or_not, steps, squared_steps])


def table_of(pairs: list[tuple[str, str]]) -> Table:
    return agreement(pairs, WORDS).table


@given(words=st.lists(st.sampled_from(WORDS), min_size=2, max_size=60), weight=WEIGHTS)
def test_always_the_same_word_is_one(words: list[str], weight) -> None:
    assume(len(set(words)) > 1)

    found = kappa(table_of([(each, each) for each in words]), weight)

    assert found is not None
    assert isclose(found.value, 1.0)
    assert found.interval is None


@given(pairs=PAIRS, weight=WEIGHTS)
def test_it_does_not_matter_who_is_named_first(pairs: list[tuple[str, str]], weight) -> None:
    one = kappa(table_of(pairs), weight)
    other = kappa(table_of([(second, first) for first, second in pairs]), weight)

    assert (one is None) == (other is None)
    if one is not None and other is not None:
        assert isclose(one.value, other.value, abs_tol=1e-9)
        assert isclose(one.error, other.error, abs_tol=1e-6)


@given(
    rows=st.lists(st.integers(1, 4), min_size=4, max_size=4),
    columns=st.lists(st.integers(1, 4), min_size=4, max_size=4),
    weight=WEIGHTS,
)
def test_words_that_have_nothing_to_do_with_each_other_give_nought(
    rows: list[int], columns: list[int], weight
) -> None:
    table = tuple(tuple(row * column for column in columns) for row in rows)

    found = kappa(table, weight)

    assert found is not None
    assert isclose(found.value, 0.0, abs_tol=1e-9)


@given(pairs=PAIRS, weight=WEIGHTS)
def test_more_of_the_same_moves_no_kappa_and_narrows_its_error(
    pairs: list[tuple[str, str]], weight
) -> None:
    once, four = kappa(table_of(pairs), weight), kappa(table_of(pairs * 4), weight)

    assert (once is None) == (four is None)
    if once is not None and four is not None:
        assert isclose(once.value, four.value, abs_tol=1e-9)
        assert isclose(four.error, once.error / 2, abs_tol=1e-6)
        assert -1 - 1e-9 <= once.value <= 1 + 1e-9


@given(pairs=PAIRS)
def test_with_two_words_all_weights_are_one(pairs: list[tuple[str, str]]) -> None:
    two = [(_half(one), _half(other)) for one, other in pairs]
    table = agreement(two, ("good", "bad")).table

    found = [kappa(table, weight) for weight in (apart_or_not, steps, squared_steps)]

    assert found[0] == found[1] == found[2]


def _half(word: str) -> str:
    return "good" if word in WORDS[:2] else "bad"


def test_one_word_for_every_ball_has_no_kappa() -> None:
    found = agreement([("sound", "sound")] * 30, WORDS)

    assert (found.plain, found.ordered) == (None, None)
    assert (found.same, found.n) == (30, 30)


@pytest.mark.parametrize("n", [FEWEST - 1, FEWEST])
def test_figures_need_twenty_balls(n: int) -> None:
    assert agreement([("sound", "sound")] * n, WORDS).is_enough is (n >= FEWEST)


def test_the_table_counts_every_pair() -> None:
    found = agreement(list(product(WORDS, WORDS)), WORDS)

    assert found.table == ((1,) * 4,) * 4
    assert found.same == 4
