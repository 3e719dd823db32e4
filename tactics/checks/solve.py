"""Can all of this hold at once? The one module that knows the SAT solver."""

from collections.abc import Iterable, Sequence

import pysolvers
from pysat.solvers import Minisat22

Clause = Sequence[int]

MOST_CONFLICTS = 20_000
"""Beyond this much work a single question counts as not settled; ordinary ones need hundreds.

It is a fraction of a second: Ctrl-C is heard between questions only.
"""


class NotSettledError(Exception):
    """A question took more work than it is given; nothing is known about its answer."""


class Solver:
    """Clauses, and questions about them. A literal is a number; its negative is its opposite."""

    def __init__(
        self, clauses: Iterable[Clause] = (), most_conflicts: int = MOST_CONFLICTS
    ) -> None:
        """Start with these clauses; more can be added later."""
        self._solver = Minisat22(bootstrap_with=clauses)
        self._most_conflicts = most_conflicts

    def add(self, clauses: Iterable[Clause]) -> None:
        """Add clauses that hold from now on."""
        for clause in clauses:
            self._solver.add_clause(clause)

    def can_hold(self, literals: Sequence[int]) -> bool:
        """Say whether the clauses allow all these literals at once."""
        self._solver.conf_budget(self._most_conflicts)
        try:
            answer = self._solver.solve_limited(assumptions=literals)
        except pysolvers.error:  # how the solver reports Ctrl-C
            raise KeyboardInterrupt from None
        if answer is None:
            raise NotSettledError
        return bool(answer)

    def model(self) -> Sequence[int]:
        """Return what the last question, answered yes, found: literal n stands at place n - 1."""
        model: Sequence[int] = self._solver.get_model()
        return model

    def culprits(self) -> frozenset[int]:
        """Return which of the literals of the last question, answered no, do not go together."""
        return frozenset(self._solver.get_core() or ())
