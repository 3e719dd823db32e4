"""What do you see: questions that ask for the named situation, as the rule set defines it."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from random import Random

from tactics.engine.program import Node, flags_in
from tactics.model.names import fold
from tactics.model.rule import Term
from tactics.quiz.nearby import Nearby, nearby
from tactics.quiz.play import Ball, Play

_NAMES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A name that fits, one that fits after the change, one that fits neither way."""

    terms: tuple[Term, Term, Term]
    near: Nearby


@dataclass(frozen=True)
class Naming:
    """Finds names for balls."""

    play: Play

    @cached_property
    def _names(self) -> dict[int, frozenset[str]]:
        return {}

    def has_names(self, place: int) -> bool:
        """Say whether a rule uses a name, and the set has enough of them for a question."""
        return len(self.play.advisor.rules.terms) >= _NAMES and bool(self.names_of(place))

    def names_of(self, place: int) -> frozenset[str]:
        """Return the folded terms a rule uses, and those they use."""
        if place not in self._names:
            program, found = self.play.advisor.program, set[int]()
            for node in (program.ready[place].when, program.ready[place].unless):
                self._gather(node, found)
            names = frozenset(fold(program.term_names[index]) for index in found)
            self._names[place] = names
        return self._names[place]

    def _gather(self, node: Node, found: set[int]) -> None:
        for index in flags_in(node):
            if index not in found:
                found.add(index)
                self._gather(self.play.advisor.program.terms[index], found)

    def name(self, place: int, ball: Ball, rng: Random) -> Iterator[Named]:
        """Yield names for a ball: one of the rule's own that fits, and others that do not."""
        terms = self.play.advisor.rules.terms
        fits = {fold(term.name): self._fits(term, ball) for term in terms}
        own = self.names_of(place)
        right = [t for t in terms if fits[fold(t.name)] and fold(t.name) in own]
        wrong = [t for t in terms if fits[fold(t.name)] is False]
        if not right or len(wrong) < _NAMES - 1:
            return
        around = list(nearby(self.play, ball, self.play.changeable))
        for near in rng.sample(around, len(around)):
            for term in rng.sample(right, len(right)):
                if self._fits(term, near.ball) is False:
                    yield from self._beside(term, wrong, near, rng)

    def _beside(self, right: Term, wrong: list[Term], near: Nearby, rng: Random) -> Iterator[Named]:
        there = [term for term in wrong if self._fits(term, near.ball)]
        neither = [term for term in wrong if self._fits(term, near.ball) is False]
        for second in there:
            for third in rng.sample(neither, min(len(neither), _NAMES)):
                yield Named(terms=(right, second, third), near=near)

    def _fits(self, term: Term, ball: Ball) -> bool | None:
        return self.play.holds(term.condition)(ball)
