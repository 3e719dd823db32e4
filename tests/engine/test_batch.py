"""Whole charts at once give the verdicts of judging ball by ball."""

from hypothesis import given
from hypothesis import strategies as st

from tactics.engine.advise import advise
from tactics.engine.batch import GRADES, SILENT, Verdicts, grades_in, judge_all
from tactics.engine.compile import compile_rules
from tactics.engine.judge import judge
from tactics.engine.judge_each import judge_each
from tactics.model.choice import Choice
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import Finding, Grade, Verdict
from tests.engine.rule_sets import choices_for, rule_sets, situations_for

Balls = list[tuple[Situation, Choice]]


@st.composite
def charts(draw: st.DrawFn) -> tuple[RuleSet, Balls]:
    rules = draw(rule_sets())
    ball = st.tuples(situations_for(rules), choices_for(rules))
    return rules, draw(st.lists(ball, min_size=1, max_size=6))


@given(charts())
def test_a_chart_is_judged_as_its_balls_are(drawn: tuple[RuleSet, Balls]) -> None:
    rules, balls = drawn
    advisor = compile_rules(rules)

    verdicts = judge_all(advisor, [ball[0] for ball in balls], [ball[1] for ball in balls])

    one_by_one = [judge(choice, advise(advisor, situation)) for situation, choice in balls]
    assert [verdicts.grades(row) for row in range(len(balls))] == [
        verdict.possible for verdict in one_by_one
    ]
    assert [_shown(verdicts, row) for row in range(len(balls))] == [
        _told(verdict) for verdict in one_by_one
    ]


@given(charts())
def test_every_ball_of_a_chart_gets_the_whole_verdict_it_gets_alone(
    drawn: tuple[RuleSet, Balls],
) -> None:
    rules, balls = drawn
    advisor = compile_rules(rules)

    verdicts = judge_each(advisor, [ball[0] for ball in balls], [ball[1] for ball in balls])

    assert verdicts == [judge(choice, advise(advisor, situation)) for situation, choice in balls]


def _shown(verdicts: Verdicts, row: int) -> tuple[object, ...]:
    ids = [rule.rule.id for rule in verdicts.program.ready]
    parts = {
        part: _part_grade(int(bits[row]))
        for part, bits in verdicts.parts.items()
        if bits[row] and bits[row] != SILENT
    }
    spoke = tuple(ids[place] for place in range(len(ids)) if verdicts.spoke[place, row])
    charged = tuple(ids[place] for place in range(len(ids)) if verdicts.charged[place, row])
    return parts, spoke, charged


def _part_grade(bits: int) -> Grade:
    grades = grades_in(bits)
    kept = {Grade.SOUND, Grade.ACCEPTABLE}
    if bits & SILENT and not grades <= kept:
        grades |= {Grade.SOUND}
    if len(grades) == 1:
        return next(iter(grades))
    return Grade.ACCEPTABLE if grades <= kept else Grade.UNDECIDED


def _told(verdict: Verdict) -> tuple[object, ...]:
    parts = {finding.part: _grade(finding) for finding in verdict.findings}
    return parts, verdict.spoke, verdict.charged


def _grade(finding: Finding) -> Grade:
    return finding.grade


def test_every_grade_has_a_bit_of_its_own() -> None:
    assert set(GRADES) == set(Grade)
    assert (1 << len(GRADES)) - 1 < SILENT
