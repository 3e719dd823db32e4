"""The situations met most: counted by the facts that tell, whatever else was charted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.model.ball import Ball
from tactics.model.choice import Choice
from tactics.model.known import NOT_SEEN, Known, OneOf, number, word
from tactics.model.situation import Situation, in_words
from tactics.model.standard import STANDARD
from tactics.review.often_met import often_met, word_of
from tactics.source import Span
from tests.strategies import balls

HERE = Span(file="chart.csv", line=2)


def ball(**facts: str) -> Ball:
    return Ball(situation=in_words(**facts), choice=Choice(), span=HERE)


def test_the_most_frequent_comes_first_and_what_was_met_once_is_left_out() -> None:
    charted = [
        *[ball(game_situation="serving", serve_number="second")] * 2,
        *[ball(game_situation="serving", serve_number="first", surface="slow")] * 2,
        ball(game_situation="serving", serve_number="first"),
        ball(game_situation="returning", wing="forehand"),
        *[ball(game_situation="baseline rally")] * 5,
        *[ball(balance="set")] * 5,
    ]

    found = often_met(charted, STANDARD, 5)

    assert [(met.facts, met.count) for met in found] == [
        ((("game situation", "serving"), ("serve number", "first")), 3),
        ((("game situation", "serving"), ("serve number", "second")), 2),
    ]
    assert found[0].situation(STANDARD) == in_words(game_situation="serving", serve_number="first")


@pytest.mark.parametrize(
    ("known", "name"),
    [
        (number(0.55), "waist"),
        (STANDARD.trait("body height").value_of("thigh"), "thigh"),
        (NOT_SEEN, ""),
    ],
    ids=["a number in a band", "a band", "not seen"],
)
def test_a_number_is_told_by_the_band_it_lies_in(known: Known, name: str) -> None:
    assert word_of(known, STANDARD.trait("body height")) == name


def test_two_possible_words_are_not_one() -> None:
    both = OneOf(frozenset(("set", "moving")))

    assert word_of(both, STANDARD.trait("balance")) == ""
    assert word_of(word("set"), STANDARD.trait("balance")) == "set"


@given(st.lists(balls(STANDARD), max_size=5), st.integers(0, 3))
def test_no_ball_is_counted_twice(charted: list[Ball], most: int) -> None:
    found = often_met([*charted, *charted], STANDARD, most)

    assert len(found) <= most
    assert sum(met.count for met in found) <= 2 * len(charted)
    assert all(isinstance(met.situation(STANDARD), Situation) for met in found)
