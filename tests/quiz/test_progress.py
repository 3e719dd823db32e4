"""What is shown of a player: dates with their evidence, what comes back, what went astray."""

import json
from datetime import date

from hypothesis import given

from tactics.model.progress import Holding, Progress
from tactics.model.scenario import Answer, Credit
from tactics.quiz.book import rebuild
from tactics.quiz.memory_fsrs import FsrsScheduler
from tactics.quiz.practised import practised
from tactics.quiz.progress import progress
from tactics.report.layout import WIDTH, text_of
from tactics.report.quiz_progress import (
    practised_words,
    progress_as_json,
    progress_sections,
)
from tests.golden import Golden
from tests.quiz.answered import answer, histories, on

FSRS = FsrsScheduler()
TITLES = {
    "low-ball-up": "A low ball near the net is lifted, deep and down the middle",
    "wide-go-high": "Pulled wide with the opponent back, lift it high and crosscourt",
    "short-ball-in": "A short ball is taken early",
    "open-court": "Play into the open court only when set",
    "second-serve": "A second serve goes to the body",
    "return-deep": "A return goes back deep",
    "smash-safe": "A smash goes where there is room",
    "lob-high": "A lob is high before it is deep",
    "volley-out": "A volley ends in front of you",
    "slice-low": "A slice stays low",
    "feet-first": "Feet first, then the racket",
}
NOW = dict.fromkeys(TITLES, "one")
WEEKS = [
    *(answer(day) for day in (0, 2, 13)),
    answer(0, Credit.NONE, rule="wide-go-high", confused_with="low-ball-up"),
    answer(3, Credit.NONE, rule="wide-go-high", confused_with="low-ball-up"),
    answer(9, rule="wide-go-high", sure=False),
    answer(12, Credit.HALF, rule="short-ball-in"),
    answer(13, rule="open-court"),
    answer(4, rule="second-serve", revision="older"),
    answer(4, rule="retired-rule"),
]
MANY = [answer(day, Credit.NONE if day % 7 == 3 else Credit.FULL) for day in range(23)]


def found(history: list[Answer], day: date) -> Progress:
    return progress(rebuild(history, FSRS), NOW, TITLES, day, FSRS)


def printed(history: list[Answer], day: date) -> str:
    return text_of(progress_sections(found(history, day), "Robin"))


def test_some_weeks_of_quizzes(golden: Golden) -> None:
    golden("quiz_progress/some-weeks.txt", printed(WEEKS, on(14)))


def test_many_sure_answers(golden: Golden) -> None:
    golden("quiz_progress/many-sure-answers.txt", printed(MANY, on(23)))


def test_nothing_answered_yet(golden: Golden) -> None:
    golden("quiz_progress/nothing-yet.txt", printed([answer(0, None)], on(0)))


def test_the_same_as_data(golden: Golden) -> None:
    data = progress_as_json(found(WEEKS, on(14)), "Robin")

    golden("quiz_progress/some-weeks.json", json.dumps(data, indent=2) + "\n")


@given(histories)
def test_no_line_is_longer_than_the_screen_and_no_word_praises_or_ranks(
    history: list[Answer],
) -> None:
    text = printed(history, on(401))

    assert max(map(len, text.splitlines())) <= WIDTH
    assert not any(word in text.casefold() for word in ("mastered", "streak", "badge", "level"))


@given(histories)
def test_every_rule_stands_somewhere_exactly_once(history: list[Answer]) -> None:
    rules = found(history, on(401)).rules

    assert [rule.rule for rule in rules] == list(NOW)
    assert all((rule.evidence is None) == (rule.due is None) for rule in rules)


def test_secure_ends_by_itself_on_its_last_day() -> None:
    until = found(WEEKS, on(14)).rules[0].secure_until

    assert until is not None
    last, after = (
        found(WEEKS, until).rules[0],
        found(WEEKS, date.fromordinal(until.toordinal() + 1)),
    )
    assert last.holding is Holding.SECURE
    assert after.rules[0].holding is Holding.DUE


def test_secure_ends_at_once_on_sure_and_wrong() -> None:
    slip = found([*WEEKS, answer(14, Credit.NONE)], on(14)).rules[0]

    assert slip.holding is Holding.LATER
    assert slip.secure_until is None


def test_how_often_sure_was_right_is_said_from_twenty_answers_on() -> None:
    nineteen, twenty = MANY[:19], MANY[:20]

    assert "When you said sure" not in printed(nineteen, on(23))
    assert "When you said sure you were right 17 of 20 times." in printed(twenty, on(23))


def test_what_was_practised_is_counted_by_rule() -> None:
    counts = practised(
        [answer(5), answer(2, Credit.HALF), answer(7, None), answer(1, rule="other")]
    )

    assert practised_words(counts["low-ball-up"]) == (
        "in the quiz since 2026-03-04: full credit 1 of 2 answers"
    )
    assert practised_words(counts.get("never-asked")) == "not asked in the quiz"
    assert counts["other"].answered == 1
