"""What answers say about each rule: replays, the first meeting of a day, and being secure."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.model.scenario import Answer, Credit
from tactics.quiz.book import Book, learn, rebuild, secure_until
from tactics.quiz.memory_fsrs import FsrsScheduler
from tactics.quiz.schedule import Scheduler
from tests.quiz.answered import SCHEDULERS, answer, answers, histories, on

both = pytest.mark.parametrize("scheduler", SCHEDULERS, ids=lambda each: each.name)
FSRS = FsrsScheduler()
THREE = [answer(0), answer(2), answer(13)]


@both
@given(histories)
def test_a_replay_of_the_answers_rebuilds_the_state_exactly(
    scheduler: Scheduler, history: list[Answer]
) -> None:
    book = Book()
    for each in sorted(history, key=lambda given: given.day):
        book = learn(book, each, scheduler)

    assert rebuild(history, scheduler) == book


@both
@given(histories, st.randoms(use_true_random=False))
def test_when_answers_of_different_days_come_in_changes_nothing(
    scheduler: Scheduler, history: list[Answer], chance: st.DrawFn
) -> None:
    by_day: dict[date, list[Answer]] = {}
    for each in history:
        by_day.setdefault(each.day, []).append(each)
    groups = list(by_day.values())
    chance.shuffle(groups)

    mixed = [each for group in groups for each in group]

    assert rebuild(mixed, scheduler) == rebuild(history, scheduler)


@both
@given(histories, st.lists(answers, max_size=8), st.randoms(use_true_random=False))
def test_the_order_of_later_answers_of_a_day_changes_nothing(
    scheduler: Scheduler, history: list[Answer], later: list[Answer], chance: st.DrawFn
) -> None:
    first = answer(500)
    practice = [answer(500, each.credit, sure=bool(each.sure)) for each in later]
    shuffled = list(practice)
    chance.shuffle(shuffled)

    one = rebuild([*history, first, *practice], scheduler)

    assert rebuild([*history, first, *shuffled], scheduler) == one
    page, alone = one.page("low-ball-up", "one"), rebuild([*history, first], scheduler)
    assert page is not None
    assert page.memory == alone.pages[("low-ball-up", "one")].memory


@both
def test_no_answer_is_never_rated(scheduler: Scheduler) -> None:
    assert rebuild([answer(0, None)], scheduler) == Book()


@both
def test_a_rule_that_changed_its_meaning_starts_anew(scheduler: Scheduler) -> None:
    book = rebuild([*THREE, answer(20, Credit.NONE, revision="two")], scheduler)

    old, new = book.page("low-ball-up", "one"), book.page("low-ball-up", "two")

    assert old is not None
    assert new is not None
    assert len(old.met) == 3
    assert len(new.met) == 1
    assert book.has_older("low-ball-up", "three")


@both
def test_a_question_and_its_twin_rate_both_rules(scheduler: Scheduler) -> None:
    twin = answer(0, Credit.NONE, rule="wide-go-high", confused_with="low-ball-up")

    book = rebuild([answer(0), twin], scheduler)

    assert set(book.pages) == {("low-ball-up", "one"), ("wide-go-high", "one")}
    assert book.confusions == {("wide-go-high", "low-ball-up"): 1}


@both
def test_a_clock_far_ahead_does_not_keep_a_rule_away_for_years(scheduler: Scheduler) -> None:
    history = [answer(0), answer(30_000), answer(5)]

    then = rebuild(history, scheduler, today=on(5))

    assert then == rebuild([answer(0), answer(5)], scheduler)
    assert len(rebuild(history, scheduler, today=on(30_000)).pages[("low-ball-up", "one")].met) == 3


@both
def test_a_clock_set_back_in_between_loses_nothing(scheduler: Scheduler) -> None:
    history = [answer(0), answer(10), answer(4)]

    assert rebuild(history, scheduler) == rebuild(sorted(history, key=lambda a: a.day), scheduler)


@both
def test_whoever_crosses_the_date_line_is_rated_once_a_day(scheduler: Scheduler) -> None:
    eastward = rebuild([answer(1), answer(0), answer(1)], scheduler, today=on(0))

    met = eastward.pages[("low-ball-up", "one")].met

    assert [each.day for each in met] == [on(0), on(1)]


def test_three_days_with_a_week_in_between_are_secure_until_a_date() -> None:
    page = rebuild(THREE, FSRS).pages[("low-ball-up", "one")]

    until = secure_until(page, FSRS)

    assert until is not None
    assert (
        FSRS.recall(page.memory, until) >= 0.8 > FSRS.recall(page.memory, until + timedelta(days=1))
    )


@pytest.mark.parametrize(
    "history",
    [
        pytest.param(THREE[:2], id="two days"),
        pytest.param([answer(0), answer(0), answer(13)], id="two of them on one day"),
        pytest.param([answer(0), answer(2), answer(8)], id="six days between"),
        pytest.param([answer(0), answer(2), answer(13, Credit.HALF)], id="half credit"),
        pytest.param([answer(0, sure=False), answer(2, sure=False), answer(13)], id="sure once"),
        pytest.param([answer(0, Credit.NONE, sure=False), answer(1), answer(9)], id="one missed"),
        pytest.param([answer(0, sure=False), answer(1), answer(8)], id="predicted 19 days"),
        pytest.param([*THREE, answer(13, Credit.NONE)], id="sure and wrong the same day"),
        pytest.param([*THREE, answer(20, Credit.NONE)], id="sure and wrong later"),
        pytest.param(
            [*THREE, answer(14, Credit.NONE), answer(30), answer(50)], id="two since the slip"
        ),
    ],
)
def test_anything_less_is_not_secure(history: list[Answer]) -> None:
    page = rebuild(history, FSRS).pages[("low-ball-up", "one")]

    assert secure_until(page, FSRS) is None


def test_the_boxes_say_secure_only_from_the_box_of_three_weeks_on() -> None:
    boxes = SCHEDULERS[1]
    history = [answer(day) for day in (0, 1, 3, 7, 15)]

    early = rebuild(history, boxes).pages[("low-ball-up", "one")]
    late = rebuild([*history, answer(31)], boxes).pages[("low-ball-up", "one")]

    assert secure_until(early, boxes) is None
    assert secure_until(late, boxes) == on(31 + 50)


def test_sure_answers_are_counted_with_those_that_were_right() -> None:
    history = [answer(0), answer(1, sure=False), answer(2, Credit.NONE), answer(3, Credit.HALF)]

    book = rebuild(history, FSRS)

    assert (book.sure, book.sure_and_right) == (3, 1)
    assert book.pages[("low-ball-up", "one")].sure_and_wrong == (on(2),)
