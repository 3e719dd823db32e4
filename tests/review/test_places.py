"""Where the player stood against the middle of what the other side could play."""

from functools import cache

import pytest

from tactics.cli.rule_files import load_rules
from tactics.engine.position import position_of
from tactics.engine.stands import ServeAsked, stand_found
from tactics.flight.recovery import recovery_x_m
from tactics.flight.stand import ReturnStand
from tactics.flight.venue import FULL_COURT
from tactics.model.ball import Ball
from tactics.model.choice import Choice
from tactics.model.known import Known, number, word
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.report.layout import text_of
from tactics.report.places import place_section, places_as_json
from tactics.review.places import places
from tactics.source import Span
from tests.golden import Golden

RETURN = {
    "game situation": word("returning"), "serve side": word("deuce"), "own hand": word("right"),
    "opponent hand": word("right"), "stand depth": number(12.885),
}  # fmt: skip
RALLY = {
    "game situation": word("baseline rally"), "stand depth": number(12.5),
    "struck from width": number(3.0), "struck from depth": number(12.0),
}  # fmt: skip


@cache
def rules(name: str = "where-they-stand") -> RuleSet:
    found = load_rules([name], with_drills=False).reading.value
    assert found is not None
    return found


def stood(facts: dict[str, Known], width: float, **other: Known) -> Ball:
    named = {name.replace("_", " "): known for name, known in other.items()}
    return Ball(
        situation=Situation.of({**facts, "stand width": number(width), **named}),
        choice=Choice(),
        span=Span(file="c.csv", line=2),
    )


def off_m(*balls: Ball) -> tuple[float, ...]:
    (group,) = places(rules(), balls).groups
    return group.off_m


def test_a_return_is_held_against_the_place_that_the_stand_command_gives() -> None:
    ball = stood(RETURN, 3.4)
    found = stand_found(
        position_of(ball.situation, rules().vocabulary), ServeAsked(behind_baseline_m=1.0)
    )

    assert isinstance(found.place, ReturnStand)
    assert off_m(ball)[0] == pytest.approx(3.4 - found.place.by_angle_x_m, abs=0.02)


def test_a_recovery_is_held_against_half_of_the_opponents_angle() -> None:
    middle = float(recovery_x_m(3.0, 12.0, 12.5, FULL_COURT))

    assert off_m(stood(RALLY, 0.0))[0] == pytest.approx(-middle, abs=1e-9)
    assert middle < 0  # from the right corner the longer road is to the other side


def test_a_left_hander_who_stands_on_the_same_spot_is_as_far_off_on_the_other_side() -> None:
    right = stood(RETURN, 3.4)
    left = stood(RETURN, -3.4, own_hand=word("left"))

    assert off_m(left)[0] == pytest.approx(-off_m(right)[0], abs=1e-9)


@pytest.mark.parametrize("fact", ["stand depth", "serve side", "own hand", "opponent hand"])
def test_a_return_with_a_place_but_without_a_fact_is_counted_as_left_out(fact: str) -> None:
    facts = {name: known for name, known in RETURN.items() if name != fact}

    found = places(rules(), [stood(facts, 3.0)])

    assert (found.groups, found.incomplete) == ((), 1)


def test_charts_without_places_and_sets_without_the_columns_say_nothing() -> None:
    bare = Ball(situation=Situation.of(RALLY), choice=Choice(), span=Span(file="c.csv", line=2))

    assert places(rules(), [bare]).groups == ()
    assert places(rules("singles-club"), [stood(RALLY, 1.0)]).groups == ()
    assert place_section(places(rules(), [bare])).lines == ()


def test_places_in_words(golden: Golden) -> None:
    balls = [
        *(stood(RETURN, 2.6 + 0.1 * step) for step in range(12)),
        *(stood(RETURN, 3.0, opponent_hand=word("left")) for _ in range(4)),
        *(stood(RALLY, 0.5 * step - 3.0) for step in range(12)),
        stood({"game situation": word("returning")}, 3.0),
    ]

    golden("places/places.txt", text_of([place_section(places(rules(), balls))]))


def test_no_number_stands_in_json_below_ten_balls() -> None:
    found = places_as_json(places(rules(), [stood(RALLY, 1.0)] * 9))

    (group,) = found["groups"]
    assert (group["n"], group["median_off_m"], group["middle_half_m"]) == (9, None, None)
