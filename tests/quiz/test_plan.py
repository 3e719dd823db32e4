"""Which rules a quiz is about: the due first, a little that is new, neighbours side by side."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from tactics.model.scenario import Answer, Credit
from tactics.quiz.book import rebuild
from tactics.quiz.memory_fsrs import FsrsScheduler
from tactics.quiz.plan import Planning
from tests.quiz.answered import answer, on

FSRS = FsrsScheduler()
NAMES = tuple(f"rule-{number:02d}" for number in range(30))


def planned(
    history: list[Answer], day: int, rules: tuple[str, ...] = NAMES, **more: object
) -> tuple[str, ...]:
    planning = Planning(
        book=rebuild(history, FSRS),
        scheduler=FSRS,
        revisions=dict.fromkeys(rules, "one"),
        day=on(day),
        **more,  # type: ignore[arg-type]
    )
    return planning.plan()


def answered(day: int, rules: tuple[str, ...], credit: Credit = Credit.FULL) -> list[Answer]:
    return [answer(day, credit, rule=rule) for rule in rules]


some_answers = st.lists(
    st.builds(
        answer, st.integers(0, 20), st.sampled_from(Credit), rule=st.sampled_from(NAMES[:15])
    ),
    max_size=40,
)


@given(some_answers, st.integers(1, 30), st.integers(20, 60))
def test_a_plan_has_ten_different_rules_or_all_there_are(
    history: list[Answer], count: int, day: int
) -> None:
    plan = planned(history, day, NAMES[:count])

    assert len(plan) == len(set(plan)) == min(10, count)
    assert set(plan) <= set(NAMES[:count])


@given(some_answers, st.integers(20, 60))
def test_no_rule_comes_twice_running_even_when_the_plan_starts_again(
    history: list[Answer], day: int
) -> None:
    plan = planned(history, day, NAMES[:3])

    assert all(one != other for one, other in pairwise(plan * 4))


def test_due_rules_come_before_others_and_two_places_stay_for_new_ones() -> None:
    history = answered(0, NAMES[:14])

    plan = planned(history, 40)

    assert sum(rule in NAMES[:14] for rule in plan) == 8
    assert sum(rule in NAMES[14:] for rule in plan) == 2


def test_nothing_new_comes_while_many_answers_miss() -> None:
    history = [*answered(0, NAMES[:10], Credit.NONE), *answered(0, NAMES[10:14])]

    assert set(planned(history, 40)) <= set(NAMES[:14])


def test_three_in_four_right_is_enough_for_new_rules() -> None:
    history = [*answered(0, NAMES[:3], Credit.NONE), *answered(0, NAMES[3:12])]

    assert len(set(planned(history, 40)) - set(NAMES[:12])) == 2


def test_the_lowest_recall_is_due_first() -> None:
    history = [*answered(0, NAMES[:20]), *answered(30, NAMES[:12])]

    plan = planned(history, 33, NAMES[:20])

    assert set(NAMES[12:20]) <= set(plan)


def test_rules_that_are_not_due_fill_what_is_left() -> None:
    history = answered(0, NAMES[:12])

    assert len(planned(history, 0, NAMES[:12])) == 10


def test_neighbours_sit_side_by_side() -> None:
    pair = frozenset((NAMES[3], NAMES[9]))

    plan = planned(answered(0, NAMES[:10]), 40, NAMES[:10], neighbours=frozenset((pair,)))

    assert any(frozenset(two) == pair for two in pairwise(plan))


def test_a_quiz_starts_with_two_rules_that_are_likely_known() -> None:
    plan = planned(
        [*answered(0, NAMES[:8], Credit.NONE), *answered(0, NAMES[8:10])], 40, NAMES[:10]
    )

    assert set(plan[:2]) == set(NAMES[8:10])


def test_new_rules_come_in_an_order_of_the_players_own() -> None:
    one, again, other = (planned([], 0, order=word) for word in ("a", "a", "b"))

    assert one == again
    assert set(one) != set(other)


def test_a_rule_that_changed_comes_before_other_new_ones() -> None:
    history = [*answered(0, NAMES[:8]), answer(0, rule=NAMES[29], revision="older")]

    assert NAMES[29] in planned(history, 40, order="any")


def test_rules_asked_for_come_before_all_others() -> None:
    plan = planned(answered(0, NAMES[:10]), 40, first=(NAMES[28], NAMES[29]))

    assert {NAMES[28], NAMES[29]} <= set(plan)
