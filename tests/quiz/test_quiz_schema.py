"""The schema of quiz files lets shipped ones through and stops spoilt ones."""

from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from tactics.report.quiz_schema import quiz_file_schema
from tests.quiz.written_quizzes import SHIPPED, advisor

ANY = Draft202012Validator(quiz_file_schema())
USUAL = Draft202012Validator(quiz_file_schema(advisor().rules))
LOW = next(path for path in SHIPPED if path.stem == "low-balls").read_text(encoding="utf-8")


def stopped(validator: Draft202012Validator, text: str) -> set[str]:
    """Return the places at which the schema stops a text."""
    found = validator.iter_errors(yaml.safe_load(text))
    return {"/".join(map(str, error.absolute_path)) for error in found}


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_shipped_quizzes_pass(path: Path) -> None:
    assert stopped(ANY, path.read_text(encoding="utf-8")) == set()


def test_a_schema_is_a_schema_and_knows_the_words_of_its_rules() -> None:
    Draft202012Validator.check_schema(quiz_file_schema(advisor().rules))

    assert stopped(USUAL, LOW) == set()


@pytest.mark.parametrize(
    ("good", "spoilt", "place"),
    [
        ("body height: thigh", "body height: tigh", "body height"),
        ("options: [low ball, high ball, short ball]", "options: [low ball]", "options"),
        ("options: [low ball, high", "options: [lowest ball, high", "options/0"),
        ("given:", "givn:", "scenarios"),
        ("answer: 1", "answer: 7", "answer"),
        ("quiz: Low balls", "draw: none", ""),
    ],
)
def test_a_slip_is_stopped_where_it_stands(good: str, spoilt: str, place: str) -> None:
    assert good in LOW
    places = stopped(USUAL, LOW.replace(good, spoilt, 1))

    assert any(place in each for each in places)
