"""Every rule set and every drill that ships with the program keeps what is promised of it."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.checks.broken_mix_example import broken_mix_examples
from tactics.checks.finding import Finding
from tactics.checks.prove import prove
from tactics.cli import files
from tactics.cli.rule_files import load_drills, load_rules
from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.engine.examples import run_examples, situation_of
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.known import OneOf, Within
from tactics.model.mix_rule import MixRule
from tactics.model.rule import Rule, RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, KEPT, Reason
from tactics.problem import Severity
from tests.engine.rule_sets import choices_for, exact_situations_for, situations_for

RULES = Path(files.__file__).parents[2] / "rules"
SETS = tuple(
    str(path.relative_to(RULES.parent))
    for path in (*sorted(RULES.glob("*.yaml")), *sorted(RULES.glob("variants/*.yaml")))
)
DIGITS = frozenset("0123456789")
SERVICE_LINE_M = 6.4

WEATHER = "rules/conditions.yaml"
"""Silent on a still day, so it is proved on top of the sets that it is meant for."""
WHOLE_SETS = tuple((name,) for name in SETS if name != WEATHER) + tuple(
    (name, WEATHER) for name in SETS if name != WEATHER and "variants" not in name
)

every_set = pytest.mark.parametrize("name", SETS)
every_whole_set = pytest.mark.parametrize("names", WHOLE_SETS, ids=" with ".join)


@cache
def rules_of(*names: str) -> RuleSet:
    rules = load_rules([str(RULES.parent / name) for name in names]).reading
    assert rules.problems == ()
    assert rules.value is not None
    return rules.value


@cache
def advisor_of(*names: str) -> Advisor:
    return compile_rules(rules_of(*names))


def all_rules() -> Iterator[Rule | MixRule]:
    for name in SETS:
        yield from rules_of(name).rules
        yield from rules_of(name).mixes


def test_there_are_sets_for_singles_doubles_children_and_the_weather() -> None:
    assert {Path(name).stem for name in SETS} >= {
        "singles-club", "doubles-club", "junior-red", "junior-orange", "junior-green",
        "conditions", "attack-first", "high-deep-middle",
    }  # fmt: skip


@every_set
def test_it_reads_without_a_problem(name: str) -> None:
    assert load_rules([str(RULES.parent / name)]).reading.problems == ()


@pytest.mark.parametrize("names", [(WEATHER,), *WHOLE_SETS], ids=" with ".join)
def test_every_example_holds(names: tuple[str, ...]) -> None:
    ran = run_examples(advisor_of(*names))

    assert [(each.rule.id, each.example.span.line) for each in ran if not each.holds] == []
    assert broken_mix_examples(advisor_of(*names)) == ()


@every_set
def test_every_rule_has_an_example_that_keeps_it_and_one_that_breaks_it(name: str) -> None:
    grades = {
        rule.id: {example.grade for example in rule.examples} for rule in rules_of(name).rules
    }

    assert [rule for rule, seen in grades.items() if not (seen & KEPT and seen & BROKEN)] == []


@every_set
def test_every_rule_says_what_to_try_and_why_in_a_few_words(name: str) -> None:
    for rule in rules_of(name).rules:
        assert rule.aim, rule.id
        assert rule.usual_mistake, rule.id
        assert rule.evidence, rule.id
        assert len(rule.cue) <= 40, rule.id
        assert len(rule.because) <= 170, rule.id
        assert not DIGITS & set(rule.id), rule.id


@every_set
def test_no_serve_is_aimed_past_the_service_line(name: str) -> None:
    rules = rules_of(name)
    serving = [
        rule
        for rule in rules.rules
        if any(_is_serve(situation_of(rules, rule, example)) for example in rule.examples)
    ]

    past = [
        rule.id
        for rule in serving
        for part, allowed in (*rule.aim, *rule.advice)
        if part == "depth" and isinstance(allowed, Within)
        if min(each.low[0] for each in allowed.intervals) >= SERVICE_LINE_M
    ]

    assert past == []


def _is_serve(situation: Situation) -> bool:
    return situation.get("game situation") == OneOf(frozenset({"serving"}))


@every_whole_set
def test_nothing_is_left_open_and_nothing_clashes(names: tuple[str, ...]) -> None:
    steps = list(prove(advisor_of(*names), deep=False))

    found = [each for each in steps if isinstance(each, Finding)]
    assert steps
    assert [each for each in found if each.severity is not Severity.INFORMATION] == []


@given(st.data())
def test_a_mirrored_left_hander_gets_the_same_verdict(data: st.DataObject) -> None:
    advisor = advisor_of(*data.draw(st.sampled_from(WHOLE_SETS)))
    situation = data.draw(situations_for(advisor.rules))
    choice = data.draw(choices_for(advisor.rules))

    mirrored = judge(choice, advise(advisor, situation.mirrored()))

    assert mirrored == judge(choice, advise(advisor, situation))


@given(st.data())
def test_no_two_rules_clash_on_a_ball(data: st.DataObject) -> None:
    advisor = advisor_of(*data.draw(st.sampled_from(WHOLE_SETS)))
    situation: Situation = data.draw(exact_situations_for(advisor.rules))
    choice: Choice = data.draw(choices_for(advisor.rules))

    verdict = judge(choice, advise(advisor, situation))

    assert verdict.clashing == ()
    assert verdict.reason is not Reason.CONFLICT


def test_weather_rules_change_one_part_each() -> None:
    assert {len(rule.advice) for rule in rules_of(WEATHER).rules} == {1}
    assert {rule.concern for rule in rules_of(WEATHER).rules} == {"conditions"}


@pytest.mark.parametrize("name", [name for name in SETS if "junior" in name])
def test_children_are_asked_for_no_pace_and_are_nobody_s_target(name: str) -> None:
    for rule in rules_of(name).rules:
        answers = (rule.advice, rule.aim, *rule.alternatives)
        wanted = dict(pair for answer in answers for pair in answer)
        assert "pace" not in wanted, rule.id
        road = wanted.get("direction")
        assert not isinstance(road, OneOf) or "at body" not in road.words, rule.id


def test_every_drill_that_a_rule_names_exists() -> None:
    catalogue = load_drills()

    named = {drill for rule in all_rules() for drill in rule.drills}
    assert {drill for drill in named if catalogue.find(drill) is None} == set()


def test_every_rule_that_a_drill_trains_exists_and_names_the_drill() -> None:
    names = {rule.id: set[str]() for rule in all_rules()}
    for rule in all_rules():
        names[rule.id] |= set(rule.drills)

    trained = {(each, drill.id) for drill in load_drills().drills for each in drill.trains}
    assert {pair for pair in trained if pair[1] not in names.get(pair[0], ())} == set()
    assert {(rule, drill) for rule, drills in names.items() for drill in drills} == trained


def test_every_drill_is_whole() -> None:
    for drill in load_drills().drills:
        assert drill.trains, drill.id
        assert all((drill.title, drill.set_up, drill.scoring, drill.harder, drill.easier))
        assert 5 <= drill.minutes <= 20, drill.id
        assert not DIGITS & set(drill.id), drill.id
        assert drill.safety or not drill.strains, drill.id
