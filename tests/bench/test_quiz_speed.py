"""How long fresh questions take: two hundred in three seconds, the first one at once."""

import pytest

from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.quiz.generate import Maker
from tactics.quiz.requests import Request

MANY_S, FIRST_S = 3.0, 0.15


@pytest.fixture(scope="module")
def advisor() -> Advisor:
    rules = load_rules(["singles-club"], with_drills=False).reading.value
    assert rules is not None
    return compile_rules(rules, "matcher")


def test_two_hundred_questions(benchmark, advisor):
    requests = [Request(seed=f"speed {number}") for number in range(20)]

    quizzes = benchmark.pedantic(
        lambda: Maker(advisor).make(requests), rounds=3, warmup_rounds=1
    )  # fmt: skip

    assert sum(len(quiz.scenarios) for quiz in quizzes) >= 190
    assert benchmark.stats.stats.min <= MANY_S


def test_the_first_question_of_a_quiz(benchmark, advisor):
    request = Request(seed="first", rules=("rally-with-air",), count=1)

    quiz = benchmark.pedantic(lambda: Maker(advisor).make((request,))[0], rounds=5)

    assert len(quiz.scenarios) == 1
    assert benchmark.stats.stats.min <= FIRST_S
