"""Sets of values in words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.model.known import (
    NOT_APPLICABLE,
    NOT_SEEN,
    Interval,
    OneOf,
    ScatterWithin,
    Within,
    at_least,
    at_most,
    between,
    complement,
    less_than,
    more_than,
    number,
    word,
)
from tactics.model.standard import STANDARD
from tactics.report.words import (
    say,
    say_asked,
    say_beside,
    say_bounds,
    say_number,
    say_short,
    says_something,
    word_with_numbers,
)
from tests.strategies import known_values

JUDGED = [*STANDARD.facts, *STANDARD.parts]


@pytest.mark.parametrize(
    ("name", "known", "said"),
    [
        pytest.param("incoming depth", "deep", "deep (9.1 to 10.9 m)", id="band"),
        pytest.param("incoming depth", number(9.5), "9.5 m", id="number"),
        pytest.param("incoming depth", Within((at_least(9.1),)),
                     "deep or very deep (at least 9.1 m)", id="several-bands"),
        pytest.param("incoming depth", Within((between(3, 5),)), "3 to 5 m", id="range"),
        pytest.param("incoming depth", Within((more_than(3),)), "more than 3 m", id="above"),
        pytest.param("incoming depth", Within((at_most(3),)), "at most 3 m", id="up-to"),
        pytest.param("incoming depth", Within((less_than(3),)), "less than 3 m", id="below"),
        pytest.param("incoming depth", Within((Interval((3.0, 1), (5.0, 1)),)), "over 3 to 5 m",
                     id="half-open"),
        pytest.param("incoming depth", Within((Interval((9.1, 0), (14.0, 1)),)),
                     "deep or very deep (at least 9.1 m)", id="up-to-what-can-occur"),
        pytest.param("incoming depth", Within((Interval((0.0, 0), (14.0, 1)),)), "any",
                     id="all-that-can-occur"),
        pytest.param("court width", "wide backhand",
                     "wide backhand (more than 4.12 m to the backhand side)", id="side"),
        pytest.param("court width", "middle third", "middle third (within 1.37 m of the middle)",
                     id="middle"),
        pytest.param("court width", number(-3), "3 m to the backhand side", id="place"),
        pytest.param("court width", Within((between(-2, 3),)),
                     "at most 2 m to the backhand side and at most 3 m to the forehand side",
                     id="both-sides"),
        pytest.param("court width", Within((at_least(-2),)),
                     "at most 2 m to the backhand side and anywhere on the forehand side",
                     id="one-side-open"),
        pytest.param("balance", "set", "set", id="word"),
        pytest.param("balance", OneOf(frozenset({"jammed", "set"})), "set or jammed", id="words"),
        pytest.param("intent", OneOf(frozenset(w.name for w in STANDARD.trait("intent").words)
                                     - {"drop", "lob"}), "anything but lob and drop", id="but"),
        pytest.param("balance", NOT_SEEN, "not seen", id="not-seen"),
        pytest.param("balance", NOT_APPLICABLE, "not applicable", id="not-applicable"),
        pytest.param("inside line", ScatterWithin((at_least(1.4),)), "at least 1.4 scatter",
                     id="scatter"),
    ],
)  # fmt: skip
def test_a_set_of_values_is_said_as_a_coach_would(name: str, known: object, said: str) -> None:
    trait = STANDARD.trait(name)
    value = trait.value_of(known) if isinstance(known, str) and known in _names(name) else known

    assert say(value, trait) == said  # type: ignore[arg-type]


def _names(name: str) -> set[str]:
    return {each.name for each in STANDARD.trait(name).words}


def test_what_is_asked_for_has_its_numbers_first() -> None:
    trait = STANDARD.trait("height over net")

    assert say_bounds(Within((at_least(1.3),)), trait) == "at least 1.3 m (lifted or loop)"
    assert say_bounds(Within((at_least(1.2),)), trait) == "at least 1.2 m"


def test_a_condition_names_one_or_two_bands_and_else_gives_numbers() -> None:
    trait = STANDARD.trait("opponent depth")

    assert say_asked(Within((at_least(12.9),)), trait) == "behind or far behind"
    assert say_asked(Within((at_least(9.1),)), trait) == "at least 9.1 m"


def test_short_words_leave_the_numbers_of_bands_out() -> None:
    trait = STANDARD.trait("incoming depth")

    assert say_short(Within((at_least(9.1),)), trait) == "deep or very deep"
    assert say_short(number(9.1), trait) == "9.1 m"


def test_all_but_a_band_is_said_by_the_bands_left() -> None:
    trait = STANDARD.trait("incoming time")
    but_fast = Within(complement([trait.word_named("fast").interval]))

    assert say(but_fast, trait) == ("very fast, medium or slow (less than 0.9 s or at least 1.2 s)")


def test_a_minus_zero_is_a_zero() -> None:
    assert say_number(-0.0, None) == "0"


FOUR_FEET, THIRTY_MILES = 4 * 0.3048, 30 * 1.609344


def test_converted_numbers_are_rounded_to_what_can_be_seen() -> None:
    assert say(number(FOUR_FEET), STANDARD.trait("height over net")) == "1.22 m"
    assert say(number(THIRTY_MILES), STANDARD.trait("incoming pace")) == "48 km/h"


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        pytest.param(at_least(1.22), "1.2192 m", id="seems-to-be-enough"),
        pytest.param(at_least(1.3), "1.22 m", id="not-enough-either-way"),
        pytest.param(at_least(1.2), "1.22 m", id="enough-either-way"),
    ],
)
def test_a_rounded_number_never_seems_to_keep_what_it_breaks(asked: Interval, said: str) -> None:
    trait = STANDARD.trait("height over net")

    assert say_beside(number(FOUR_FEET), Within((asked,)), trait) == said


def test_only_bands_have_numbers() -> None:
    assert word_with_numbers(STANDARD.trait("pace"), "soft") == "40 to 65 %"
    assert word_with_numbers(STANDARD.trait("balance"), "set") == ""


def test_knowing_that_anything_is_possible_says_nothing() -> None:
    trait = STANDARD.trait("own hand")

    assert not says_something(OneOf(frozenset({"right", "left"})), trait)
    assert not says_something(NOT_SEEN, trait)
    assert says_something(word("left"), trait)


@given(st.sampled_from(JUDGED).flatmap(lambda t: st.tuples(st.just(t), known_values(t))))
def test_every_set_can_be_said_on_one_line(pair: tuple) -> None:
    trait, known = pair

    for said in (say(known, trait), say_bounds(known, trait), say_short(known, trait)):
        assert said
        assert said.strip() == said
        assert "inf" not in said.split()
