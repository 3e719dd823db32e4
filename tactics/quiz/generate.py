"""Fresh situations from a rule set: near a boundary, graded by the rules, and fair to no habit.

All that is random comes from (rule set, generator version, seed), so a quiz can be made again.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from random import Random

from tactics.engine.advisor import Advisor, Matcher
from tactics.model.scenario import Ask, Quiz, Scenario
from tactics.quiz.balance import Balance
from tactics.quiz.drafts import Drawing
from tactics.quiz.finishing import Finishing
from tactics.quiz.naming import Naming
from tactics.quiz.play import Play
from tactics.quiz.requests import EVERY_ASK, Request
from tactics.quiz.revision import rules_hash
from tactics.quiz.rounds import ROUNDS, Slot, Tray, Workshop

GENERATOR = 3
"""Counts up whenever the same seed would give other scenarios."""

_ONE_IN = 4
"""In how many situations one has rules that pull apart."""
_PLACES = 3


@dataclass(frozen=True)
class Maker:
    """Makes quizzes from one rule set; what is the same for all of them is worked out once."""

    advisor: Advisor

    @cached_property
    def workshop(self) -> Workshop:
        """Return what makes scenarios, with the plain matcher: it answers one ball soonest."""
        program = self.advisor.program
        return Workshop(Advisor(rules=self.advisor.rules, program=program, engine=Matcher(program)))

    @property
    def quick(self) -> Advisor:
        """Return the same rules with the plain matcher."""
        return self.workshop.advisor

    @property
    def play(self) -> Play:
        """Return what draws balls."""
        return self.workshop.play

    @property
    def drawing(self) -> Drawing:
        """Return what draws drafts."""
        return self.workshop.drawing

    @property
    def naming(self) -> Naming:
        """Return what finds names for balls."""
        return self.workshop.naming

    @property
    def finishing(self) -> Finishing:
        """Return what turns chosen answers into scenarios; it knows the rules' revisions."""
        return self.workshop.finishing

    @property
    def places(self) -> dict[str, int]:
        """Return rule id -> number, of the rules that can be asked about."""
        return self.workshop.places

    @cached_property
    def hash(self) -> str:
        """Return the word for the meaning of the whole rule set."""
        return rules_hash(self.advisor.rules, self.finishing.revisions)

    def make(self, requests: Sequence[Request]) -> tuple[Quiz, ...]:
        """Return the quizzes asked for, each as it would be made alone.

        A quiz is shorter than asked for where nothing fair can be asked about some of its rules.
        """
        trays = [self._tray(request) for request in requests]
        for number in range(ROUNDS):
            if not self.workshop.try_all(trays, number):
                break
        self.workshop.finish(trays)
        return tuple(
            Quiz(
                scenarios=tray.scenarios,
                seed=tray.request.seed,
                rules_hash=self.hash,
                generator=GENERATOR,
            )
            for tray in trays
        )

    def scenarios(self, request: Request) -> Iterator[Scenario]:
        """Yield scenarios one by one, the first as soon as it is made.

        Each is drawn from a seed of its own, so habits are balanced over many quizzes only.
        """
        rules = self._rules(request)
        for number in range(request.count if rules else 0):
            seed = f"{request.seed}/{number}"
            rule = rules[number % len(rules)]
            one = replace(request, seed=seed, rules=(rule,), count=1)
            yield from self.make((one,))[0].scenarios

    def _rules(self, request: Request) -> list[str]:
        """Return the rules to ask about, in order: those named, else all in a drawn order."""
        asked = {
            rule for rule, place in self.places.items()
            if self.workshop.kinds(place) & request.asks
        }  # fmt: skip
        named = [rule for rule in request.rules if rule in asked]
        rng = Random(f"{self.hash}/{GENERATOR}/{request.seed}/rules")
        return named or rng.sample(sorted(asked), len(asked))

    def _tray(self, request: Request) -> Tray:
        rules, rng = self._rules(request), Random(f"{self.hash}/{GENERATOR}/{request.seed}")
        conflicts = _blocks(request.count, _ONE_IN, rng)
        positions = _blocks(request.count, _PLACES, rng)
        slots = [
            Slot(
                rule=rules[number % len(rules)],
                number=number,
                position=positions[number],
                wants_conflict=conflicts[number] == 0,
                rng=Random(f"{self.hash}/{GENERATOR}/{request.seed}/{number}"),
            )
            for number in range(request.count if rules else 0)
        ]
        return Tray(request=request, rules=rules, slots=slots, balance=Balance.tilted(rng))


def _blocks(count: int, size: int, rng: Random) -> list[int]:
    """Return numbers below `size` in shuffled blocks that each hold all of them."""
    found: list[int] = []
    while len(found) < count:
        found += rng.sample(range(size), size)
    return found[:count]


def make_quiz(
    advisor: Advisor,
    seed: str,
    *,
    rules: Sequence[str] = (),
    asks: frozenset[Ask] = EVERY_ASK,
    count: int = 10,
    hand: str = "right",
) -> Quiz:
    """Return one quiz; for many from one rule set keep a `Maker`."""
    request = Request(seed=seed, rules=tuple(rules), asks=asks, count=count, hand=hand)
    return Maker(advisor).make((request,))[0]


def make_quizzes(advisor: Advisor, requests: Sequence[Request]) -> tuple[Quiz, ...]:
    """Return many quizzes, each the same as if it were made alone."""
    return Maker(advisor).make(requests)


def askable_rules(advisor: Advisor) -> tuple[str, ...]:
    """Return the ids of the rules that can be drilled: musts and shoulds, in their order."""
    return tuple(Maker(advisor).places)
