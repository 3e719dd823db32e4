"""What all checks of a rule set share: its space, its voices, and the evaluator to confirm."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from tactics.checks.replay import Replay, breaks, law_of, replay
from tactics.checks.space import Space, space_for
from tactics.checks.voices import Voices
from tactics.checks.witness import Cells, Common, Witness, common, ordinary_cells, tell
from tactics.engine.advisor import Advisor
from tactics.model.condition import Condition
from tactics.model.known import OneOf, Within
from tactics.model.rule import RuleSet


@dataclass(kw_only=True, eq=False)
class Proof:
    """A rule set under proof."""

    advisor: Advisor

    @property
    def rules(self) -> RuleSet:
        """Return the rule set."""
        return self.advisor.rules

    @cached_property
    def space(self) -> Space:
        """Return the situations and choices that the rule set can tell apart."""
        return space_for((self.rules,))

    @cached_property
    def voices(self) -> Voices:
        """Return who speaks and decides."""
        return Voices(space=self.space, rules=self.rules)

    @cached_property
    def legal(self) -> tuple[int, ...]:
        """Return the literals of every situation that can happen and that the set is about."""
        return (*self.space.legal, self.voices.covered)

    def can_hold(self, *literals: int) -> bool:
        """Say whether some legal situation has all these."""
        return self.space.clauses.can_hold((*self.legal, *literals))

    def witness(self, *literals: int, telling: Sequence[int] = ()) -> Witness | None:
        """Return the most ordinary situation with all these, None where there is none.

        telling: what has to stay true for a fact to be left out of the telling.
        """
        cells = self.cells(*literals)
        return None if cells is None else tell(self.space, cells, telling or literals)

    def cells(self, *literals: int) -> Cells | None:
        """Return the most ordinary situation with all these as cells."""
        return ordinary_cells(self.space, (self.voices.covered, *literals))

    def common(self, goal: Sequence[int]) -> Common:
        """Return what all legal situations of a goal have in common."""
        return common(self.space, goal, (self.voices.covered,), self.voices.terms)

    def fixed(self, witness: Witness) -> tuple[int, ...]:
        """Return the literals that leave no other situation and choice than the witness."""
        told = (*witness.situation.facts, *witness.choice.parts)
        return tuple(
            self.space.test(name, known)
            for name, known in told
            if isinstance(known, OneOf | Within)
        )

    def holds_in(self, condition: Condition, fixed: tuple[int, ...]) -> bool:
        """Say whether a condition holds where a witness is fixed."""
        return self.can_hold(*fixed, self.space.condition(condition, self.voices.terms))

    def replay(self, witness: Witness) -> Replay:
        """Return what the evaluator says about a witness."""
        return replay(self.advisor, witness)

    def is_real(self, witness: Witness) -> bool:
        """Say whether the evaluator finds a witness clear, covered and possible."""
        seen = self.replay(witness)
        return seen.is_sure and seen.is_covered and not breaks(self._law, witness)

    @cached_property
    def _law(self) -> Advisor:
        return law_of(self.rules)

    @cached_property
    def off_edges(self) -> Mapping[int, str]:
        """Return the literals that keep numbers off the places where two limits meet -> fact."""
        return {
            -self.space.cell(name, cell): name
            for name, scale in self.space.scales.items()
            for cell in range(scale.size)
            if scale.is_edge(cell)
        }

    def edges(self, *literals: int) -> tuple[str, ...]:
        """Return the facts whose exact value is the only place where these can hold, if any."""
        if not self.off_edges or self.can_hold(*literals, *self.off_edges):
            return ()
        culprits = self.space.clauses.culprits()
        return tuple(dict.fromkeys(n for lit, n in self.off_edges.items() if lit in culprits))
