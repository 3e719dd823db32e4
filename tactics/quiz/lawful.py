"""Whether a drawn ball can happen: the laws of the game, the rule set's own, and common play."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test, tests_in
from tactics.model.known import Allowed, OneOf, Within, complement
from tactics.model.legality import LEGALITY, Impossible
from tactics.model.names import fold
from tactics.model.rule import RuleSet
from tactics.model.trait import Role, Trait
from tactics.quiz.plain import Plain, Value, is_in
from tactics.quiz.plausible import PLAUSIBLE

_PHASE = "game situation"

Holds = Callable[[Plain], bool | None]
"""Says whether something holds for a ball; None where a fact it asks was not drawn."""


def ready(condition: Condition, terms: Mapping[str, Condition]) -> Holds:
    """Return a condition as a function of a ball; drawing asks the same ones very often."""
    match condition:
        case Test(name=name, allowed=allowed):
            return _test(name, allowed)
        case TermTest(term=term, wanted=wanted):
            inner = ready(terms[fold(term)], terms)
            return inner if wanted else _not(inner)
        case All(inside):
            return _all([ready(each, terms) for each in inside])
        case AnyOf(inside):
            return _not(_all([_not(ready(each, terms)) for each in inside]))
        case Not(each):
            return _not(ready(each, terms))


def _test(name: str, allowed: Allowed) -> Holds:
    match allowed:
        case OneOf(words):
            return lambda ball: ball[name] in words if name in ball else None
        case Within((interval,)):
            low, high = interval.low, interval.high

            def lies(ball: Plain) -> bool | None:
                if name not in ball:
                    return None
                value = ball[name]
                return value is not None and low <= (value, 0) < high

            return lies
        case _:
            return lambda ball: is_in(ball[name], allowed) if name in ball else None


def _not(inner: Holds) -> Holds:
    def opposite(ball: Plain) -> bool | None:
        truth = inner(ball)
        return None if truth is None else not truth

    return opposite


def _all(inside: list[Holds]) -> Holds:
    def every(ball: Plain) -> bool | None:
        found: bool | None = True
        for each in inside:
            truth = each(ball)
            if truth is False:
                return False
            if truth is None:
                found = None
        return found

    return every


@dataclass(frozen=True, slots=True)
class Line:
    """What cannot happen, ready to be asked, and the facts it is about."""

    what: Impossible
    holds: Holds
    facts: frozenset[str]


@dataclass(frozen=True)
class Laws:
    """The lines that a rule set's words allow to check."""

    rules: RuleSet

    @cached_property
    def terms(self) -> dict[str, Condition]:
        """Return folded name -> condition of the rule set's terms."""
        return {fold(term.name): term.condition for term in self.rules.terms}

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """Return every line about the situation alone whose facts the rule set knows."""
        facts = {trait.folded for trait in self.rules.vocabulary.of_role(Role.FACT)}
        every = (*LEGALITY, *self.rules.cannot_happen, *PLAUSIBLE)
        lines = [(line, self.names(line.when)) for line in every]
        return tuple(
            Line(line, ready(line.when, self.terms), names)
            for line, names in lines
            if names <= facts
        )

    def names(self, condition: Condition) -> frozenset[str]:
        """Return the facts and parts a condition asks, through its terms."""
        found: set[str] = set()
        for test in tests_in(condition):
            inner = (
                {test.name} if isinstance(test, Test) else self.names(self.terms[fold(test.term)])
            )
            found |= inner
        return frozenset(found)

    @cached_property
    def _by_phase(self) -> dict[Value, tuple[Line, ...]]:
        """Return game situation -> the lines that may hold in it."""
        words = self.rules.vocabulary.trait(_PHASE).words
        return {
            word.name: tuple(line for line in self.lines if _may_hold_in(line.what.when, word.name))
            for word in words
        }

    @cached_property
    def possible(self) -> dict[tuple[str, str], Allowed]:
        """Return (game situation, fact) -> the values left by lines about nothing else."""
        found: dict[tuple[str, str], Allowed] = {}
        for line in self.lines:
            match line.what.when:
                case All((Test(name=name, allowed=OneOf(phases)), Test() as test)) if (
                    name == _PHASE
                ):
                    for phase in phases:
                        trait = self.rules.vocabulary.trait(test.name)
                        left = _without(found.get((phase, test.name)), test.allowed, trait)
                        if left is not None:
                            found[phase, test.name] = left
                case _:
                    pass
        return found

    def limits(self, fact: str) -> tuple[Allowed, ...]:
        """Return the sets of a fact's values that game situations leave."""
        return tuple(left for (_, name), left in self.possible.items() if name == fact)

    @cached_property
    def _about(self) -> dict[tuple[Value, str], tuple[Line, ...]]:
        """Return (game situation, fact) -> the lines that may hold there and ask about it."""
        facts = {name for line in self.lines for name in line.facts}
        return {
            (phase, fact): tuple(line for line in lines if fact in line.facts)
            for phase, lines in [(None, self.lines), *self._by_phase.items()]
            for fact in facts
        }

    def broken(self, ball: Plain) -> tuple[Impossible, ...]:
        """Return the lines a ball breaks."""
        lines = self._by_phase.get(ball.get(_PHASE), self.lines)
        return tuple(line.what for line in lines if line.holds(ball))

    def allow(self, ball: Plain) -> bool:
        """Say whether a ball breaks no line."""
        return not self.broken(ball)

    def allow_change(self, ball: Plain, fact: str) -> bool:
        """Say whether a ball that was allowed before one fact changed still is."""
        about = self._about.get((ball.get(_PHASE), fact), ())
        return not any(line.holds(ball) for line in about)


def _without(some: Allowed | None, gone: Allowed, trait: Trait) -> Allowed | None:
    """Return a set (everything where it is None) without some values; None where none are left."""
    match some, gone:
        case (None | OneOf(), OneOf(words)):
            every = {word.name for word in trait.words} if some is None else some.words
            return OneOf(frozenset(every - words)) if every - words else None
        case (None | Within(), Within(intervals)):
            kept = () if some is None else complement(some.intervals)
            left = complement((*kept, *intervals))
            return Within(left) if left else None
        case _:
            return some


def _may_hold_in(condition: Condition, phase: str) -> bool:
    """Say whether a condition does not already fail on the game situation it asks for."""
    match condition:
        case All(inside):
            return all(_may_hold_in(each, phase) for each in inside)
        case Test(name=name, allowed=OneOf(words)) if name == _PHASE:
            return phase in words
        case Not(Test(name=name, allowed=OneOf(words))) if name == _PHASE:
            return phase not in words
        case _:
            return True


def names_in(condition: Condition) -> frozenset[str]:
    """Return the facts and parts a condition asks, terms not opened."""
    return frozenset(test.name for test in tests_in(condition) if isinstance(test, Test))
