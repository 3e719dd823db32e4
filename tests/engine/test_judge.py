"""Laws of the verdict: exact over what was not seen, blind to the outcome, the same mirrored."""

from dataclasses import replace
from itertools import product
from math import prod

from hypothesis import assume, given
from hypothesis import strategies as st

from tactics.engine.advise import advise
from tactics.engine.audit import audit
from tactics.engine.cells import cells_of
from tactics.engine.compile import compile_rules
from tactics.engine.judge import Case, case_of, complete_with, judge
from tactics.engine.matter import FINDS
from tactics.model.choice import Choice
from tactics.model.known import NOT_APPLICABLE, OneOf, word
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import Grade, Verdict
from tests.engine.rule_sets import choices_for, mentioned, rule_sets, situations_for
from tests.strategies import balls, charts, completions, outcomes

MOST = 1500
IN_DOUBT = OneOf(frozenset(("no", "yes")))


@st.composite
def cases(draw: st.DrawFn) -> tuple[RuleSet, Situation, Choice]:
    rules = draw(rule_sets())
    return rules, draw(situations_for(rules)), draw(choices_for(rules))


def _verdict(rules: RuleSet, situation: Situation, choice: Choice) -> Verdict:
    return judge(choice, advise(compile_rules(rules), situation))


@given(cases())
def test_possible_grades_are_those_of_every_completion_on_cells(
    drawn: tuple[RuleSet, Situation, Choice],
) -> None:
    rules, situation, choice = drawn
    advice = advise(compile_rules(rules), situation)
    case = case_of(choice, advice)
    open_cells = _open_cells(case)
    assume(prod(map(len, open_cells.values())) <= MOST)

    verdict = judge(choice, advice)

    assert verdict.possible == {
        complete_with(case, dict(zip(open_cells, cells, strict=True))).grade
        for cells in product(*open_cells.values())
    }


def _open_cells(case: Case) -> dict[str, tuple[int, ...]]:
    """Return every fact or part a condition asks about -> each of its possible cells."""
    names = {leaf.name for leaf in case.program.leaves} | ({FINDS} & case.charted.keys())
    return {name: cells_of(case.masks[name]) for name in sorted(names)}


@given(cases(), st.data())
def test_no_completion_of_the_facts_contradicts_a_verdict(
    drawn: tuple[RuleSet, Situation, Choice], data: st.DataObject
) -> None:
    rules, situation, choice = drawn
    # a restriction in doubt counts as one: effort is then not graded, whatever turns out
    assume(situation.get("restricted today") not in (IN_DOUBT, NOT_APPLICABLE))
    verdict = _verdict(rules, situation, choice)

    completed = data.draw(completions(situation, rules.vocabulary)).with_facts(
        {"restricted today": situation.as_dict().get("restricted today", word("no"))}
    )

    assert _verdict(rules, completed, choice).possible <= verdict.possible


@given(cases(), st.data())
def test_a_fact_that_no_rule_mentions_changes_nothing(
    drawn: tuple[RuleSet, Situation, Choice], data: st.DataObject
) -> None:
    rules, situation, choice = drawn
    spare = Situation.of({"score state": data.draw(st.sampled_from(_score_states(rules)))})
    assume("score state" not in mentioned(rules))

    with_score = situation.with_facts(spare.as_dict())

    assert _verdict(rules, with_score, choice) == _verdict(rules, situation, choice)


def _score_states(rules: RuleSet) -> list[object]:
    trait = rules.vocabulary.trait("score state")
    return [trait.value_of(word.name) for word in trait.words]


@given(rule_sets(), st.data())
def test_an_audit_gives_the_same_grades_whatever_the_balls_did(
    rules: RuleSet, data: st.DataObject
) -> None:
    chart = data.draw(charts(rules.vocabulary, max_size=4))
    advisor = compile_rules(rules)
    changed = tuple(
        replace(ball, outcome=data.draw(outcomes(rules.vocabulary))) for ball in chart.balls
    )

    before = audit([chart], advisor)
    after = audit([replace(chart, balls=changed)], advisor)

    assert [each.verdict for each in before.judged] == [each.verdict for each in after.judged]


@given(cases())
def test_a_mirrored_left_hander_gets_the_same_verdict(
    drawn: tuple[RuleSet, Situation, Choice],
) -> None:
    rules, situation, choice = drawn
    assume(not mentioned(rules) & {"own hand", "opponent hand", "serve side"})

    mirrored = _verdict(rules, situation.mirrored(), choice)

    assert mirrored == _verdict(rules, situation, choice)


@given(st.data())
def test_what_a_ball_finds_does_not_change_in_the_mirror(data: st.DataObject) -> None:
    rules = data.draw(rule_sets())
    ball = data.draw(balls(rules.vocabulary))
    advisor = compile_rules(rules)

    as_seen = case_of(ball.choice, advise(advisor, ball.situation))
    in_mirror = case_of(ball.choice, advise(advisor, ball.situation.mirrored()))

    assert as_seen.masks[FINDS] == in_mirror.masks[FINDS]


@given(cases())
def test_a_grade_is_given_only_where_it_is_the_only_one_or_all_are_kept(
    drawn: tuple[RuleSet, Situation, Choice],
) -> None:
    verdict = _verdict(*drawn)

    kept = {Grade.SOUND, Grade.ACCEPTABLE}
    open_grades = len(verdict.possible) > 1 and not verdict.possible <= kept
    assert (verdict.grade is Grade.UNDECIDED) == (
        open_grades or verdict.possible == {Grade.UNDECIDED}
    )
    assert bool(verdict.missing) == open_grades
