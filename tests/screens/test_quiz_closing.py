"""The last words of a quiz: counts, what comes back when, and no more than may be claimed."""

from dataclasses import replace
from datetime import date

from tactics.model.scenario import Ask
from tactics.screens.quiz_closing import Ahead, closing_lines
from tests.screens.questions import SHOT, TO_SERVE
from tests.screens.sittings import AHEAD, lines, seated

NOTHING_DUE = Ahead(due={}, titles={}, today=date(2026, 3, 14))


def closing(*answers: str, ahead: Ahead = AHEAD) -> list[str]:
    seats = seated(SHOT, TO_SERVE)
    talk = lines(seats)
    for answer in answers:
        talk.take(answer)
    return list(closing_lines(seats.sitting.state, ahead))


def test_counts_are_told_in_the_words_of_the_grades() -> None:
    said = closing("2", "s", "", "l", "")

    assert said[0] == "That is enough for today. 2 questions: 1 sound, 1 left open."


def test_a_quiz_that_was_stopped_says_that_nothing_is_lost() -> None:
    assert closing("3", "s", "q")[0] == "Stopped; every answer is kept. 1 question: 1 doubtful."
    assert closing("q") == ["Stopped before the first answer. Nothing is lost."]


def test_what_comes_back_is_told_day_by_day() -> None:
    said = closing("2", "s", "", "2", "s", "")

    assert said[1] == "Comes back tomorrow: Pulled wide, lift it high."
    assert said[2] == "Comes back in 8 days: Serve to it."


def test_many_rules_of_a_day_are_counted() -> None:
    days = {f"rule-{n}": date(2026, 3, 14 + n // 3) for n in range(15)}
    seats = seated(*(replace(SHOT, rule=f"rule-{n}") for n in range(15)))
    talk = lines(seats)
    for answer in ["2", "s", ""] * 15:
        talk.take(answer)

    said = closing_lines(seats.sitting.state, replace(AHEAD, due=days, titles={}))

    assert said[1] == "Comes back today: rule-0; rule-1; and 1 more."
    assert said[2] == "Comes back tomorrow: rule-3; rule-4; and 1 more."
    assert said[4] == "Later than that: 6 rules."


def test_the_plan_to_take_along_is_that_of_the_first_miss() -> None:
    missed = [line for line in closing("3", "s", "", "2", "s", "") if line.startswith("To take")]
    known = [line for line in closing("2", "s", "", "2", "s", "") if line.startswith("To take")]

    assert missed == known
    assert missed[0].startswith("To take along: IF ")
    assert " THEN I " in missed[0]


def test_lines_for_the_coach_are_counted() -> None:
    assert "1 line left for your coach." in closing("3", "s", "i too far", "q")


def test_no_more_is_claimed_than_may_be() -> None:
    said = closing("2", "s", "q", ahead=NOTHING_DUE)

    assert said[-1] == (
        "This quiz helps you remember your coach's rules and see when each applies. "
        "It supports a coach and never replaces one."
    )
    assert not [line for line in said if line.startswith("Comes back")]


def test_a_name_that_was_missed_is_not_what_goes_along() -> None:
    name = replace(SHOT, ask=Ask.NAME, rule="a-name")
    seats = seated(name, SHOT)
    talk = lines(seats)
    for answer in ["3", "s", "", "2", "s", ""]:
        talk.take(answer)

    said = closing_lines(seats.sitting.state, NOTHING_DUE)

    plan = next(line for line in said if line.startswith("To take along"))
    assert "I say" not in plan
