"""Quizzes that several tests look at, made once."""

import os
from functools import cache

from tactics.cli.rule_files import load_rules
from tactics.engine.compile import compile_rules
from tactics.model.scenario import Quiz, Scenario
from tactics.quiz.generate import Maker
from tactics.quiz.requests import Request

SETS = ("singles-club", "doubles-club", "junior-red", "junior-orange", "junior-green")
IS_THOROUGH = os.environ.get("HYPOTHESIS_PROFILE") in ("ci", "deep")
MANY = 400 if IS_THOROUGH else 24
"""Quizzes of ten that habits are tried on."""


@cache
def maker(name: str) -> Maker:
    """Return what makes quizzes from a shipped rule set."""
    rules = load_rules([name], with_drills=False).reading.value
    assert rules is not None
    return Maker(compile_rules(rules, "matcher"))


@cache
def quizzes(name: str, count: int = MANY, hand: str = "right") -> tuple[Quiz, ...]:
    """Return quizzes of ten from a shipped rule set."""
    requests = [Request(seed=f"habit {number}", hand=hand) for number in range(count)]
    return maker(name).make(requests)


@cache
def scenarios(name: str, count: int = MANY) -> tuple[Scenario, ...]:
    """Return their scenarios."""
    return tuple(each for quiz in quizzes(name, count) for each in quiz.scenarios)
