"""From facts and words to a shot that can be flown: what must hold whatever is asked."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tactics.engine.candidate import Candidate, candidate_of
from tactics.engine.exchange import exchange
from tactics.engine.no_shot import Why
from tactics.engine.position import position_of
from tactics.engine.told import Conditions
from tactics.flight.shots import Contact
from tactics.model.choice import Choice
from tactics.model.known import Known, Within, between, number, word
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD

HANDS = ("right", "left")
OTHER = {"right": "left", "left": "right", "deuce": "ad", "ad": "deuce"}
TURNED = ("own hand", "opponent hand", "serve side")
"""The facts that say left or right; every other one is told from the player's own side."""

words = st.sampled_from


def told(**facts: st.SearchStrategy[str]) -> st.SearchStrategy[dict[str, Known]]:
    return st.fixed_dictionaries(
        {name.replace("_", " "): each.map(word) for name, each in facts.items()}
    )


hands = {"own_hand": words(HANDS), "opponent_hand": words(HANDS)}
places = st.fixed_dictionaries(
    {
        "court depth": st.floats(2.0, 14.0).map(lambda m: number(round(m, 2))),
        "court width": st.floats(-5.0, 5.0).map(lambda m: number(round(m, 2))),
        "contact height": st.floats(0.4, 1.6).map(lambda m: number(round(m, 2))),
        "opponent width": st.floats(-3.0, 3.0).map(lambda m: number(round(m, 2))),
    }
)
rallies = st.builds(
    lambda facts, place: Situation.of(facts | place),
    told(
        game_situation=st.just("baseline rally"),
        balance=words(("set", "moving", "stretched")),
        wing=words(("forehand", "backhand")),
        level=words(("beginner", "club", "competitive")),
        **hands,
    ),
    places,
)
serves = told(
    game_situation=st.just("serving"),
    serve_side=words(("deuce", "ad")),
    serve_number=words(("first", "second")),
    level=words(("club", "competitive")),
    **hands,
).map(Situation.of)
rally_choices = told(
    direction=words(("crosscourt", "straight", "middle")),
    spin=words(("flat", "top", "slice")),
).flatmap(
    lambda parts: st.builds(
        lambda height, depth: Choice.of(
            parts | {"height over net": number(height), "depth": number(depth)}
        ),
        words((0.3, 0.8, 1.5, 2.5)),
        words((6.0, 8.5, 10.5)),
    )
)
serve_choices = told(direction=words(("wide", "T", "at body"))).map(Choice.of)
asked = st.one_of(st.tuples(rallies, rally_choices), st.tuples(serves, serve_choices))


def mirrored(situation: Situation) -> Situation:
    turned = {}
    for fact in TURNED:
        (name,) = getattr(situation.get(fact), "words", ("",))
        if name:
            turned[fact] = word(OTHER[name])
    return situation.with_facts(turned)


def made(situation: Situation, choice: Choice) -> Candidate:
    return candidate_of(choice, position_of(situation, STANDARD), STANDARD)


def asked_m(choice: Choice, part: str) -> float:
    known = choice.get(part)
    assert isinstance(known, Within)
    return known.intervals[0].low[0]


@given(asked)
@settings(max_examples=25)
def test_the_same_words_for_other_hands_are_the_mirrored_shot(both: tuple[Situation, Choice]):
    situation, choice = both
    here, there = made(situation, choice), made(mirrored(situation), choice)

    assert there.exists == here.exists
    assert there.moment.contact.x_m == pytest.approx(-here.moment.contact.x_m)
    one, other = exchange(here), exchange(there)
    assert (one is None) == (other is None)
    if one is None or other is None:
        return
    np.testing.assert_allclose(other.exchanges.landing_x_m, -one.exchanges.landing_x_m, atol=1e-6)
    np.testing.assert_allclose(
        other.exchanges.shares.into_court, one.exchanges.shares.into_court, atol=1e-9
    )
    np.testing.assert_allclose(
        other.exchanges.hitter_spare_s, one.exchanges.hitter_spare_s, atol=1e-6
    )
    assert other.in_low == pytest.approx(one.in_low, abs=1e-9)


@given(rallies, rally_choices)
@settings(max_examples=25)
def test_a_shot_does_what_its_words_ask_for(situation: Situation, choice: Choice):
    candidate = made(situation, choice)
    assume(candidate.exists)
    flown = exchange(candidate)

    assert flown is not None
    assert flown.exchanges.height_over_net_m[0] == pytest.approx(
        asked_m(choice, "height over net"), abs=0.01
    )
    assert flown.exchanges.landing_y_m[0] == pytest.approx(asked_m(choice, "depth"), abs=0.01)


@given(rallies, rally_choices)
@settings(max_examples=25)
def test_a_choice_is_flown_or_there_is_a_reason_never_both(situation: Situation, choice: Choice):
    candidate = made(situation, choice)

    assert (candidate.no_shot is None) == bool(len(candidate.shots))
    if candidate.no_shot is not None:
        assert exchange(candidate) is None


def test_a_fast_flat_ball_from_under_the_tape_has_no_window():
    position = position_of(
        Situation.of({"game situation": word("baseline rally")}),
        STANDARD,
        Conditions(contact=Contact(x_m=0.0, depth_m=1.5, height_m=0.4), level="club"),
    )

    found = candidate_of(
        Choice.of({"direction": word("straight"), "spin": word("flat"), "pace": number(90)}),
        position,
        STANDARD,
    )

    assert found.no_shot is not None
    assert found.no_shot.why is Why.WINDOW_CLOSED
    assert found.no_shot.most < found.no_shot.value


def test_a_band_is_flown_at_its_ends_as_well():
    position = position_of(
        Situation.of({"game situation": word("baseline rally"), "level": word("club")}), STANDARD
    )

    found = candidate_of(
        Choice.of(
            {"direction": word("middle"), "depth": Within((between(8, 10),)), "spin": word("top")}
        ),
        position,
        STANDARD,
    )
    flown = exchange(found)

    assert flown is not None
    assert min(flown.exchanges.landing_y_m) < flown.exchanges.landing_y_m[0]
    assert max(flown.exchanges.landing_y_m) > flown.exchanges.landing_y_m[0]
