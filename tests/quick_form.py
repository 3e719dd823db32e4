"""Which balls of a chart carry no more than the quick form asks for."""

from tactics.model.audit import JudgedBall
from tactics.model.ball import Ball
from tactics.model.known import OneOf
from tactics.model.verdict import Grade
from tactics.model.vocabulary import Vocabulary

PLAYER_FACTS = frozenset(
    ("own hand", "opponent hand", "stature", "stage", "format", "level", "surface")
)
"""Typed once for a player or a day, not ball by ball."""
SERVE_FACTS = frozenset(("serve number", "serve side"))
"""Asked instead of the incoming ball where the player serves or returns."""


def quick_facts(words: Vocabulary) -> frozenset[str]:
    """Return the facts that the quick form asks for at every ball."""
    return frozenset(trait.folded for trait in words.facts if trait.quick)


def is_quick(ball: Ball, words: Vocabulary) -> bool:
    """Say whether a ball was charted with no more than the quick form's facts."""
    phase = ball.situation.get("game situation")
    serves = isinstance(phase, OneOf) and phase.words <= {"serving", "returning"}
    asked = quick_facts(words) | PLAYER_FACTS | (SERVE_FACTS if serves else frozenset())
    return ball.situation.as_dict().keys() <= asked


def undecided(judged: list[JudgedBall]) -> list[JudgedBall]:
    """Return the balls that could not be graded."""
    return [each for each in judged if each.verdict.grade is Grade.UNDECIDED]
