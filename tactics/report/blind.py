"""Balls as a second coach sees them: situation and choice, nothing of what came of them."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.model.ball import Ball
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.report.audit_balls import background_of
from tactics.report.sentences import choice_words, facts_words, situation_sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Blind:
    """A ball without name, note, outcome, mark and grade."""

    situation: str
    choice: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindBalls:
    """All balls of a chart, and the facts that are the same on all of them and said once."""

    throughout: str
    balls: tuple[Blind, ...]


def blind_balls(balls: Sequence[Ball], words: Vocabulary) -> BlindBalls:
    """Return the balls in their order, in words."""
    background = background_of(balls, words)
    return BlindBalls(
        throughout=facts_words(Situation.of(background), words) if background else "",
        balls=tuple(
            Blind(
                situation=situation_sentence(
                    Situation.of(each for each in ball.situation.facts if each not in background),
                    words,
                ),
                choice=choice_words(ball.choice, words),
            )
            for ball in balls
        ),
    )
