"""Conditions as clauses: a literal for `all of these` and `any of these`, each written once."""

from collections.abc import Iterable, Sequence

from tactics.checks.solve import Solver

ALWAYS, NEVER = 1, -1


class Clauses:
    """A growing list of clauses, and the solver that is asked about them."""

    def __init__(self) -> None:
        """Start with nothing but the literal that always holds."""
        self.written: list[tuple[int, ...]] = [(ALWAYS,)]
        self.variables = 1
        self._every: dict[tuple[int, ...], int] = {}
        self._solver = Solver()
        self._told = self._asked_of = 0

    def fresh(self) -> int:
        """Return a new literal that nothing is said about yet."""
        self.variables += 1
        return self.variables

    def add(self, *literals: int) -> None:
        """Say that one of these holds."""
        self.written.append(literals)

    def every(self, literals: Iterable[int]) -> int:
        """Return the literal that holds just where all of these do."""
        inside = frozenset(literals) - {ALWAYS}
        if NEVER in inside or any(-each in inside for each in inside):
            return NEVER
        if len(inside) < 2:
            return next(iter(inside), ALWAYS)
        key = tuple(sorted(inside))
        found = self._every.get(key)
        if found is None:
            found = self._every[key] = self.fresh()
            self.written.extend((-found, each) for each in key)
            self.written.append((found, *(-each for each in key)))
        return found

    def some(self, literals: Iterable[int]) -> int:
        """Return the literal that holds just where one of these does."""
        return -self.every(-each for each in literals)

    def differs(self, one: int, other: int) -> int:
        """Return the literal that holds just where one holds and the other does not."""
        return self.some((self.every((one, -other)), self.every((-one, other))))

    def can_hold(self, literals: Iterable[int]) -> bool:
        """Say whether all these literals can hold at once."""
        if self._told < len(self.written):
            self._solver.add(self.written[self._told :])
            self._told = len(self.written)
        self._asked_of = self.variables
        return self._solver.can_hold(list(literals))

    def found(self) -> list[int]:
        """Return the literals that hold in the answer to the last question, by number."""
        found = [0, *self._solver.model()]
        return [*found, *range(-len(found), -self._asked_of - 1, -1)]  # in no clause yet: free

    def culprits(self) -> frozenset[int]:
        """Return the literals of the last question that do not go together."""
        return self._solver.culprits()

    def branch(self) -> "Clauses":
        """Return a copy to write more into, which leaves this one as it is."""
        other = Clauses()
        other.written = self.written.copy()
        other.variables = self.variables
        other._every = self._every.copy()
        return other


def is_in(found: Sequence[int], literal: int) -> bool:
    """Say whether an answer is known to have a literal; a newer literal is not known yet."""
    return abs(literal) < len(found) and found[abs(literal)] == literal
