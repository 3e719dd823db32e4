"""The rules on the other side of one changed fact: what a question can be made to turn on."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from random import Random

from tactics.engine.program import ReadyRule
from tactics.model.condition import All, Condition, Not
from tactics.model.known import Allowed, OneOf
from tactics.quiz.lawful import Holds
from tactics.quiz.nearby import Nearby, nearby
from tactics.quiz.plain import Plain, is_in, known_of
from tactics.quiz.play import Ball, Play
from tactics.quiz.telling import facts_asked
from tactics.quiz.templates import assumed

_MOST_LOOKED_AT = 14


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """A nearby ball, and a rule that speaks there and not here (None: one only falls silent)."""

    near: Nearby
    other: int | None
    falls_silent: bool


@dataclass(frozen=True)
class Sides:
    """Finds what changes about a rule when one fact does."""

    play: Play

    @cached_property
    def facts_of(self) -> tuple[frozenset[str], ...]:
        """Return the facts that each rule asks about."""
        program = self.play.advisor.program
        return tuple(facts_asked(program, place) for place in range(len(program.ready)))

    @cached_property
    def _conditions(self) -> tuple[tuple[Condition, ...], ...]:
        ready = self.play.advisor.program.ready
        return tuple((r.rule.when, *(Not(each) for each in r.rule.unless)) for r in ready)

    @cached_property
    def _holds(self) -> dict[int, tuple[Holds, ...]]:
        """Return rule -> its conditions, of those asked so far: the first question needs few."""
        return {}

    @cached_property
    def _askers(self) -> Mapping[str, tuple[int, ...]]:
        """Return fact -> rules that ask about it and are more than an option."""
        ready = self.play.advisor.program.ready
        places = [n for n, rule in enumerate(ready) if not rule.is_option_only]
        return {
            trait.folded: tuple(n for n in places if trait.folded in self.facts_of[n])
            for trait in self.play.facts
        }

    @cached_property
    def _whole(self) -> tuple[Condition, ...]:
        return tuple(All(each) for each in self._conditions)

    @cached_property
    def _silencers(self) -> Mapping[int, tuple[int, ...]]:
        """Return rule -> rules beside which it decides nothing, or its choice is no good."""
        ready = self.play.advisor.program.ready
        return {
            place: tuple(
                other
                for other, their in enumerate(ready)
                if other != place and _silences(their, rule)
            )
            for place, rule in enumerate(ready)
        }  # fmt: skip

    def unwanted(self, place: int, but: int | None) -> tuple[Condition, ...]:
        """Return what should not hold in a question about a rule, `but` that of one rule."""
        return tuple(self._whole[other] for other in self._silencers[place] if other != but)

    def conditions(self, place: int) -> tuple[Condition, ...]:
        """Return all that has to hold for a rule to speak."""
        return self._conditions[place]

    def speaks(self, place: int, ball: Ball) -> bool:
        """Say whether a rule surely speaks about a ball."""
        found = self._holds.get(place)
        if found is None:
            found = tuple(self.play.holds(each) for each in self._conditions[place])
            self._holds[place] = found
        return all(holds(ball) for holds in found)

    @cached_property
    def _clauses(self) -> tuple[tuple[tuple[Holds, frozenset[str]], ...], ...]:
        """Return of each rule what has to hold, piece by piece, with the facts of each piece."""
        play = self.play
        return tuple(
            tuple(
                (play.holds(piece), play.laws.names(piece))
                for condition in conditions
                for piece in (condition.inside if isinstance(condition, All) else (condition,))
            )
            for conditions in self._conditions
        )

    def facts_away(self, place: int, ball: Ball) -> frozenset[str]:
        """Return the facts of which one alone may stand between a silent rule and the ball."""
        failing = [facts for holds, facts in self._clauses[place] if not holds(ball)]
        return frozenset.intersection(*failing) if failing else frozenset()

    @cached_property
    def _advisers(self) -> tuple[tuple[int, ReadyRule, Mapping[str, Allowed]], ...]:
        """Return the rules that are more than an option, with their aims."""
        return tuple(
            (place, rule, dict(rule.rule.aim))
            for place, rule in enumerate(self.play.advisor.program.ready)
            if not rule.is_option_only
        )

    def against(self, ball: Ball, values: Plain) -> Iterator[tuple[int, frozenset[str]]]:
        """Yield rules that are silent here and ask for something else, and the facts between."""
        program = self.play.advisor.program
        cells = {part: program.grid.mask(part, known_of(value)) for part, value in values.items()}
        both = {**ball, **values}
        for place, rule, aim in self._advisers:
            is_against = any(part in cells and not cells[part] & mask for part, mask in rule.advice)
            if not is_against and not any(
                part in aim and not is_in(value, aim[part]) for part, value in values.items()
            ):
                continue
            if facts := self.facts_away(place, ball):
                choosing = rule.rule.choosing
                if choosing is None or self.play.holds(choosing)(both):
                    yield place, facts

    def find(self, place: int, ball: Ball, rng: Random) -> Beside | None:
        """Return a change after which another rule speaks, best where this one falls silent."""
        facts = [fact for fact in self.play.changeable if fact in self.facts_of[place]]
        near = list(nearby(self.play, ball, facts))
        found = [self._look(place, ball, each, rng)
                 for each in rng.sample(near, min(len(near), _MOST_LOOKED_AT))]  # fmt: skip
        found.sort(key=lambda each: (each.other is None) + (not each.falls_silent))
        return found[0] if found else None

    def _look(self, place: int, ball: Ball, near: Nearby, rng: Random) -> Beside:
        new = [
            other for other in self._askers[near.fact]
            if other != place
            and self.speaks(other, near.ball)
            and not self.speaks(other, ball)
            and self._is_of_a_kind(place, other)
        ]  # fmt: skip
        return Beside(
            near=near,
            other=rng.choice(new) if new else None,
            falls_silent=not self.speaks(place, near.ball),
        )

    def _is_of_a_kind(self, place: int, other: int) -> bool:
        """Say whether two rules speak about the same choices, so that one option shows both."""
        ready = self.play.advisor.program.ready
        return ready[place].rule.choosing == ready[other].rule.choosing and all(
            (part in _FEET) is (next(iter(ready[place].advice))[0] in _FEET)
            for part, _ in ready[other].advice
        )


def _silences(other: ReadyRule, rule: ReadyRule) -> bool:
    if other.is_option_only or other.rule.choosing is not None:
        return False
    theirs, ours = dict(other.advice), dict(rule.advice)
    is_higher = other.rank < rule.rank or rule.rule.id in other.rule.beats
    if is_higher and ours.keys() <= theirs.keys():
        return True
    chosen = {} if rule.rule.choosing is None else assumed(rule.rule.choosing)
    advised = dict(other.rule.advice)
    return any(
        isinstance(allowed, OneOf)
        and isinstance(asked := advised.get(part), OneOf)
        and not allowed.words & asked.words
        for part, allowed in chosen.items()
    )


_FEET = frozenset(("afterwards", "stance", "response"))
