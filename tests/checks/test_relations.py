"""Facts that follow from others: nothing is ruled out that the evaluator would derive."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.checks.space import Space, space_for
from tactics.engine.derive import complete, finds
from tactics.model.choice import Choice
from tactics.model.condition import All
from tactics.model.condition import Test as Asked
from tactics.model.known import NOT_APPLICABLE, Known, OneOf, Within, at_least, number, word
from tactics.model.rule import Rule, RuleSet, Strength
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tests.checks.lawful import known_of, lawful_cells
from tests.checks.test_shipped_proofs import shipped
from tests.engine.rule_sets import DRAWN


def space_about(**facts: tuple[float, ...]) -> Space:
    """Return the space of a rule set that mentions facts at these thresholds."""
    tests = tuple(
        Asked(name=name.replace("_", " "), allowed=Within((at_least(limit),)))
        for name, limits in facts.items()
        for limit in limits
    )
    rule = Rule(
        id="it", title="it", concern="it", strength=Strength.MUST, when=All(tests), span=DRAWN
    )
    rules = RuleSet(name="it", precedence=("it",), rules=(rule,), vocabulary=STANDARD, span=DRAWN)
    return space_for((rules,))


def can_be(space: Space, known: dict[str, Known]) -> bool:
    literals = [
        space.test(name, value)
        for name, value in known.items()
        if name in space.scales and isinstance(value, OneOf | Within)
    ]
    return space.clauses.can_hold((*space.legal, *literals))


HEIGHTS = space_about(body_height=(0.285, 0.52, 0.64, 0.8), contact_height=(0.6, 0.9, 1.15, 1.6))


@given(st.floats(0.8, 2.3), st.floats(0.0, 1.5))
def test_no_height_is_ruled_out_that_a_player_can_have(stature: float, share: float) -> None:
    known = {"game situation": word("baseline rally"), "stature": number(stature)}
    heights = {"body height": number(share), "contact height": number(stature * share)}

    assert can_be(HEIGHTS, {**known, **heights})


@pytest.mark.parametrize(("body", "contact"), [(0.2, 1.5), (0.9, 0.7)])
def test_heights_that_contradict_each_other_are_ruled_out(body: float, contact: float) -> None:
    known = {"body height": number(body), "contact height": number(contact)}

    assert not can_be(HEIGHTS, {**known, "stature": number(1.75)})


TIMES = space_about(incoming_pace=(75, 100, 133), incoming_time=(0.9, 1.2, 1.6))


@given(st.floats(5.0, 260.0))
def test_the_time_that_goes_with_a_pace_is_not_ruled_out(pace: float) -> None:
    known = {
        "game situation": word("baseline rally"),
        "incoming pace": number(pace),
        "court depth": number(12.0),
        "opponent depth": number(12.0),
    }
    derived = complete(Situation.of(known), STANDARD).get("incoming time")

    assert can_be(TIMES, {**known, "incoming time": derived})


@pytest.mark.parametrize("seed", range(40))
def test_the_wing_a_ball_finds_is_the_one_the_evaluator_works_out(seed: int) -> None:
    proof = shipped()
    known = known_of(proof, lawful_cells(proof, Random(seed)))
    parts = {trait.folded for trait in STANDARD.parts}
    choice = Choice.of((n, k) for n, k in known.items() if n in parts and n != "finds")
    facts = Situation.of((name, each) for name, each in known.items() if name not in parts)

    found = finds(choice, facts)

    assert isinstance(found, OneOf)
    others = {name: each for name, each in known.items() if name != "finds"}
    possible = {
        each.name
        for each in STANDARD.trait("finds").words
        if can_be(proof.space, {**others, "finds": word(each.name)})
    }
    assert possible == found.words


def test_what_does_not_exist_has_no_value() -> None:
    assert not can_be(TIMES, {"game situation": word("serving"), "incoming pace": number(80.0)})
    assert can_be(TIMES, {"game situation": word("serving"), "incoming pace": NOT_APPLICABLE})
