"""Comparisons of small rule sets, held against going through every situation there is."""

from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from tactics.checks.compare import compare_rules
from tactics.checks.proof import Proof
from tactics.checks.replay import replay
from tactics.checks.space import space_for
from tactics.model.rule import Rule, RuleSet, Strength
from tests.checks.every_situation import Moment, advisor_of, every_moment, moment, size_of
from tests.checks.small_court import SMALL_COURT
from tests.engine.rule_sets import rule_sets

MOST = 3000


@st.composite
def two_versions(draw: st.DrawFn) -> tuple[RuleSet, RuleSet]:
    """Draw a rule set and the same with one to three edits."""
    old = draw(rule_sets(SMALL_COURT, most_rules=5, most_terms=2, most_facts=3, most_parts=2))
    new = old
    for _ in range(draw(st.integers(1, 3))):
        new = _edited(draw, new)
    return old, new


def _edited(draw: st.DrawFn, rules: RuleSet) -> RuleSet:
    place = draw(st.integers(0, len(rules.rules) - 1))
    rule = rules.rules[place]
    other = draw(st.sampled_from(rules.rules))
    kind = draw(st.sampled_from(["drop", "strength", "advice", "when", "unless", "order"]))
    if kind == "order":
        return replace(rules, precedence=rules.precedence[::-1])
    kept: tuple[Rule, ...] = ()
    if kind != "drop" or len(rules.rules) == 1:
        changed = {
            "strength": replace(rule, strength=draw(st.sampled_from(Strength))),
            "advice": replace(rule, advice=other.advice),
            "when": replace(rule, when=other.when),
            "unless": replace(rule, unless=()),
        }
        kept = (changed.get(kind, rule),)
    return replace(rules, rules=(*rules.rules[:place], *kept, *rules.rules[place + 1 :]))


def _joint(old: RuleSet, new: RuleSet) -> list[tuple[Moment, Moment]]:
    """Return every legal moment on the cells of both rule sets."""
    before, after = advisor_of(old), advisor_of(new)
    proof = Proof(advisor=before)
    proof.__dict__["space"] = space_for((old, new))
    assume(size_of(proof) <= MOST)
    return [(each, moment(after.program, each.known)) for each in every_moment(proof)]


def _keys(old: RuleSet, new: RuleSet, before: Moment, after: Moment) -> set:
    """Return (rules that stop, rules that start to decide) for each part that changes."""
    here, there = _read(old, before), _read(new, after)
    return {
        (_stops(here.get(part, {}), there.get(part, {})),
         _stops(there.get(part, {}), here.get(part, {})))
        for part in here.keys() | there.keys()
        if _answer(old, before, part) != _answer(new, after, part)
    }  # fmt: skip


def _stops(here: dict, there: dict) -> tuple[str, ...]:
    return tuple(sorted(each for each, asks in here.items() if there.get(each) != asks))


def _read(rules: RuleSet, seen: Moment) -> dict[str, dict]:
    """Return part -> deciding rule -> what it asks and how firmly."""
    ready = advisor_ready(rules)
    return {
        part: {
            ready[place].id: (ready[place].strength, dict(ready[place].advice)[part])
            for place in standard.deciding
        }
        for part, standard in seen.standards.items()
    }


def advisor_ready(rules: RuleSet) -> list[Rule]:
    return sorted(rules.rules, key=lambda rule: rule.id)


def _answer(rules: RuleSet, seen: Moment, part: str) -> object:
    standard = seen.standards.get(part)
    if standard is None:
        return None
    axis = _programs[id(rules)].grid.axes[part]
    return [axis.allowed_of(m) if m else () for m in (standard.must_allowed, standard.allowed)]


_programs: dict[int, object] = {}


@given(two_versions())
def test_every_change_of_advice_belongs_to_a_listed_pair(versions) -> None:
    old, new = versions
    before, after = advisor_of(old), advisor_of(new)
    _programs.clear()
    _programs.update({id(old): before.program, id(new): after.program})
    moments = _joint(old, new)

    found = compare_rules(before, after)

    assert found.unconfirmed == 0
    assert found.is_complete
    listed = {(each.before, each.after) for each in found.changes if each.parts}
    assert listed == set().union(*(_keys(old, new, one, other) for one, other in moments))


@given(two_versions())
def test_every_witness_of_a_comparison_differs(versions) -> None:
    old, new = versions
    before, after = advisor_of(old), advisor_of(new)

    for change in compare_rules(before, after).changes:
        one, other = replay(before, change.witness), replay(after, change.witness)

        assert one.is_sure
        assert other.is_sure
        assert change.said_before != change.said_after or (change.opened or change.closed)


@given(rule_sets(SMALL_COURT))
def test_a_rule_set_does_not_differ_from_itself(rules: RuleSet) -> None:
    assert compare_rules(advisor_of(rules), advisor_of(rules)).is_same
