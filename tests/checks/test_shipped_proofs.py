"""Proofs about the rule set that ships: random balls agree, and planted faults are found."""

import os
from dataclasses import replace
from functools import cache
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.checks.finding import Finding, Kind, Unconfirmed, Unsettled
from tactics.checks.gaps import spoken_parts
from tactics.checks.proof import Proof
from tactics.checks.prove import prove
from tactics.cli.rule_files import load_rules
from tactics.model.condition import All, Not
from tactics.model.known import OneOf
from tactics.model.rule import Rule, RuleSet, Strength
from tactics.model.trait import Role
from tests.checks.every_situation import advisor_of
from tests.checks.lawful import condition_of, known_of, lawful_cells, witness_of
from tests.engine.rule_sets import DRAWN

# all of them where time is not short: see the profiles in DEVELOPERS.md
BALLS = 10_000 if os.environ.get("HYPOTHESIS_PROFILE") in ("ci", "deep") else 2_000
ACROSS, STRAIGHT = OneOf(frozenset({"crosscourt"})), OneOf(frozenset({"straight"}))


@cache
def shipped() -> Proof:
    reading = load_rules(["singles-club"]).reading
    assert reading.value is not None
    return Proof(advisor=advisor_of(reading.value))


@cache
def faults() -> tuple[object, ...]:
    return tuple(prove(shipped().advisor, deep=False))


def kinds(rules: RuleSet, *, deep: bool = False) -> dict[Kind, list[Finding]]:
    """Return the findings about a changed set by kind; all of them confirmed."""
    found: dict[Kind, list[Finding]] = {kind: [] for kind in Kind}
    for step in prove(advisor_of(rules), deep=deep):
        assert not isinstance(step, Unconfirmed | Unsettled)
        if isinstance(step, Finding):
            found[step.kind].append(step)
    return found


@pytest.mark.parametrize("seed", range(4))
def test_random_balls_find_no_gap_and_no_conflict_that_was_not_proved(seed: int) -> None:
    proof, rng = shipped(), Random(seed)
    gaps = {
        phase
        for s in faults()
        if isinstance(s, Finding) and s.kind is Kind.GAP
        for phase in s.phases
    }
    conflicts = [
        set(s.rules) for s in faults() if isinstance(s, Finding) and s.kind is Kind.CONFLICT
    ]
    fired = set()

    for _ in range(BALLS // 4):
        cells = lawful_cells(proof, rng)
        seen = proof.replay(witness_of(proof, cells))
        fired |= {rule_id for rule_id in seen.truths if seen.applies(rule_id)}
        (phase,) = known_of(proof, cells)["game situation"].words

        assert seen.is_sure
        assert phase in gaps or set(spoken_parts(proof)) & seen.standards.keys()
        for standard in seen.standards.values():
            clashing = seen.ids(standard.clashing) | seen.ids(standard.musts)
            assert standard.allowed or any(group <= clashing for group in conflicts)

    dead = {s.rules[0] for s in faults() if isinstance(s, Finding) and s.kind is Kind.NEVER_APPLIES}
    assert not fired & dead


@st.composite
def corners(draw: st.DrawFn) -> tuple[All, list[str], str]:
    """Draw a condition that some legal situation meets, about the phase and one or two facts."""
    proof = shipped()
    known = known_of(proof, lawful_cells(proof, Random(draw(st.integers(0, 10_000)))))
    facts = sorted(
        name for name in known
        if proof.space.scales[name].trait.role is Role.FACT and name != "game situation"
    )  # fmt: skip
    names = ["game situation", *draw(st.sets(st.sampled_from(facts), min_size=1, max_size=2))]
    (phase,) = known["game situation"].words
    condition = condition_of(known, names)
    assert isinstance(condition, All)
    return condition, names, phase


def planted(rule_id: str, **fields: object) -> Rule:
    rule = Rule(
        id=rule_id, title="planted", concern="safety", strength=Strength.MUST,
        advice=(("direction", ACROSS),), span=DRAWN,
    )  # fmt: skip
    return replace(rule, **fields)


def with_rules(*more: Rule) -> RuleSet:
    rules = shipped().rules
    return replace(rules, rules=(*rules.rules, *more))


@settings(max_examples=12)
@given(corners())
def test_a_planted_gap_is_found(corner: tuple[All, list[str], str]) -> None:
    condition, _, phase = corner
    rules = shipped().rules
    holed = tuple(replace(rule, unless=(*rule.unless, condition)) for rule in rules.rules)

    found = kinds(replace(rules, rules=holed))[Kind.GAP]

    assert phase in {each for gap in found for each in gap.phases}


@settings(max_examples=12)
@given(corners())
def test_a_planted_conflict_is_found(corner: tuple[All, list[str], str]) -> None:
    condition, _, _ = corner
    one = planted("planted-across", when=condition)
    other = planted("planted-straight", when=condition, advice=(("direction", STRAIGHT),))

    found = kinds(with_rules(one, other))[Kind.CONFLICT]

    assert ("planted-across", "planted-straight") in [each.rules for each in found]


@settings(max_examples=12)
@given(corners())
def test_a_planted_dead_rule_is_found(corner: tuple[All, list[str], str]) -> None:
    condition, _, _ = corner
    dead = planted("planted-dead", when=All((*condition.inside, Not(condition.inside[-1]))))

    found = kinds(with_rules(dead))[Kind.NEVER_APPLIES]

    assert ("planted-dead",) in [each.rules for each in found]


@settings(max_examples=12)
@given(corners())
def test_a_planted_overruled_rule_is_found(corner: tuple[All, list[str], str]) -> None:
    condition, _, _ = corner
    higher = planted("planted-above", when=All(condition.inside[:-1]))
    lower = planted("planted-below", when=condition, concern="score")

    found = kinds(with_rules(higher, lower))[Kind.ALWAYS_OVERRULED]

    assert "planted-below" in [each.rules[0] for each in found]


@settings(max_examples=3)
@given(st.data())
def test_a_rule_planted_twice_is_found(data: st.DataObject) -> None:
    rules = shipped().rules
    rule = data.draw(
        st.sampled_from([r for r in rules.rules if r.strength is Strength.SHOULD and not r.beats])
    )
    twin = replace(rule, id="planted-twin", beats=(), alternatives=())

    found = kinds(with_rules(twin), deep=True)[Kind.REPEATED_RULE]

    assert "planted-twin" in [each.rules[0] for each in found]
