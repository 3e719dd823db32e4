"""The steps of a quiz: whatever is pressed, nothing is counted twice and nothing is lost."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from tactics.model.scenario import Answer, Credit, Option, Origin, Quiz
from tactics.model.verdict import Grade
from tactics.quiz.feedback import feedback
from tactics.quiz.steps import (
    Disagree,
    Event,
    Next,
    Pick,
    QuizState,
    Saved,
    Skip,
    Stage,
    Stop,
    Sure,
    TimeOut,
    Twin,
    next_step,
    start,
)
from tests.screens.questions import HEIGHT, SHOT, TO_SERVE, WHERE

NOON = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
QUIZ = Quiz(scenarios=(SHOT, HEIGHT, WHERE, TO_SERVE), seed="s", rules_hash="", generator=0)
TARGET = Option(text="a target", grade=Grade.UNDECIDED, origin=Origin.VARIATION)
EVENTS = st.one_of(
    st.integers(0, 2).map(lambda number: Pick(number=number)),
    st.just(Pick(number=None, free=TARGET)),
    st.booleans().map(lambda is_sure: Sure(is_sure=is_sure)),
    st.sampled_from([Skip(), TimeOut(), Saved(), Twin(), Next(), Stop(), Disagree(text="no")]),
)
RUNS = st.lists(EVENTS, max_size=40)
NEVER_STOPPED = st.lists(EVENTS.filter(lambda event: not isinstance(event, Stop)), max_size=40)


def walked(events: list[Event]) -> list[QuizState]:
    """Return every state of a run, one event a second."""
    states = [start(QUIZ, NOON)]
    for second, event in enumerate(events):
        states.append(next_step(states[-1], event, NOON + timedelta(seconds=second)))
    return states


@given(RUNS)
def test_no_answer_is_counted_twice_and_none_goes_away(events: list[Event]) -> None:
    states = walked(events)

    for before, after in pairwise(states):
        more = after.answers[len(before.answers) :]
        assert len(more) <= 1
        same = [replace(each, disagrees="") for each in after.answers[: len(before.answers)]]
        assert same == [replace(each, disagrees="") for each in before.answers]
    keys = [(each.pair, each.is_twin) for each in states[-1].answers]
    assert len(keys) == len(set(keys))


@given(RUNS)
def test_an_answer_is_saved_before_it_is_answered_back(events: list[Event]) -> None:
    states = walked(events)

    for event, (before, after) in zip(events, pairwise(states), strict=True):
        if len(after.answers) > len(before.answers):
            assert isinstance(event, Saved)
            assert before.unsaved == after.answers[-1]
            assert feedback(before) is None
        if after.unsaved is not None:
            assert feedback(after) is None


@given(NEVER_STOPPED)
def test_it_can_be_stopped_anywhere_and_keeps_what_is_on_disk(events: list[Event]) -> None:
    last = walked(events)[-1]

    stopped = next_step(last, Stop(), NOON)

    assert stopped.stage is Stage.OVER
    assert stopped.answers == last.answers
    assert len(stopped.asked) == len(stopped.answers)
    assert stopped.is_stopped is (last.stage is not Stage.OVER)


@given(RUNS, EVENTS)
def test_after_the_end_nothing_happens(events: list[Event], event: Event) -> None:
    over = next_step(walked(events)[-1], Stop(), NOON)

    assert next_step(over, event, NOON) == over


@given(RUNS)
def test_no_answer_never_costs(events: list[Event]) -> None:
    answers = walked(events)[-1].answers

    for answer in answers:
        has_credit = answer.grade not in (None, Grade.UNDECIDED)
        assert (answer.credit is not None) is has_credit
        assert not (answer.timed_out and answer.grade is not None)


def answered(*events: Event) -> QuizState:
    return walked(list(events))[-1]


def test_the_time_taken_is_kept_and_a_clock_set_back_counts_as_none() -> None:
    asked = start(QUIZ, NOON)
    picked = next_step(asked, Pick(number=0), NOON + timedelta(seconds=7))

    slow = next_step(picked, Sure(is_sure=True), NOON + timedelta(seconds=9)).unsaved
    back = next_step(picked, Sure(is_sure=True), NOON - timedelta(hours=2)).unsaved

    assert slow is not None
    assert back is not None
    assert (slow.took_ms, back.took_ms) == (9000, 0)


def test_a_target_the_rules_leave_open_earns_nothing_and_costs_nothing() -> None:
    last = answered(Pick(number=None, free=TARGET), Sure(is_sure=True), Saved())

    assert [(each.grade, each.credit) for each in last.answers] == [(Grade.UNDECIDED, None)]


def test_the_twin_is_offered_after_a_miss_and_remembers_what_it_comes_from() -> None:
    missed = answered(Pick(number=2), Sure(is_sure=True), Saved())

    asked = next_step(missed, Twin(), NOON)

    assert asked.current is not None
    assert asked.current.is_twin
    assert asked.before == SHOT
    assert (asked.number, asked.waiting) == (missed.number, missed.waiting)
    assert next_step(asked, Skip(), NOON).before == SHOT


def test_the_neighbours_advice_given_too_early_is_a_confusion() -> None:
    missed = answered(Pick(number=2), Sure(is_sure=True), Saved())
    other = answered(Pick(number=0), Sure(is_sure=True), Saved())

    assert missed.answers[0].confused_with == SHOT.flip.rule  # type: ignore[union-attr]
    assert other.answers[0].confused_with == ""


def test_on_the_twin_the_old_answer_is_a_confusion() -> None:
    events = (Pick(number=2), Sure(is_sure=True), Saved(), Twin(), Pick(number=1))
    last = answered(*events, Sure(is_sure=True), Saved())

    twin = last.answers[-1]
    assert (twin.credit, twin.confused_with) == (Credit.NONE, SHOT.rule)


def test_disagreeing_goes_with_the_last_answer_only() -> None:
    events = (Skip(), Saved(), Next(), Pick(number=0), Sure(is_sure=False), Saved())
    last = answered(*events, Disagree(text="  too high  "))

    assert [each.disagrees for each in last.answers] == ["", "too high"]


def test_an_empty_quiz_is_over_at_once() -> None:
    empty = start(replace(QUIZ, scenarios=()), NOON)

    assert (empty.stage, empty.answers) == (Stage.OVER, tuple[Answer, ...]())
