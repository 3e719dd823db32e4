"""Seeds that carry a plan, and seeds that are any text."""

from hypothesis import given
from hypothesis import strategies as st

from tactics.quiz.seeds import plan_from, plan_in, seed_with

RULES = [f"rule-{number}" for number in range(82)]
PLANS = st.lists(st.sampled_from(RULES), unique=True, max_size=12)


@given(PLANS)
def test_a_seed_gives_its_plan_back(plan: list[str]) -> None:
    seed = seed_with("3fa9", plan, RULES)

    assert plan_in(seed, RULES[::-1]) == tuple(plan)
    if plan:
        assert plan_from(seed, RULES, ("rule-1",), 10) == tuple(plan)


@given(st.text(max_size=30), PLANS, st.integers(1, 12))
def test_any_text_plans_different_rules_that_are_known(
    seed: str, first: list[str], count: int
) -> None:
    plan = plan_from(seed, RULES, first, count)

    assert set(plan) <= set(RULES)
    assert plan_in(seed, RULES) or (len(plan) == len(set(plan)) == count)
    assert plan == plan_from(seed, RULES, first, count)


def test_what_is_to_be_drilled_comes_first() -> None:
    assert plan_from("monday", RULES, ("rule-7", "gone", "rule-3"), 4)[:2] == ("rule-7", "rule-3")


def test_a_plan_for_other_rules_is_only_a_text() -> None:
    assert plan_in(seed_with("3fa9", ["rule-81"], RULES), RULES[:5]) == ()
