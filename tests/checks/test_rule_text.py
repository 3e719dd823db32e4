"""What is written for pasting is read back as the same values."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tactics.checks.clauses import NEVER, Clauses
from tactics.checks.scale import Scale, scale_for
from tactics.model.condition import Condition
from tactics.model.known import Interval, OneOf, Within, number, point, word
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Trait
from tactics.reading.rules import read_rules
from tactics.report.rule_text import condition_text
from tactics.source import Source
from tests.checks.every_situation import truth_of
from tests.strategies import seen_values

FACTS = [trait for trait in STANDARD.facts if trait.kind in (Kind.WORDS, Kind.NUMBER)]


def read_back(text: str) -> Condition:
    """Return the condition that a reader finds in a text."""
    source = Source(
        name="club.yaml",
        text="rule set: a\nprecedence: [a]\nrules: {}\ncannot happen:\n"
        f"  - when: {text}\n    because: it cannot\n",
    )
    reading = read_rules(source)
    assert [p.sentence for p in reading.problems if p.code != "empty-value"] == []
    (line,) = reading.value.cannot_happen
    return line.when


@st.composite
def cells(draw: st.DrawFn) -> tuple[Trait, Scale, frozenset[int]]:
    """Draw a fact cut at what is mentioned, and some of its cells."""
    trait = draw(st.sampled_from(FACTS))
    mentioned = [draw(seen_values(trait)) for _ in range(draw(st.integers(1, 3)))]
    scale = scale_for(trait, mentioned, NEVER, Clauses())
    assume(scale.size > 1)
    some = draw(st.sets(st.integers(0, scale.size - 1), min_size=1, max_size=scale.size - 1))
    return trait, scale, frozenset(some)


@given(cells())
def test_cells_are_written_so_that_a_reader_finds_them_again(drawn) -> None:
    trait, scale, some = drawn

    condition = read_back(condition_text([(trait.folded, scale.values(some))], STANDARD))

    for cell in range(scale.size):
        holds = truth_of(condition, {trait.folded: scale.values((cell,))})
        assert holds is (cell in some)


@pytest.mark.parametrize(
    ("name", "known", "text"),
    [
        ("balance", word("set"), "{balance: set}"),
        ("balance", OneOf(frozenset({"set", "jammed"})), "{balance: [set, jammed]}"),
        ("incoming depth", Within((Interval((9.1, 0), (14.0, 1)),)),
         "{incoming depth: [deep, very deep]}"),
        ("incoming pace", number(80.0), "{incoming pace: 80 km/h}"),
        ("contact height", Within((Interval((1.5, 1), (1.8, 0)),)),
         "{all: [{contact height: more than 1.5 m}, {contact height: less than 1.8 m}]}"),
        ("incoming pace", Within((Interval((5.0, 0), (260.0, 1)),)), "{}"),
        ("stature", Within((point(1.2), Interval((1.5, 0), (2.3, 1)))),
         "{any: [{stature: 1.2 m}, {stature: at least 1.5 m}]}"),
    ],
)  # fmt: skip
def test_values_are_written_as_a_coach_writes_them(name, known, text) -> None:
    assert condition_text([(name, known)], STANDARD) == text
