"""The order of questions: no rule twice running where that can be."""

from dataclasses import replace

import pytest

from tactics.model.scenario import Scenario
from tactics.quiz.spread import spread
from tests.screens.questions import SHOT


def about(rules: str) -> list[Scenario]:
    """Return a question about each of these rules, named by one letter."""
    return [replace(SHOT, rule=rule, number=n) for n, rule in enumerate(rules)]


@pytest.mark.parametrize(
    ("rules", "after", "order"),
    [
        pytest.param("abc", "", "abc", id="nothing-to-do"),
        pytest.param("aab", "", "aba", id="twice-running"),
        pytest.param("abc", "a", "bac", id="asked-just-before"),
        pytest.param("baa", "c", "aba", id="the-crowded-one-first"),
        pytest.param("aa", "a", "aa", id="cannot-be-helped"),
        pytest.param("", "a", "", id="none"),
    ],
)
def test_a_rule_does_not_follow_itself(rules: str, after: str, order: str) -> None:
    found = spread(about(rules), after)

    assert "".join(each.rule for each in found) == order
    assert sorted(each.number for each in found) == list(range(len(rules)))
