"""When a rule comes back: laws that both schedules keep, and what fsrs must not do here."""

import random
from datetime import date, timedelta

import fsrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.model.scenario import Credit
from tactics.quiz.boxes import DAYS, Boxes
from tactics.quiz.days import noon
from tactics.quiz.memory_fsrs import FsrsScheduler
from tactics.quiz.schedule import Memory, Rating, Scheduler, rating_of
from tests.quiz.answered import FIRST, SCHEDULERS, answer

both = pytest.mark.parametrize("scheduler", SCHEDULERS, ids=lambda each: each.name)
reviews = st.lists(st.tuples(st.integers(0, 90), st.sampled_from(Rating)), min_size=1, max_size=12)


def reviewed(scheduler: Scheduler, steps: list[tuple[int, Rating]], first: date = FIRST) -> Memory:
    memory, day = None, first
    for gap, rating in steps:
        day += timedelta(days=gap)
        memory = scheduler.after(memory, day, rating)
    assert memory is not None
    return memory


@both
@given(reviews)
def test_a_rule_comes_back_on_a_later_day_within_thirty_days(
    scheduler: Scheduler, steps: list[tuple[int, Rating]]
) -> None:
    memory = reviewed(scheduler, steps)

    assert timedelta(days=1) <= memory.due - memory.last <= timedelta(days=30)


@both
@given(reviews, st.integers(0, 300))
def test_recall_only_falls_while_nothing_is_asked(
    scheduler: Scheduler, steps: list[tuple[int, Rating]], days: int
) -> None:
    memory = reviewed(scheduler, steps)
    day = memory.last + timedelta(days=days)

    assert 0 <= scheduler.recall(memory, day + timedelta(days=1)) < scheduler.recall(memory, day)
    assert scheduler.recall(memory, day) <= 1


@both
@given(reviews)
def test_a_better_answer_never_brings_a_rule_back_sooner(
    scheduler: Scheduler, steps: list[tuple[int, Rating]]
) -> None:
    memory = reviewed(scheduler, steps)

    dues = [scheduler.after(memory, memory.due, rating).due for rating in Rating]

    assert dues == sorted(dues)


@both
@given(reviews, st.floats(0.8, 0.95))
def test_a_memory_holds_until_the_last_day_above_the_share(
    scheduler: Scheduler, steps: list[tuple[int, Rating]], share: float
) -> None:
    memory = reviewed(scheduler, steps)

    until = scheduler.holds_until(memory, share)

    assert scheduler.recall(memory, until) >= share - 1e-6
    assert scheduler.recall(memory, until + timedelta(days=1)) < share


@both
@given(reviews, st.integers(1, 5000))
def test_a_clock_that_was_set_back_counts_as_the_last_day(
    scheduler: Scheduler, steps: list[tuple[int, Rating]], days: int
) -> None:
    memory = reviewed(scheduler, steps)

    back = scheduler.after(memory, memory.last - timedelta(days=days), Rating.KNOWN)

    assert back == scheduler.after(memory, memory.last, Rating.KNOWN)
    assert scheduler.recall(memory, memory.last - timedelta(days=days)) == scheduler.recall(
        memory, memory.last
    )


@both
@pytest.mark.parametrize("first", [date(2028, 2, 28), date(2026, 12, 31)], ids=["leap", "year"])
def test_a_day_is_a_day_at_the_end_of_february_and_of_a_year(
    scheduler: Scheduler, first: date
) -> None:
    steps = [(0, Rating.KNOWN), (1, Rating.KNOWN), (4, Rating.KNOWN)]

    ordinary, here = reviewed(scheduler, steps), reviewed(scheduler, steps, first)

    assert here.due - here.last == ordinary.due - ordinary.last
    assert scheduler.stability_days(here) == scheduler.stability_days(ordinary)


@both
@given(reviews)
def test_chance_has_no_part_in_it(scheduler: Scheduler, steps: list[tuple[int, Rating]]) -> None:
    random.seed(1)
    before = random.getstate()

    first = reviewed(scheduler, steps)

    assert random.getstate() == before
    assert first == reviewed(scheduler, steps)


def test_first_answers_by_fsrs_come_back_after_whole_days() -> None:
    dues = [(FsrsScheduler().after(None, FIRST, rating).due - FIRST).days for rating in Rating]

    assert dues == [1, 1, 2]


def test_right_answers_by_fsrs_spread_out_and_stop_at_thirty_days() -> None:
    scheduler, day, gaps = FsrsScheduler(), FIRST, []
    memory = scheduler.after(None, day, Rating.KNOWN)

    for _ in range(4):
        gaps.append((memory.due - memory.last).days)
        memory = scheduler.after(memory, memory.due, Rating.KNOWN)

    assert gaps == [2, 11, 30, 30]


def test_a_memory_by_fsrs_is_what_its_own_cards_hold_at_noon() -> None:
    steps = [(0, Rating.KNOWN), (3, Rating.MISSED), (1, Rating.UNSURE), (9, Rating.KNOWN)]
    scheduler = fsrs.Scheduler(
        desired_retention=0.9, learning_steps=(), relearning_steps=(), maximum_interval=30,
        enable_fuzzing=False,
    )  # fmt: skip
    card, day = fsrs.Card(card_id=7), FIRST
    for gap, rating in steps:
        day += timedelta(days=gap)
        card, _ = scheduler.review_card(card, fsrs.Rating(rating), noon(day))

    memory = reviewed(FsrsScheduler(), steps)

    assert memory.state == f"{card.stability!r} {card.difficulty!r}"
    assert noon(memory.due) == card.due


def test_fixed_boxes_climb_one_at_a_time_and_a_miss_starts_again() -> None:
    steps = [(0, Rating.KNOWN)] * 3

    assert reviewed(Boxes(), steps).due == FIRST + timedelta(days=DAYS[2])
    assert reviewed(Boxes(), [*steps, (0, Rating.UNSURE)]).state == "2"
    assert reviewed(Boxes(), [*steps, (0, Rating.MISSED)]).state == "0"


@pytest.mark.parametrize(
    ("credit", "sure", "rating"),
    [
        (Credit.FULL, True, Rating.KNOWN),
        (Credit.FULL, False, Rating.UNSURE),
        (Credit.HALF, True, Rating.UNSURE),
        (Credit.HALF, False, Rating.UNSURE),
        (Credit.NONE, True, Rating.MISSED),
        (Credit.NONE, False, Rating.MISSED),
        (None, False, None),
    ],
)
def test_an_answer_is_rated_by_its_credit_and_by_being_sure(
    credit: Credit | None, sure: bool, rating: Rating | None
) -> None:
    assert rating_of(answer(0, credit, sure=sure)) is rating
