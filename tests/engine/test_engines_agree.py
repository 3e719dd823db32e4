"""Laws: durable-rules and the plain matcher say the same, whatever the rules and what was seen."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.engine.advise import advise
from tactics.engine.advisor import Matcher
from tactics.engine.compile import compile_rules
from tactics.engine.durable_engine import DurableEngine, load
from tactics.engine.judge import judge
from tactics.engine.match import DEPENDS, NO, YES, Truth
from tactics.engine.program import Every, Flag, Leaf, LeafTest, Opposite, Program, Some
from tests.bench.sixty_rules import situations, sixty_rules
from tests.engine.rule_sets import choices_for, reordered, rule_sets, situations_for

pytestmark = pytest.mark.skipif(load() is None, reason="durable-rules cannot be imported here")

FOUR_TIMES = settings(max_examples=4 * settings().max_examples)
NOTHING = compile_rules(sixty_rules(rules=1, terms=2)).program


def leaf_truths(count: int) -> st.SearchStrategy[tuple[Truth, ...]]:
    return st.integers(0, 3**count - 1).map(
        lambda number: tuple(Truth(number // 3**place % 3) for place in range(count))
    )


def program_of(nodes, terms=(), tests=200) -> Program:
    """Return a program whose rules hold where these nodes hold."""
    rule = NOTHING.ready[0]
    return replace(
        NOTHING,
        leaves=tuple(LeafTest("balance", number) for number in range(tests)),
        term_names=tuple(map(str, range(len(terms)))),
        terms=tuple(terms),
        ready=tuple(replace(rule, when=node, unless=Some(())) for node in nodes),
    )


def nodes(leaves: int, flags: int = 0):
    own = st.integers(0, leaves - 1).map(Leaf)
    asked = own | st.integers(0, flags - 1).map(Flag) if flags else own
    return st.recursive(
        asked,
        lambda inner: (
            st.lists(inner, max_size=5).map(lambda some: Every(tuple(some)))
            | st.lists(inner, max_size=5).map(lambda some: Some(tuple(some)))
            | inner.map(Opposite)
        ),
        max_leaves=25,
    )


def agree(program: Program, asked) -> None:
    """Ask both engines, there and back again, so that nothing left behind goes unseen."""
    durable, matcher = DurableEngine(program), Matcher(program)
    there_and_back = [*asked, *reversed(asked)]
    assert [durable.infer(leaves) for leaves in there_and_back] == [
        matcher.infer(leaves) for leaves in there_and_back
    ]
    assert durable.faults == 0
    durable.close()


@FOUR_TIMES
@given(st.data())
def test_both_engines_derive_the_same_from_any_tests(data):
    program = compile_rules(data.draw(rule_sets())).program

    asked = data.draw(st.lists(leaf_truths(len(program.leaves)), min_size=1, max_size=8))

    agree(program, asked)


@given(st.data())
def test_both_engines_derive_the_same_through_deep_conditions(data):
    terms = [data.draw(nodes(6, place)) for place in range(data.draw(st.integers(0, 3)))]
    rules = data.draw(st.lists(nodes(6, len(terms)), min_size=1, max_size=3))
    asked = data.draw(st.lists(leaf_truths(6), min_size=1, max_size=8))

    agree(program_of(rules, terms, tests=6), asked)


@FOUR_TIMES
@given(st.data())
def test_both_engines_lead_to_the_same_verdict(data):
    rules = data.draw(rule_sets())
    situation, choice = data.draw(situations_for(rules)), data.draw(choices_for(rules))

    verdicts = [
        judge(choice, advise(compile_rules(rules, engine), situation))
        for engine in ("durable", "matcher")
    ]

    assert verdicts[0] == verdicts[1]


@given(st.data())
def test_the_order_in_the_file_changes_nothing(data):
    rules = data.draw(rule_sets())
    other = data.draw(reordered(rules))
    situation, choice = data.draw(situations_for(rules)), data.draw(choices_for(rules))

    verdicts = [
        judge(choice, advise(compile_rules(each, "durable"), situation)) for each in (rules, other)
    ]

    assert verdicts[0] == verdicts[1]


@pytest.mark.parametrize("unseen", [0.0, 0.3, 0.7, 1.0])
def test_both_engines_agree_on_a_set_of_a_hundred_and_fifty_rules(unseen):
    advisor = compile_rules(sixty_rules(rules=150, terms=20))

    asked = [advise(advisor, each).leaves for each in situations(60, unseen=unseen)]

    agree(advisor.program, asked)


def _leaves(*numbers):
    return tuple(map(Leaf, numbers))


WIDE = {
    "seventy-alternatives": [Some(_leaves(*range(70)))],
    "seventy-rules-on-different-tests": _leaves(*range(70)),
    "two-hundred-conditions": [Every(_leaves(*range(200)))],
    "a-long-condition-turned-round": [Opposite(Every(_leaves(*range(150))))],
    "long-chains-under-any": [
        Some((Every(_leaves(*range(90))), Every(_leaves(*range(50, 170))), Leaf(199)))
    ],
    "729-combinations": [
        Every(tuple(Some(_leaves(3 * place, 3 * place + 1, 3 * place + 2)) for place in range(6)))
    ],
    "729-combinations-turned-round": [
        Opposite(
            Some(tuple(Every(_leaves(3 * at, 3 * at + 1, 3 * at + 2)) for at in range(6)))
        )
    ],
    "half-a-million-combinations": [
        Every(tuple(Some(_leaves(3 * place, 3 * place + 1, 3 * place + 2)) for place in range(12)))
    ],
    "four-hundred-literals-in-one-rule": [
        Every((*_leaves(*range(200)), *map(Opposite, _leaves(*range(200)))))
    ],
    "four-hundred-literals-in-twenty-rules": [
        Every((*_leaves(*range(at, at + 10)), *map(Opposite, _leaves(*range(190 - at, 200 - at)))))
        for at in range(0, 200, 10)
    ],
    "ninety-alternatives-that-start-alike": [
        Some(tuple(Every(_leaves(0, 1, number)) for number in range(2, 92)))
    ],
    "always-and-never": [Every(()), Some(()), Opposite(Every(())), Opposite(Some(()))],
    "a-test-and-its-opposite": [
        Every((Leaf(0), Opposite(Leaf(0)))),
        Some((Leaf(1), Opposite(Leaf(1)))),
    ],
}  # fmt: skip


@pytest.mark.parametrize("rules", WIDE.values(), ids=WIDE.keys())
def test_both_engines_agree_on_rules_that_are_too_wide_for_one_rule_set(rules):
    all_alike = [[truth] * 200 for truth in Truth]
    one_apart = [
        [*[usual] * place, other, *[usual] * (199 - place)]
        for place in (0, 1, 17, 69, 91, 149, 199)
        for usual, other in ((YES, NO), (YES, DEPENDS), (NO, YES), (DEPENDS, NO), (NO, DEPENDS))
    ]

    agree(program_of(rules), [*all_alike, *one_apart])


def test_sixty_rules_give_every_answer():
    advisor = compile_rules(sixty_rules(), "durable")

    found = [truth for each in situations(50, unseen=0.3) for truth in advise(advisor, each).rules]

    assert set(found) == {NO, DEPENDS, YES}
