"""Proofs about small rule sets, held against going through every situation there is."""

from collections import defaultdict
from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from tactics.checks.conditions import conjuncts
from tactics.checks.finding import Finding, Kind, Unconfirmed, Unsettled
from tactics.checks.gaps import spoken_parts
from tactics.checks.proof import Proof
from tactics.checks.prove import prove
from tactics.engine.program import Program
from tactics.model.condition import All
from tactics.model.known import Known
from tactics.model.rule import RuleSet, Strength
from tactics.model.situation import Situation
from tests.checks.every_situation import Moment, advisor_of, every_moment, moment, size_of
from tests.checks.small_court import SMALL_COURT
from tests.engine.rule_sets import rule_sets

MOST = 4000


@st.composite
def small_rule_sets(draw: st.DrawFn) -> RuleSet:
    return draw(rule_sets(SMALL_COURT, most_rules=5, most_terms=2, most_facts=3, most_parts=2))


class Tried:
    """A rule set with its findings and every moment it can meet."""

    def __init__(self, rules: RuleSet, *, deep: bool) -> None:
        self.proof = Proof(advisor=advisor_of(rules))
        assume(size_of(self.proof) <= MOST)
        self.steps = list(prove(self.proof.advisor, deep=deep))
        self.moments = every_moment(self.proof)

    def found(self, kind: Kind) -> list[Finding]:
        return [s for s in self.steps if isinstance(s, Finding) and s.kind is kind]

    def rules_found(self, kind: Kind) -> set[str]:
        return {finding.rules[0] for finding in self.found(kind)}


@given(small_rule_sets())
def test_base_proofs_say_what_going_through_all_says(rules: RuleSet) -> None:
    tried = Tried(rules, deep=False)
    moments = tried.moments

    assert not [s for s in tried.steps if isinstance(s, Unconfirmed | Unsettled)]

    parts = set(spoken_parts(tried.proof))
    played = [
        m for m in moments if "played" in getattr(m.known.get("response"), "words", ["played"])
    ]
    gaps = {m.phase for m in played if not parts & m.standards.keys()}
    assert {phase for f in tried.found(Kind.GAP) for phase in f.phases} == gaps

    clashing = {part for m in moments for part, s in m.standards.items() if not s.allowed}
    assert {p for f in tried.found(Kind.CONFLICT) for p in f.parts} == clashing

    fired = frozenset().union(*(m.fired for m in moments))
    ids = {rule.id for rule in rules.rules}
    assert tried.rules_found(Kind.NEVER_APPLIES) == ids - fired

    held = frozenset().union(*(m.terms for m in moments))
    assert {f.term for f in tried.found(Kind.TERM_NEVER_HOLDS)} == {
        t.name for t in rules.terms
    } - held

    assert tried.rules_found(Kind.ALWAYS_OVERRULED) == _overruled(tried, fired)


def _overruled(tried: Tried, fired: frozenset[str]) -> set[str]:
    ready = tried.proof.advisor.program.ready
    decides, active = set(), set()
    for each in tried.moments:
        active |= each.active
        for standard in each.standards.values():
            decides |= {ready[place].rule.id for place in standard.deciding}
    return {
        rule.id
        for rule in tried.proof.rules.rules
        if rule.id in fired
        and (
            rule.id not in active
            or (
                rule.strength is not Strength.MAY
                and not rule.alternatives
                and rule.id not in decides
            )
        )
    }


@given(small_rule_sets())
def test_every_conflict_anywhere_holds_a_reported_group(rules: RuleSet) -> None:
    tried = Tried(rules, deep=False)
    ready = tried.proof.advisor.program.ready
    groups = defaultdict(list)
    for finding in tried.found(Kind.CONFLICT):
        for part in finding.parts:
            groups[part].append(set(finding.rules))

    for each in tried.moments:
        for part, standard in each.standards.items():
            if not standard.allowed:
                clashing = {ready[p].rule.id for p in (*standard.clashing, *standard.musts)}
                assert any(group <= clashing for group in groups[part])


@given(small_rule_sets())
def test_a_rule_said_to_repeat_others_can_be_deleted(rules: RuleSet) -> None:
    tried = Tried(rules, deep=True)
    for rule_id in tried.rules_found(Kind.REPEATED_RULE):
        others = tuple(rule for rule in rules.rules if rule.id != rule_id)
        program = advisor_of(replace(rules, rules=others)).program

        for each in tried.moments:
            assert _same_answer(tried, moment(program, each.known), each, program)


@given(small_rule_sets())
def test_a_condition_said_to_change_nothing_can_be_deleted(rules: RuleSet) -> None:
    tried = Tried(rules, deep=True)
    for finding in (*tried.found(Kind.IDLE_CONDITION), *tried.found(Kind.IDLE_EXCEPTION)):
        changed = without_condition(rules, finding)
        program = advisor_of(changed).program

        for each in tried.moments:
            assert _same_answer(tried, moment(program, each.known), each, program)


@given(small_rule_sets())
def test_what_could_be_deleted_is_found(rules: RuleSet) -> None:
    tried = Tried(rules, deep=True)
    kinds = (Kind.REPEATED_RULE, Kind.NEVER_APPLIES, Kind.ALWAYS_OVERRULED)
    settled = set().union(*map(tried.rules_found, kinds))
    for rule in rules.rules:
        if rule.id not in settled and rule.strength is not Strength.MAY and not rule.alternatives:
            others = tuple(other for other in rules.rules if other.id != rule.id)
            program = advisor_of(replace(rules, rules=others)).program

            same = (
                _same_answer(tried, new, each, program) and _same_concerns(new, each)
                for each in tried.moments
                for new in [moment(program, each.known)]
            )
            assert not all(same)


def without_condition(rules: RuleSet, finding: Finding) -> RuleSet:
    """Return the rules without the condition or exception that a finding is about."""
    rule = rules.rule(finding.rules[0])
    if finding.kind is Kind.IDLE_EXCEPTION:
        kept = list(rule.unless)
        kept.remove(finding.exceptions[0])
        changed = replace(rule, unless=tuple(kept))
    else:
        piece = finding.conditions[0]
        when, choosing = list(conjuncts(rule.when)), list(conjuncts(rule.choosing))
        (when if piece in when else choosing).remove(piece)
        changed = replace(
            rule,
            when=All(tuple(when)),
            choosing=None if rule.choosing is None else All(tuple(choosing)),
        )
    return replace(rules, rules=tuple(changed if r is rule else r for r in rules.rules))


def _same_answer(tried: Tried, new: Moment, old: Moment, program: Program) -> bool:
    before = tried.proof.advisor.program
    owners = {rule.rule.id for rule in program.ready if rule.options}
    return _read(before, old) == _read(program, new) and (
        old.active & owners == new.active & owners
    )


def _same_concerns(new: Moment, old: Moment) -> bool:
    """Say whether the same concerns decide: an option may excuse against one and not another."""
    return {part: each.rank for part, each in new.standards.items()} == {
        part: each.rank for part, each in old.standards.items()
    }


def _read(program: Program, moment: Moment) -> dict[str, tuple]:
    """Return the standards as words and numbers, which hold across differently cut grids."""
    return {
        part: tuple(
            program.grid.axes[part].allowed_of(mask) if mask else None
            for mask in (each.must_allowed, each.allowed)
        )
        for part, each in moment.standards.items()
    }


@given(small_rule_sets())
def test_uneven_hands_are_found_where_a_mirror_changes_the_advice(rules: RuleSet) -> None:
    tried = Tried(rules, deep=False)
    program = tried.proof.advisor.program

    uneven = any(
        not _same_answer(tried, moment(program, _mirrored(each.known)), each, program)
        for each in tried.moments
    )

    assert bool(tried.found(Kind.UNEVEN_HANDS)) == uneven


def _mirrored(known: dict[str, Known]) -> dict[str, Known]:
    facts = Situation.of(known).mirrored().as_dict()
    return {name: facts[name] for name in known}
