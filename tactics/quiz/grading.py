"""Answers graded together, each with certainty or not at all."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from tactics.engine.advise import Advice, advise
from tactics.engine.advisor import Advisor
from tactics.engine.judge import judge
from tactics.engine.program import Program
from tactics.model.choice import Choice
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, Grade

_FEW = 150
"""So many answers are judged one by one: sooner done than loading what judges many at once."""


@dataclass(slots=True)
class Graded:
    """The verdicts on the answers of one round, by their numbers.

    possible: number -> possible grades. broken: number -> ids of the rules it breaks.
    """

    program: Program
    choices: Sequence[Choice]
    possible: Callable[[int], frozenset[Grade]]
    broken: Callable[[int], Iterable[str]]

    def grade(self, row: int) -> Grade | None:
        """Return the grade of an answer, or None where the rules leave it open."""
        found = self.possible(row)
        return next(iter(found)) if len(found) == 1 else None

    def is_broken(self, row: int) -> bool:
        """Say whether an answer surely breaks a rule."""
        return self.possible(row) <= BROKEN

    def charged(self, row: int) -> tuple[str, ...]:
        """Return the ids of the rules an answer breaks, musts first."""
        broken = frozenset(self.broken(row))
        if len(broken) <= 1:
            return tuple(broken)
        ready = [each for each in self.program.ready if each.rule.id in broken]
        ready.sort(key=lambda each: (str(each.rule.strength), each.rank))
        return tuple(each.rule.id for each in ready)


@dataclass(slots=True)
class Desk:
    """Answers to be graded together: the evaluator is quickest with many at once."""

    advisor: Advisor
    situations: list[Situation] = field(default_factory=list)
    choices: list[Choice] = field(default_factory=list)

    def put(self, situation: Situation, choice: Choice) -> int:
        """Put an answer on the desk and return its number."""
        self.situations.append(situation)
        self.choices.append(choice)
        return len(self.choices) - 1

    def grade(self) -> Graded:
        """Return the verdicts on everything that was put there."""
        return self._one_by_one() if len(self.choices) <= _FEW else self._all_at_once()

    def _one_by_one(self) -> Graded:
        advice: dict[Situation, Advice] = {}
        for situation in self.situations:
            if situation not in advice:
                advice[situation] = advise(self.advisor, situation)
        both = zip(self.situations, self.choices, strict=True)
        verdicts = [judge(choice, advice[situation]) for situation, choice in both]
        return Graded(
            program=self.advisor.program,
            choices=self.choices,
            possible=lambda row: verdicts[row].possible,
            broken=lambda row: verdicts[row].charged,
        )

    def _all_at_once(self) -> Graded:
        from tactics.engine.batch import judge_all  # numpy: too slow to load for a few answers

        verdicts = judge_all(self.advisor, self.situations, self.choices)
        ready = self.advisor.program.ready

        def broken(row: int) -> list[str]:
            return [ready[place].rule.id for place in verdicts.charged[:, row].nonzero()[0]]

        return Graded(
            program=self.advisor.program,
            choices=self.choices,
            possible=verdicts.grades,
            broken=broken,
        )
