"""The chart that ships with the program keeps what is promised of it."""

import csv
import re
from collections import Counter
from collections.abc import Sequence

import pytest

from tactics.cli import files
from tactics.cli.rule_files import load_rules
from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.audit import audit
from tactics.engine.cells import cells_of
from tactics.engine.compile import compile_rules
from tactics.engine.coverage import as_covered
from tactics.engine.judge import judge
from tactics.model.audit import Audit, JudgedBall
from tactics.model.ball import Chart
from tactics.model.choice import Cause
from tactics.model.known import word
from tactics.model.verdict import BROKEN, KEPT, Grade, Reason
from tactics.problem import Reading
from tactics.reading.charts import read_chart_bytes
from tests.quick_form import is_quick, undecided

PATH = files.find_shipped(files.SAMPLES, "three lessons", ".csv")
LEAST_BALLS = 150
MOST_UNDECIDED = 0.2
RATED = KEPT | BROKEN


@pytest.fixture(scope="module")
def advisor() -> Advisor:
    rules = load_rules(()).reading
    assert rules.value is not None
    return compile_rules(rules.value)


@pytest.fixture(scope="module")
def reading(advisor: Advisor) -> Reading[Chart]:
    assert PATH is not None
    return read_chart_bytes(PATH.name, PATH.read_bytes(), advisor.vocabulary)


@pytest.fixture(scope="module")
def audited(advisor: Advisor, reading: Reading[Chart]) -> Audit:
    assert reading.value is not None
    return audit([reading.value], advisor)


@pytest.fixture(scope="module")
def quick(advisor: Advisor, audited: Audit) -> list[JudgedBall]:
    return [each for each in audited.judged if is_quick(each.ball, advisor.vocabulary)]


@pytest.fixture(scope="module")
def cells() -> list[dict[str, str]]:
    assert PATH is not None
    return list(csv.DictReader(PATH.read_text("utf-8").splitlines()))


def test_every_row_reads_without_a_problem(
    reading: Reading[Chart], cells: list[dict[str, str]]
) -> None:
    assert reading.problems == ()
    assert reading.value is not None
    assert len(reading.value.balls) == len(cells) >= LEAST_BALLS


def test_it_is_one_left_hander_in_three_lessons(audited: Audit) -> None:
    balls = [each.ball for each in audited.judged]

    assert {ball.situation.get("own hand") for ball in balls} == {word("left")}
    assert len({ball.player for ball in balls}) == 1
    assert len({(ball.date, ball.lesson) for ball in balls}) == 3
    assert len({ball.date for ball in balls}) == 3


def test_the_player_goes_by_a_nickname(audited: Audit) -> None:
    (player,) = {each.ball.player for each in audited.judged}

    assert re.fullmatch(r"[A-Z][a-z]+", player)


def test_the_shipped_rules_cover_every_ball(audited: Audit) -> None:
    assert audited.not_covered == ()
    assert audited.assumed == ()


def test_every_game_situation_has_balls_enough_for_a_share(
    advisor: Advisor, audited: Audit
) -> None:
    counts = Counter(each.ball.situation.get("game situation") for each in audited.judged)

    phases = advisor.vocabulary.trait("game situation").words
    assert all(counts[word(phase.name)] >= 10 for phase in phases)


def test_a_third_of_the_balls_has_only_the_quick_form(
    audited: Audit, quick: list[JudgedBall]
) -> None:
    assert len(quick) >= len(audited.judged) / 3


def test_quick_balls_come_from_every_game_situation(quick: list[JudgedBall]) -> None:
    assert len({each.ball.situation.get("game situation") for each in quick}) == 5


def test_few_quick_balls_stay_undecided(quick: list[JudgedBall]) -> None:
    open_balls = undecided(quick)

    assert 0 < len(open_balls) <= MOST_UNDECIDED * len(quick)


def test_one_named_fact_would_decide_each_undecided_quick_ball(
    advisor: Advisor, quick: list[JudgedBall]
) -> None:
    assert [_grades_once_seen(each, advisor) & {Grade.UNDECIDED} for each in undecided(quick)] == [
        set() for _ in undecided(quick)
    ]


def _grades_once_seen(each: JudgedBall, advisor: Advisor) -> set[Grade]:
    """Return the grades of a ball under every value of the fact named first as missing."""
    fact = each.verdict.missing[0]
    situation = as_covered(advisor.rules, each.ball.situation)
    axis = advisor.program.grid.axes[fact]
    seen = [
        situation.with_facts({fact: axis.allowed_of(cell)})
        for cell in cells_of(axis.mask_of(situation.get(fact)))
    ]
    return {judge(each.ball.choice, advise(advisor, one)).grade for one in seen}


@pytest.mark.parametrize("unit", ["ft", "in", "mph"])
def test_some_cells_are_in_imperial_units(cells: list[dict[str, str]], unit: str) -> None:
    measured = re.compile(rf"[0-9.]+ {unit}")

    assert any(measured.fullmatch(cell) for row in cells for cell in row.values())


@pytest.mark.parametrize("response", ["let go", "stopped before a call"])
def test_some_balls_were_not_played(audited: Audit, response: str) -> None:
    assert word(response) in {each.ball.choice.get("response") for each in audited.judged}


@pytest.mark.parametrize("disturbed", ["net cord", "bad bounce", "gust"])
def test_some_balls_were_disturbed(audited: Audit, disturbed: str) -> None:
    assert disturbed in {each.ball.outcome.disturbed for each in audited.judged}


@pytest.mark.parametrize("grade", list(Grade))
def test_every_grade_occurs(audited: Audit, grade: Grade) -> None:
    assert grade in {each.verdict.grade for each in audited.judged}


@pytest.mark.parametrize("reason", [Reason.FACT_NOT_SEEN, Reason.NO_RULE])
def test_every_reason_that_the_shipped_rules_leave_occurs(audited: Audit, reason: Reason) -> None:
    assert reason in {each.verdict.reason for each in audited.judged}


@pytest.mark.parametrize("cause", list(Cause))
def test_every_cause_occurs(audited: Audit, cause: Cause) -> None:
    assert cause in {each.cause for each in audited.judged}


def test_causes_are_both_said_by_the_coach_and_proposed(audited: Audit) -> None:
    said = [each for each in audited.judged if each.cause and not each.cause_is_proposed]
    proposed = [each for each in audited.judged if each.cause_is_proposed]

    assert said
    assert proposed


def test_the_coach_agrees_mostly_and_disagrees_both_ways(audited: Audit) -> None:
    marked = [each for each in audited.judged if each.ball.mark and each.verdict.grade in RATED]
    apart = [e for e in marked if (e.ball.mark in KEPT) is not (e.verdict.grade in KEPT)]

    assert sum(e.ball.mark is e.verdict.grade for e in marked) > len(apart) > 0
    assert {each.ball.mark in KEPT for each in apart} == {True, False}


def test_good_choices_are_missed_and_bad_ones_come_off(audited: Audit) -> None:
    missed = _those(audited.judged, KEPT, "no")
    came_off = _those(audited.judged, BROKEN, "yes")

    assert len(missed) >= 10
    assert len(came_off) >= 10


def _those(
    judged: Sequence[JudgedBall], grades: frozenset[Grade], as_intended: str
) -> list[JudgedBall]:
    return [
        each
        for each in judged
        if each.verdict.grade in grades and each.ball.outcome.as_intended == as_intended
    ]


@pytest.mark.parametrize("rule", ["short-and-low-lead-in", "three-checks-before-you-turn"])
def test_the_habits_worth_working_on_can_be_seen(audited: Audit, rule: str) -> None:
    spoke = [each for each in audited.judged if rule in each.verdict.spoke]
    charged = [each for each in spoke if rule in each.verdict.charged]

    assert len(spoke) >= 10
    assert len(charged) > len(spoke) / 2


def test_the_crosscourt_rally_is_the_strong_side(audited: Audit) -> None:
    rallied = [
        each
        for each in audited.judged
        if each.ball.situation.get("game situation") == word("baseline rally")
        and each.ball.situation.get("balance") == word("set")
        and each.ball.choice.get("direction") == word("crosscourt")
    ]
    kept = [each for each in rallied if each.verdict.grade in KEPT]

    assert len(kept) >= 30
    assert len(kept) > 0.8 * len(rallied)


def test_the_player_watches_after_a_strong_ball(audited: Audit) -> None:
    rule = "good-shot-come-closer"

    assert sum(rule in each.verdict.charged for each in audited.judged) >= 3


def test_a_point_is_won_or_lost_the_same_on_all_its_balls(audited: Audit) -> None:
    balls = [each.ball for each in audited.judged]

    points = {(ball.date, ball.point) for ball in balls}
    results = {(ball.date, ball.point, ball.outcome.point_won) for ball in balls}
    assert len(results) == len(points)


def test_balls_not_played_have_no_stroke(audited: Audit) -> None:
    not_played = {word("let go"), word("stopped before a call")}

    landed = {
        each.ball.outcome.landed
        for each in audited.judged
        if each.ball.choice.get("response") in not_played
    }
    assert landed == {"no stroke"}
