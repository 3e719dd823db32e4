"""What a plan may propose: nothing that strains a restricted player, care where it is due."""

import pytest

from tactics.cli.rule_files import load_drills, load_rules
from tactics.model.ball import Ball
from tactics.model.choice import Choice, Outcome
from tactics.model.known import word
from tactics.model.plan import Care, Part, Plan
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.review.plan import STRAINING, effort_rules, is_straining, plan_lesson
from tactics.source import Span

_LOADED = load_rules(["singles-club"], with_drills=False).reading.value
assert _LOADED is not None
RULES: RuleSet = _LOADED
DRILLS = load_drills()
EVERY = [rule.id for rule in RULES.rules]
EFFORT = sorted(effort_rules(RULES))
SERVE, CALM = "second-serve-spin-first", "outside-ball-same-road"


def plan(*rules: str, **more: bool) -> Plan:
    return plan_lesson(rules, RULES, DRILLS, **more)  # type: ignore[arg-type]


def strained(found: Plan) -> set[str]:
    return {s for block in found.blocks if block.drill for s in block.drill.strains} & STRAINING


@pytest.mark.parametrize("rule", EVERY)
def test_a_restriction_leaves_no_serve_no_smash_and_no_effort(rule: str) -> None:
    found = plan(rule, is_restricted=True)

    assert strained(found) == set()
    assert set(found.rules).isdisjoint(EFFORT)
    assert set(found.homework.rules) == set(found.rules)
    assert found.care[0] is Care.RESTRICTED
    assert found.rules + found.waiting == (rule,)


def test_without_a_restriction_serves_are_trained_with_the_shoulder_warm() -> None:
    found = plan(SERVE)

    assert "serve" in strained(found)
    assert found.care == (Care.WARM_UP, Care.SHOULDER, Care.LOAD, Care.WEATHER)


def test_young_players_are_told_to_stop_early_whatever_is_trained() -> None:
    assert Care.JUNIOR in plan(CALM, is_junior=True).care
    assert Care.LOAD not in plan(SERVE, is_junior=True).care
    assert Care.JUNIOR not in plan(CALM).care


def test_a_lesson_begins_with_what_was_set_and_uses_its_minutes() -> None:
    found = plan(CALM)

    assert [block.part for block in found.blocks][:2] == [Part.RETEST, Part.WARM_UP]
    assert sum(block.minutes for block in found.blocks) == found.minutes


@pytest.mark.parametrize(
    ("facts", "parts", "strains"),
    [
        pytest.param({"game situation": "serving"}, {}, True, id="serve"),
        pytest.param({"wing": "overhead"}, {}, True, id="overhead"),
        pytest.param({}, {"stroke": "smash"}, True, id="smash"),
        pytest.param({"wing": "forehand"}, {"stroke": "forehand"}, False, id="forehand"),
    ],
)
def test_a_ball_strains_where_the_arm_goes_over_the_head(
    facts: dict[str, str], parts: dict[str, str], strains: bool
) -> None:
    ball = Ball(
        situation=Situation.of({fact: word(said) for fact, said in facts.items()}),
        choice=Choice.of({part: word(said) for part, said in parts.items()}),
        outcome=Outcome(),
        span=Span(file="chart.csv", line=2),
    )

    assert is_straining(ball) is strains
