"""How many choices kept the rules under a heading, and what makes a lesson."""

from dataclasses import dataclass

from tactics.model.ball import Ball
from tactics.model.standard import STANDARD
from tactics.model.verdict import BROKEN, KEPT, Verdict
from tactics.review.rates import Rate

GAME_SITUATION = "game situation"
OPEN_SITUATION = "not seen"
SITUATIONS = tuple(word.name for word in STANDARD.trait(GAME_SITUATION).words)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """Balls under one heading. open: could not be decided; lessons: of the decided ones."""

    name: str
    kept: int
    broken: int
    open: int
    lessons: int

    @property
    def total(self) -> int:
        """Return how many balls there are, open ones included."""
        return self.kept + self.broken + self.open

    @property
    def kept_rate(self) -> Rate:
        """Return the share of decided balls that kept the rules."""
        return Rate(count=self.kept, n=self.kept + self.broken, lessons=self.lessons)

    @property
    def broken_rate(self) -> Rate:
        """Return the share of decided balls that broke them."""
        return Rate(count=self.broken, n=self.kept + self.broken, lessons=self.lessons)


Session = tuple[str, str, str]
"""Player, date and lesson: balls that agree in all three belong to one lesson."""


def session_of(ball: Ball) -> Session:
    """Return what tells one lesson or match from another."""
    return (ball.player, ball.date, ball.lesson)


def is_settled(verdict: Verdict) -> bool:
    """Say whether a ball is decided, so that a rule that spoke and was not charged was kept."""
    possible = verdict.possible
    return possible <= KEPT or (len(possible) == 1 and possible <= BROKEN)
