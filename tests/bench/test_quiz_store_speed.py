"""How long a player waits for the disk: one answer kept, and a year of answers read back."""

from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tactics.model.scenario import Credit
from tactics.quiz.book import Book
from tactics.quiz.memory_fsrs import FsrsScheduler
from tactics.quiz.store import Store, open_store
from tests.quiz.answered import answer, on, quiz
from tests.screens.questions import SHOT

A_YEAR, RULES = 2400, 60
LONGEST_S = 0.5
"""A quiz has to begin in 0.6 s; what is remembered may take its share of that."""


@pytest.fixture
def year(tmp_path: Path) -> Store:
    """Return the store of a player with a year of ten questions, five days a week."""
    store = open_store(tmp_path, "Robin", on(365))
    assert isinstance(store, Store)
    earned = tuple(Credit)
    given = [
        answer(number * 365 // A_YEAR, earned[number % 7 % 3], rule=f"rule-{number % RULES}")
        for number in range(A_YEAR)
    ]
    store.save_paper("a year", quiz(), [(SHOT, each) for each in given], FsrsScheduler())
    return store


def test_one_answer_is_on_disk(benchmark: BenchmarkFixture, year: Store) -> None:
    scheduler, number = FsrsScheduler(), year.begin(quiz(SHOT), on(365))
    assert isinstance(number, int)

    with year:
        trouble = benchmark.pedantic(
            lambda: year.save(number, SHOT, answer(365, rule="rule-1"), scheduler),
            rounds=40, warmup_rounds=2,
        )  # fmt: skip

    assert trouble is None


def test_a_year_of_answers_is_read_back(benchmark: BenchmarkFixture, year: Store) -> None:
    with year:
        book = benchmark.pedantic(lambda: year.book(FsrsScheduler()), rounds=8, warmup_rounds=1)

    assert isinstance(book, Book)
    assert len(book.pages) == RULES
    assert benchmark.stats.stats.median < LONGEST_S
