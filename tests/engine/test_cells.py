"""Numbers are cut where a rule set mentions a threshold, and nothing is lost by it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.engine.cells import Axis, axis_for, cells_of, is_open
from tactics.model.known import (
    NOT_APPLICABLE,
    NOT_SEEN,
    Interval,
    ScatterWithin,
    Within,
    at_least,
    at_most,
    between,
    less_than,
    merged,
    more_than,
    number,
    point,
    word,
)
from tactics.model.standard import STANDARD
from tests.engine.small_sets import advisor, value, verdict

DEPTH = STANDARD.trait("court depth")
BALANCE = STANDARD.trait("balance")


@pytest.mark.parametrize(
    ("asked", "below", "exactly", "above"),
    [
        ("at least 9.1 m", False, True, True),
        ("more than 9.1 m", False, False, True),
        ("at most 9.1 m", True, True, False),
        ("less than 9.1 m", True, False, False),
        ("9.1 m", False, True, False),
        ("9.1 m to 9.1 m", False, True, False),
        ("not midcourt", False, True, True),
    ],
)
def test_a_threshold_belongs_to_the_side_that_says_so(
    asked: str, below: bool, exactly: bool, above: bool
) -> None:
    club = advisor(f"""
        speaks: {{concern: pattern, strength: should, when: {{court depth: {asked}}},
                  advise: {{direction: crosscourt}}}}
    """)

    found = [
        verdict(club, "direction: crosscourt", f"court depth: {metres} m").findings
        for metres in ("9.09", "9.1", "9.11")
    ]

    assert list(map(bool, found)) == [below, exactly, above]


@pytest.mark.parametrize(
    ("metres", "word_for_it"), [("9.09", "midcourt"), ("9.1", "inside baseline")]
)
def test_a_limit_belongs_to_the_band_above_it(metres: str, word_for_it: str) -> None:
    axis = axis_for(DEPTH, [Within((band.interval,)) for band in DEPTH.words])

    assert axis.mask_of(value("court depth", metres)) == axis.mask_of(
        value("court depth", word_for_it)
    )


@pytest.mark.parametrize(
    ("fact", "metric", "imperial"),
    [
        ("court depth", "0.3048 m", "1 ft"),
        ("court depth", "7.62 m", "25 ft"),
        ("contact height", "0.9144 m", "36 in"),
        ("court depth", "9.144 m", "10 yd"),
        ("incoming pace", "96.56064 km/h", "60 mph"),
        ("incoming time", "1.2 s", "1200 ms"),
        ("inside line", "120 cm", "1.2 m"),
    ],
)
def test_metric_and_imperial_are_the_same_number(fact: str, metric: str, imperial: str) -> None:
    assert value(fact, metric) == value(fact, imperial)


def test_a_threshold_in_feet_is_kept_and_broken_in_metres() -> None:
    club = advisor("""
        room: {concern: pattern, strength: should, advise: {inside line: at least 4 ft}}
    """)

    assert verdict(club, "inside line: 1.22 m").kept == "kept"
    assert verdict(club, "inside line: 1.21 m").kept == "broken"


def test_a_number_that_no_threshold_parts_from_another_is_in_the_same_cell() -> None:
    axis = axis_for(DEPTH, [Within((at_least(9.1),))])

    assert axis.size == 2
    assert axis.mask_of(number(10)) == axis.mask_of(number(19))
    assert axis.mask_of(number(9)) != axis.mask_of(number(10))


def test_a_number_that_is_mentioned_by_itself_has_a_cell_of_its_own() -> None:
    axis = axis_for(DEPTH, [Within((point(9.1),))])

    assert axis.size == 3
    assert cells_of(axis.mask_of(number(9.1))) == (0b010,)


def test_thresholds_out_of_range_cut_nothing() -> None:
    axis = axis_for(DEPTH, [Within((at_least(DEPTH.low),)), Within((at_most(DEPTH.high),))])

    assert axis.size == 1


@pytest.mark.parametrize(
    "interval",
    [at_least(9.1), more_than(9.1), at_most(12.0), less_than(12.0), between(9.1, 12.0)],
    ids=["at least", "more than", "at most", "less than", "between"],
)
def test_cells_give_back_the_numbers_they_stand_for(interval: Interval) -> None:
    asked = Within((interval,))
    axis = axis_for(DEPTH, [asked, Within((point(10.0),))])

    limited = axis.allowed_of(axis.mask_of(asked))

    assert axis.mask_of(limited) == axis.mask_of(asked)
    assert isinstance(limited, Within)
    assert limited.intervals[0].low == max(interval.low, (DEPTH.low, 0))
    assert limited.intervals[-1].high == min(interval.high, (DEPTH.high, 1))


def test_words_have_one_cell_each() -> None:
    axis = Axis(BALANCE)

    assert axis.size == 4
    assert axis.allowed_of(axis.mask_of(word("set"))) == word("set")


def test_a_fact_not_seen_may_be_in_any_cell() -> None:
    axis = Axis(BALANCE)

    assert axis.mask_of(NOT_SEEN) == axis.everything
    assert axis.known_of(axis.everything) is NOT_SEEN
    assert is_open(axis.everything)


def test_not_applicable_is_in_no_cell_of_a_value() -> None:
    axis = Axis(BALANCE)

    assert axis.mask_of(NOT_APPLICABLE) & axis.everything == 0
    assert axis.known_of(axis.absent) is NOT_APPLICABLE
    assert not is_open(axis.absent)


def test_a_margin_in_scatter_has_to_be_resolved_first() -> None:
    axis = axis_for(STANDARD.trait("inside line"), [])

    with pytest.raises(TypeError, match="scatter"):
        axis.mask_of(ScatterWithin((at_least(1.4),)))


@given(st.data())
def test_cells_in_a_row_are_one_interval(data):
    trait = STANDARD.trait("court depth")
    cuts = data.draw(st.lists(st.floats(1.0, 15.0), max_size=6))
    axis = axis_for(trait, [Within((at_least(cut),)) for cut in cuts])
    mask = data.draw(st.integers(1, axis.everything))

    limited = axis.allowed_of(mask)

    assert isinstance(limited, Within)
    assert limited.intervals == merged(limited.intervals)
    assert axis.mask_of(limited) == mask
