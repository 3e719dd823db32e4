"""Questions and answers as data, and back without a loss."""

import json
from math import inf

import pytest
from hypothesis import given

from tactics.model.known import (
    NOT_APPLICABLE,
    NOT_SEEN,
    Allowed,
    Interval,
    Known,
    OneOf,
    ScatterWithin,
    Within,
    at_least,
    less_than,
    number,
    word,
)
from tactics.model.scenario import Answer
from tactics.quiz.record import (
    answer_in,
    answer_out,
    scenario_in,
    scenario_out,
    values_in,
    values_out,
)
from tests.quiz.answered import answers
from tests.quiz.made import scenarios
from tests.screens.questions import SHOT


@pytest.mark.parametrize(
    "values",
    [
        word("deep"),
        OneOf(frozenset(("deep", "mid"))),
        number(1.3),
        Within((at_least(1.3),)),
        Within((less_than(0.4), Interval((2.0, 1), (inf, 1)))),
        ScatterWithin((at_least(1.4),)),
        NOT_SEEN,
        NOT_APPLICABLE,
    ],
)
def test_sets_of_values_come_back(values: Known | Allowed) -> None:
    assert values_in(json.loads(json.dumps(values_out(values)))) == values


@given(answers)
def test_answers_come_back(given_: Answer) -> None:
    assert answer_in(json.loads(json.dumps(answer_out(given_)))) == given_


def test_questions_come_back_with_their_flip() -> None:
    asked = (SHOT, *scenarios("singles-club", 1))

    found = tuple(scenario_in(json.loads(json.dumps(scenario_out(each)))) for each in asked)

    assert found == asked
