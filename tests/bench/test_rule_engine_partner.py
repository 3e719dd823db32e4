"""The comparison partner has to do the same work, or the comparison would say nothing."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.engine import match
from tactics.engine.advise import advise
from tactics.engine.compile import compile_rules
from tactics.engine.judge import case_of
from tests.bench.sixty_rules import situations, sixty_rules
from tests.engine.rule_sets import choices_for, exact_situations_for, rule_sets

pytest.importorskip("rule_engine")
partner = pytest.importorskip("tests.bench.rule_engine_partner")


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_the_partner_finds_the_same_rules_in_every_exact_situation(data):
    rules = data.draw(rule_sets())
    advisor = compile_rules(rules, "matcher")
    situation = data.draw(exact_situations_for(rules))
    masks = case_of(data.draw(choices_for(rules)), advise(advisor, situation)).masks
    exact = {name: mask & -mask for name, mask in masks.items()}

    found = partner.RuleEnginePartner(advisor.program).applying(
        partner.exact_values(advisor.program, masks)
    )

    assert found == _applying(advisor.program, exact)


def test_the_partner_finds_the_same_rules_in_a_set_of_sixty():
    advisor = compile_rules(sixty_rules(), "matcher")
    masks = [advise(advisor, situation).masks for situation in situations(20)]
    asked = partner.RuleEnginePartner(advisor.program)

    found = [asked.applying(partner.exact_values(advisor.program, each)) for each in masks]

    exact = [{name: mask & -mask for name, mask in each.items()} for each in masks]
    assert found == [_applying(advisor.program, each) for each in exact]
    assert any(map(any, found))


def _applying(program, masks):
    leaves = match.test_leaves(program, masks)
    terms, rules = match.infer(program, leaves)
    choosing = [match.holds(rule.choosing, leaves, terms) for rule in program.ready]
    assert match.DEPENDS not in rules
    return [min(pair) is match.YES for pair in zip(rules, choosing, strict=True)]
