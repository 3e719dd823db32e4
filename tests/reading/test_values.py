"""What each way of writing a value means, and what is said about the others."""

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
from tactics.model.trait import Kind, Role, Trait
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.values import allowed, known, union

TESTABLE = [trait for trait in STANDARD.traits if trait.kind in (Kind.WORDS, Kind.NUMBER)]
INFINITY = float("inf")


def value(fact: str, text: str):
    return allowed(text, STANDARD.trait(fact), STANDARD, scatter=True)


@pytest.mark.parametrize(
    ("fact", "text", "wanted"),
    [
        ("balance", "set", word("set")),
        ("balance", " SET ", word("set")),
        ("balance", "not set", OneOf(frozenset({"moving", "stretched", "jammed"}))),
        ("direction", "to the T", word("T")),
        ("direction", "Inside_Out", word("inside-out")),
        ("serve number", "2", word("second")),
        ("level", "club or higher", OneOf(frozenset({"club", "competitive", "performance"}))),
        ("level", "improver or lower", OneOf(frozenset({"beginner", "improver"}))),
        ("body height", "waist", Within((Interval((0.52, 0), (0.64, 0)),))),
        ("body height", "chest or higher", Within((Interval((0.64, 0), (INFINITY, 1)),))),
        ("body height", "thigh or lower", Within((Interval((-INFINITY, 0), (0.52, 0)),))),
        ("body height", "0.6 of stature", number(0.6)),
        ("body height", "not waist", Within(complement((Interval((0.52, 0), (0.64, 0)),)))),
        ("contact height", "1.2", number(1.2)),
        ("contact height", "1.2m", number(1.2)),
        ("contact height", "120 CM", number(1.2)),
        ("contact height", "5 ft 7 in", number(1.7018)),
        ("contact height", "at least 3 ft", Within((at_least(0.9144),))),
        ("contact height", "More Than 1 m", Within((more_than(1),))),
        ("contact height", "at most 1 m", Within((at_most(1),))),
        ("contact height", "less than 1 m", Within((less_than(1),))),
        ("contact height", "1 to 2 m", Within((between(1, 2),))),
        ("contact height", "50 cm to 1 m", Within((between(0.5, 1),))),
        ("contact height", "1 m to 1 m", Within((between(1, 1),))),
        ("contact height", "30 to 40 in", Within((between(0.762, 1.016),))),
        ("court width", "-2 m", number(-2)),
        ("court width", "-4 to -2 m", Within((between(-4, -2),))),
        ("incoming pace", "60 mph", number(96.56064)),
        ("pace", "at most 75%", Within((at_most(75),))),
        ("inside line", "1.4 scatter", ScatterWithin((Interval((1.4, 0), (1.4, 1)),))),
        ("inside line", "at least 2 scatter", ScatterWithin((at_least(2),))),
        ("restricted today", "yes", word("yes")),
    ],
)
def test_a_value_is_read_as_a_coach_means_it(fact: str, text: str, wanted) -> None:
    assert value(fact, text) == wanted


@pytest.mark.parametrize(
    ("fact", "text", "code", "replacement"),
    [
        ("balance", "on", Code.UNKNOWN_WORD, ""),
        ("balance", "streched", Code.UNKNOWN_WORD, "stretched"),
        ("balance", "not streched", Code.UNKNOWN_WORD, "not stretched"),
        ("balance", "not seen", Code.UNKNOWN_WORD, ""),
        ("balance", "set or moving", Code.COMPARISON, "[set, moving]"),
        ("balance", "set, moving", Code.COMPARISON, "[set, moving]"),
        ("balance", "  ", Code.EMPTY_VALUE, ""),
        ("score state", "6:4", Code.UNKNOWN_WORD, ""),
        ("wind", "no", Code.UNKNOWN_WORD, "none"),
        ("contact height", "shoulder", Code.WORD_OF_ANOTHER_FACT, ""),
        ("direction", "drop", Code.WORD_OF_ANOTHER_FACT, ""),
        ("stature", "tall", Code.WORD_FOR_NUMBER, ""),
        ("wing", "forehand or higher", Code.NO_ORDER, ""),
        ("level", "club or better", Code.COMPARISON, "club or higher"),
        ("contact height", "at least level", Code.COMPARISON, "level or higher"),
        ("contact height", "at least", Code.UNKNOWN_WORD, ""),
        ("contact height", "at most belly", Code.COMPARISON, ""),
        ("contact height", ">= 1 m", Code.COMPARISON, "at least 1 m"),
        ("contact height", "over 1 m", Code.COMPARISON, "more than 1 m"),
        ("contact height", "1 m or more", Code.COMPARISON, "at least 1 m"),
        ("contact height", "up to 1 m", Code.COMPARISON, "at most 1 m"),
        ("contact height", "under 1 m", Code.COMPARISON, "less than 1 m"),
        ("contact height", "1-2 m", Code.COMPARISON, "1 to 2 m"),
        ("contact height", "between 1 and 2 m", Code.COMPARISON, "1 to 2 m"),
        ("contact height", "not 1 m", Code.COMPARISON, ""),
        ("contact height", "1.2.3 m", Code.COMPARISON, ""),
        ("contact height", "9" * 400, Code.COMPARISON, ""),
        ("contact height", "1,2 m", Code.DECIMAL_COMMA, "1.2 m"),
        ("contact height", "1 metr", Code.UNKNOWN_UNIT, "1 metre"),
        ("contact height", "at least 80 inchs", Code.UNKNOWN_UNIT, "at least 80 inches"),
        ("contact height", "3 kg", Code.UNKNOWN_UNIT, ""),
        ("contact height", "2 scatter", Code.UNKNOWN_UNIT, ""),
        ("steps to the ball", "3 stps", Code.UNKNOWN_UNIT, "3 steps"),
        ("steps to the ball", "2 to 4 stps", Code.UNKNOWN_UNIT, "2 to 4 steps"),
        ("inside line", "1 m to 2 scatter", Code.MIXED_UNITS, ""),
        ("contact height", "7 m", Code.OUT_OF_RANGE, ""),
        ("contact height", "-1 m", Code.OUT_OF_RANGE, ""),
        ("contact height", "at least 300", Code.OUT_OF_RANGE, "at least 300 cm"),
        ("contact height", "2 to 1 m", Code.REVERSED_RANGE, "1 to 2 m"),
        ("contact height", "1 m to 50 cm", Code.REVERSED_RANGE, "50 cm to 1 m"),
    ],
)
def test_what_cannot_be_read_is_named_and_mended(
    fact: str, text: str, code: Code, replacement: str
) -> None:
    complaint = value(fact, text)

    assert isinstance(complaint, Complaint)
    assert (complaint.code, complaint.replacement) == (code, replacement)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("not seen", NOT_SEEN),
        ("Not_Applicable", NOT_APPLICABLE),
        ("deep or very deep", Within((Interval((9.1, 0), (INFINITY, 1)),))),
        ("mid|deep", Within((Interval((6.4, 0), (10.9, 0)),))),
    ],
)
def test_a_charted_fact_may_be_open(text: str, wanted) -> None:
    assert known(text, STANDARD.trait("incoming depth"), STANDARD) == wanted


def test_a_chart_may_have_decimal_commas() -> None:
    trait = STANDARD.trait("contact height")

    assert known("1,2 m", trait, STANDARD, decimal_comma=True) == number(1.2)
    assert isinstance(known("1,2 m", trait, STANDARD), Complaint)


def test_scatter_is_advised_and_never_charted() -> None:
    trait = STANDARD.trait("inside line")

    assert isinstance(known("1.4 scatter", trait, STANDARD), Complaint)


def test_metres_and_scatter_do_not_mix_in_a_list() -> None:
    mixed = union([Within((at_least(1),)), ScatterWithin((at_least(1),))])

    assert isinstance(mixed, Complaint)
    assert mixed.code == Code.MIXED_UNITS


@pytest.mark.parametrize("trait", TESTABLE, ids=lambda trait: trait.name)
def test_every_word_of_the_table_can_be_written(trait: Trait) -> None:
    read = [allowed(word.name, trait, STANDARD) for word in trait.words]
    synonyms = [allowed(also, trait, STANDARD) for word in trait.words for also in word.also]

    assert read == [trait.value_of(word.name) for word in trait.words]
    assert not [value for value in synonyms if isinstance(value, Complaint)]


FORMS = st.sampled_from(["{}", "not {}", "at least {}", "{} to {}", "{} or higher", "{} m", "-{}"])


@given(st.sampled_from(TESTABLE), FORMS, st.text(max_size=12), st.booleans())
def test_no_text_makes_a_value_raise(trait: Trait, form: str, text: str, comma: bool) -> None:
    written = form.format(text, text)

    read = known(written, trait, STANDARD, decimal_comma=comma)

    assert not isinstance(read, Complaint) or (read.sentence and read.code in Code)


@given(st.sampled_from(TESTABLE), FORMS, st.data())
def test_a_replacement_can_be_read(trait: Trait, form: str, data: st.DataObject) -> None:
    names = [word.name for word in trait.words] or ["1.2", "12", "80"]
    name = data.draw(st.sampled_from([*names, "2", "35", "0,5"]))
    at = data.draw(st.integers(0, len(name) - 1))
    spoilt = name[:at] + data.draw(st.sampled_from(["", "x", name[at]])) + name[at + 1 :]

    read = allowed(form.format(spoilt, spoilt), trait, STANDARD)

    if isinstance(read, Complaint) and read.replacement and trait.role is not Role.LABEL:
        again = allowed(read.replacement, trait, STANDARD)
        assert not isinstance(again, Complaint) or again.code != read.code
