"""Papers that come back from a phone: once is enough, and old rules do not count any more."""

from dataclasses import replace
from pathlib import Path

import pytest

from tactics.model.scenario import Credit
from tactics.quiz.boxes import Boxes
from tactics.quiz.kept import Trouble
from tactics.quiz.store import Store, open_store
from tactics.quiz.take_in import TakenIn, take_in
from tests.quiz.answered import answer, on, question, quiz

BOXES = Boxes()
PAPER = quiz(question("low-ball-up"), question("wide-go-high"))
ANSWERS = (answer(0), answer(0, Credit.NONE, rule="wide-go-high"))
NOW = {"low-ball-up": "one", "wide-go-high": "one"}


@pytest.fixture
def store(tmp_path: Path) -> Store:
    found = open_store(tmp_path, "Robin", on(30))
    assert isinstance(found, Store)
    return found


def taken(store: Store, *, paper: str = "A4/1", **revisions: str) -> TakenIn:
    now = {**NOW, **{rule.replace("_", "-"): each for rule, each in revisions.items()}}
    found = take_in(store, paper, PAPER, ANSWERS, revisions=now, scheduler=BOXES)
    assert isinstance(found, TakenIn)
    return found


def test_the_answers_of_a_paper_are_kept(store: Store) -> None:
    with store:
        found = taken(store)
        answers = store.answers()

    assert found.lines({}) == ("2 answers taken in.",)
    assert answers == ANSWERS


def test_the_same_paper_with_the_same_answers_changes_nothing(store: Store) -> None:
    with store:
        taken(store)
        before = store.export()
        found = taken(store)
        after = store.export()

    assert found.lines({}) == ("These answers are here already; nothing was added.",)
    assert before == after


def test_other_answers_to_the_same_paper_are_another_try(store: Store) -> None:
    other = (ANSWERS[0], replace(ANSWERS[1], credit=Credit.FULL, picked=0))

    with store:
        taken(store)
        found = take_in(store, "A4/1", PAPER, other, revisions=NOW, scheduler=BOXES)
        answers = store.answers()

    assert isinstance(found, TakenIn)
    assert found.is_new
    assert not isinstance(answers, Trouble)
    assert len(answers) == 4


def test_an_answer_about_a_rule_that_changed_does_not_count_any_more(store: Store) -> None:
    with store:
        found = taken(store, wide_go_high="two")
        book = store.book(BOXES)

    assert found.lines({"wide-go-high": "Pulled wide, go high"}) == (
        "2 answers taken in.",
        '"Pulled wide, go high" was changed by your coach since the paper was made: what was '
        "answered does not count any more.",
    )
    assert not isinstance(book, Trouble)
    assert book.page("wide-go-high", "two") is None


def test_a_paper_that_comes_late_counts_on_its_own_day(store: Store) -> None:
    with store:
        number = store.begin(quiz(question()), on(10))
        assert isinstance(number, int)
        store.save(number, question(), answer(10), BOXES)
        taken(store)
        book = store.book(BOXES)

    assert not isinstance(book, Trouble)
    page = book.page("low-ball-up", "one")
    assert page is not None
    assert [met.day for met in page.met] == [on(0), on(10)]
    assert page.memory.last == on(10)
