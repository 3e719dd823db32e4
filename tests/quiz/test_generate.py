"""Scenarios are fair, legal, near a boundary, and come out the same from the same seed."""

from collections import Counter
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.engine.advise import advise
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.known import NOT_SEEN, Absent, OneOf, number, word
from tactics.model.scenario import Ask, Origin, Scenario
from tactics.model.verdict import BROKEN, Grade
from tactics.quiz.choosing import is_clear
from tactics.quiz.generate import GENERATOR, askable_rules, make_quiz, make_quizzes
from tactics.quiz.nearby import around
from tactics.quiz.plain import known_of, value_of
from tactics.quiz.requests import Request
from tactics.quiz.shots import aim_with
from tests.quiz.made import SETS, maker, quizzes, scenarios

FEW = 4
SEEDS = st.text("abcdefgh 0123", min_size=1, max_size=8)


def all_of(name: str) -> list[Scenario]:
    return list(scenarios(name, FEW))


def regraded(name: str, scenario: Scenario) -> list[Grade]:
    """Return the grades that the evaluator itself gives the options."""
    advice = advise(maker(name).advisor, scenario.situation)
    given = scenario.context.as_dict()
    return [
        judge(Choice.of({**given, **option.choice.as_dict()}), advice).grade
        for option in scenario.options
    ]


@pytest.mark.parametrize("name", SETS)
def test_every_option_has_the_grade_it_says(name):
    for scenario in all_of(name):
        grades = [option.grade for option in scenario.options]
        if scenario.ask is not Ask.NAME:
            assert regraded(name, scenario) == grades
        assert grades[scenario.sound] is Grade.SOUND
        assert {*grades[: scenario.sound], *grades[scenario.sound + 1 :]} <= BROKEN


@pytest.mark.parametrize("name", SETS)
def test_situations_can_happen(name):
    laws = maker(name).play.laws
    for scenario in all_of(name):
        ball = {fact: value_of(known) for fact, known in scenario.situation.facts}
        assert not laws.broken(ball)


@pytest.mark.parametrize("name", SETS)
def test_a_step_to_the_side_on_the_picture_changes_no_grade(name):
    play = maker(name).play
    for scenario in all_of(name)[:12]:
        if scenario.ask is Ask.NAME:
            continue
        grades = regraded(name, scenario)
        for fact, known in scenario.situation.facts:
            here = value_of(known)
            if fact != "stature" and fact in play.rulers and isinstance(here, float):
                for off in (-play.rulers[fact].step, play.rulers[fact].step):
                    there = _beside(scenario, fact, here + 0.99 * off)
                    assert regraded(name, there) == grades, (fact, here, off)


def _beside(scenario: Scenario, fact: str, value: float) -> Scenario:
    facts = scenario.situation.as_dict()
    followers = ("contact height",) if fact == "body height" else ()
    kept = {f: k for f, k in facts.items() if f not in (fact, *followers)}
    moved = replace(scenario.situation, facts=tuple({**kept, fact: known_of(value)}.items()))
    return replace(scenario, situation=moved)


@pytest.mark.parametrize("name", SETS)
def test_one_changed_fact_turns_the_answer_as_it_says(name):
    for scenario in all_of(name):
        flip = scenario.flip
        if flip is None or scenario.ask is Ask.NAME:
            continue
        options = list(scenario.options)
        options[flip.sound] = flip.answer or options[flip.sound]
        after = replace(scenario, situation=flip.situation, options=tuple(options))
        assert tuple(regraded(name, after)) == flip.grades
        assert scenario.options[flip.sound].grade in BROKEN
        assert flip.grades[flip.sound] in (Grade.SOUND, Grade.ACCEPTABLE)
        is_wrong = flip.grades[scenario.sound] not in (Grade.SOUND, Grade.ACCEPTABLE)
        assert ("Then it is:" in flip.said) is is_wrong, flip.said
        assert options[flip.sound].text in flip.said


@pytest.mark.parametrize("name", SETS)
def test_what_is_right_after_a_change_is_not_what_was_right_before(name):
    for scenario in all_of(name):
        if scenario.flip is not None and scenario.flip.answer is not None:
            shown = [option.text for option in scenario.options]
            assert scenario.flip.answer.text not in shown
            assert scenario.flip.grades[scenario.flip.sound] is Grade.SOUND


@pytest.mark.parametrize("name", ["singles-club", "junior-orange"])
def test_nearly_every_question_says_what_would_turn_it_or_that_nothing_does(name):
    every = scenarios(name, 12)

    silent = [each.rule for each in every if each.flip is None and not each.is_steady]

    assert len(silent) <= 0.1 * len(every), silent
    assert not any(each.is_steady for each in every if each.flip is not None)


@pytest.mark.parametrize("name", SETS)
def test_a_steady_answer_is_touched_by_no_change(name):
    made = maker(name)
    for scenario in [each for each in all_of(name) if each.is_steady][:8]:
        ball = {fact: value_of(known) for fact, known in scenario.situation.facts}
        sound = scenario.options[scenario.sound].choice.as_dict()
        rules = {ready.rule.id: ready for ready in made.quick.program.ready}
        for near in around(made.play, ball, made.play.changeable):
            advice = advise(made.quick, near.situation(scenario.situation))
            verdict = judge(Choice.of({**scenario.context.as_dict(), **sound}), advice)
            spoken = {part for rule in verdict.charged for part, _ in rules[rule].advice}
            assert verdict.grade is Grade.SOUND or (spoken and not spoken & sound.keys())


@settings(max_examples=5)
@given(SEEDS)
def test_the_same_seed_gives_the_same_quiz(seed):
    advisor = maker("junior-green").advisor

    assert make_quiz(advisor, seed, count=4) == make_quiz(advisor, seed, count=4)


@settings(max_examples=4)
@given(st.lists(SEEDS, min_size=2, max_size=4, unique=True))
def test_quizzes_made_together_are_those_made_alone(seeds):
    advisor = maker("junior-red").advisor
    requests = [Request(seed=seed, count=4) for seed in seeds]

    together = make_quizzes(advisor, requests)

    assert together == tuple(make_quizzes(advisor, [each])[0] for each in requests)


def test_another_seed_gives_another_quiz():
    one, other, *_ = quizzes("singles-club", FEW)

    assert one.scenarios != other.scenarios
    assert one.generator == GENERATOR


def test_one_by_one_the_first_needs_not_wait_for_the_rest():
    made = maker("junior-red")
    request = Request(seed="lesson", count=3)

    some = list(made.scenarios(request))

    assert next(made.scenarios(request)) == some[0]
    assert len(some) == 3


@pytest.mark.parametrize("name", ["singles-club", "doubles-club"])
def test_a_left_hander_meets_the_same_questions_turned_round(name):
    for right, left in zip(quizzes(name, FEW), quizzes(name, FEW, "left"), strict=True):
        for scenario in left.scenarios:
            assert scenario.situation.get("own hand") == OneOf(frozenset(("left",)))
            mirrored = replace(scenario, situation=scenario.situation.mirrored())
            if scenario.ask is not Ask.NAME:
                assert regraded(name, mirrored) == [each.grade for each in scenario.options]
        assert len(right.scenarios) == len(left.scenarios)


def test_all_seven_kinds_of_question_are_asked():
    asked = Counter(scenario.ask for scenario in scenarios("singles-club"))

    assert set(asked) == set(Ask)


@pytest.mark.parametrize("ask", list(Ask))
def test_each_kind_can_be_asked_alone(ask):
    quiz = make_quiz(maker("singles-club").advisor, "alone", asks=frozenset((ask,)), count=3)

    assert [scenario.ask for scenario in quiz.scenarios] == [ask] * len(quiz.scenarios)
    assert quiz.scenarios


def test_about_one_in_four_is_a_conflict():
    some = scenarios("singles-club")

    assert 0.15 <= sum(each.is_conflict for each in some) / len(some) <= 0.35


def test_a_named_rule_is_the_one_asked_about():
    advisor = maker("singles-club").advisor

    quiz = make_quiz(advisor, "two rules", rules=("wide-go-high", "rally-with-air"), count=4)

    assert {each.rule for each in quiz.scenarios} == {"wide-go-high", "rally-with-air"}


def test_what_the_player_did_wrong_on_court_comes_up():
    error = {"intent": "finish", "direction": "straight", "pace": 100.0, "inside line": 0.1}
    request = Request(
        seed="own", rules=("wide-go-high",), count=6, errors={"wide-go-high": (error,)}
    )

    quiz = make_quizzes(maker("singles-club").advisor, [request])[0]

    origins = {option.origin for each in quiz.scenarios for option in each.options}
    assert Origin.CHARTED in origins


def test_options_alone_are_no_rules_to_drill():
    advisor = maker("singles-club").advisor
    strengths = {rule.id: rule.strength.value for rule in advisor.rules.rules}

    assert {strengths[rule] for rule in askable_rules(advisor)} == {"must", "should"}


@pytest.mark.parametrize("name", SETS)
def test_texts_fit_their_place_and_each_other(name):
    uneven = 0
    for scenario in all_of(name):
        lengths = [len(option.text) for option in scenario.options]
        middle = sum(lengths) / len(lengths)
        uneven += any(abs(each - middle) > 0.2 * middle for each in lengths)
        assert len(scenario.because) <= 158
        assert scenario.flip is None or len(scenario.flip.said) <= 158
        assert len({option.text for option in scenario.options}) == 3
    assert uneven <= 0.2 * len(all_of(name))


@pytest.mark.parametrize("name", SETS)
def test_a_fact_that_is_told_is_known(name):
    for scenario in all_of(name):
        for fact in scenario.told:
            assert not isinstance(scenario.situation.get(fact), Absent)


@pytest.mark.parametrize("name", SETS)
def test_a_shot_is_asked_only_of_a_ball_that_can_be_played(name):
    for scenario in all_of(name):
        if scenario.ask is Ask.PLAY_ON:
            assert scenario.situation.get("game situation") != word("serving")
        else:
            assert scenario.situation.get("reachable") in (word("yes"), NOT_SEEN)
            assert scenario.flip is None or scenario.flip.fact != "reachable"


@pytest.mark.parametrize("name", SETS)
def test_a_change_is_said_and_no_number_is_nothing(name):
    for scenario in all_of(name):
        assert scenario.flip is None or "Change one thing: ." not in scenario.flip.said
        assert not any(" 0.0 m" in f" {option.text}" for option in scenario.options)


def test_options_are_hardly_ever_apart_by_a_hair():
    near, every = 0, scenarios("singles-club")
    for scenario in every:
        wrong = [option for n, option in enumerate(scenario.options) if n != scenario.sound]
        one, other = ({p: value_of(k) for p, k in each.choice.parts} for each in wrong)
        near += scenario.ask is not Ask.NAME and not is_clear(one, other)
    assert near <= 0.05 * len(every)


def test_what_is_aimed_at_belongs_to_the_shot_that_is_right():
    dip = {
        "intent": word("dip at the feet"),
        "height over net": number(0.4),
        "depth": number(5.0),
    }

    lob = dict(aim_with(dip, {"intent": "lob", "direction": "crosscourt"}))
    low = dict(aim_with(dip, {"intent": "dip at the feet", "direction": "straight"}))

    assert lob == {"intent": word("lob"), "direction": word("crosscourt")}
    assert low == {**dip, "direction": word("straight")}


def test_rules_that_are_due_are_asked_about():
    made = maker("singles-club")
    due = [tuple(Random(f"due {number}").sample(sorted(made.places), 10)) for number in range(8)]
    requests = [Request(seed=f"due {n}", rules=rules) for n, rules in enumerate(due)]

    asked = [{each.rule for each in quiz.scenarios} for quiz in made.make(requests)]

    met = sum(len(each & {*rules}) for each, rules in zip(asked, due, strict=True))
    assert met >= 0.9 * 10 * len(due)
