"""The values of one fact or part as a row of cells, and the literals that tell them apart.

A number is cut wherever a rule mentions a threshold; within a cell every condition stays the
same. Number cells have a literal "lies in this cell or a lower one" for each cell but the last,
so a range takes two of them; words have one literal each.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from tactics.checks.clauses import NEVER, Clauses, is_in
from tactics.model.known import Allowed, Cut, Interval, OneOf, ScatterWithin, Within, merged
from tactics.model.trait import Kind, Trait


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """One fact or part. absent: the literal that it does not exist here (NEVER where it must)."""

    trait: Trait
    cuts: tuple[Cut, ...]
    literals: tuple[int, ...]
    absent: int

    @property
    def size(self) -> int:
        """Return the number of cells."""
        return len(self.cuts) - 1 if self.cuts else len(self.trait.words)

    def cells_of(self, allowed: Allowed) -> frozenset[int]:
        """Return the cells of a set of values; numbers beyond the range count as its ends."""
        match allowed:
            case OneOf(words):
                return frozenset(
                    place for place, word in enumerate(self.trait.words) if word.name in words
                )
            case Within(intervals):
                return frozenset(cell for each in intervals for cell in self._touched(each))
            case ScatterWithin():
                return frozenset(range(self.size))

    def _touched(self, interval: Interval) -> range:
        last = self.size - 1
        first = max(bisect_right(self.cuts, interval.low) - 1, 0)
        end = bisect_left(self.cuts, interval.high) - 1
        return range(min(first, last), min(end, last) + 1)

    def literal(self, cells: frozenset[int], clauses: Clauses) -> int:
        """Return the literal that the value lies in one of these cells (and exists)."""
        if not self.cuts:
            return clauses.some(self.literals[cell] for cell in cells)
        runs = clauses.some(self._run(low, high, clauses) for low, high in _runs(cells))
        return clauses.every((runs, -self.absent))

    def _run(self, low: int, high: int, clauses: Clauses) -> int:
        bounds = [-self.literals[low - 1]] if low else []
        if high < self.size - 1:
            bounds.append(self.literals[high])
        return clauses.every(bounds)

    def cell_in(self, found: Sequence[int]) -> int | None:
        """Return the cell of an answer of the solver, None where the fact does not exist."""
        if is_in(found, self.absent):
            return None
        if not self.cuts:
            return next(place for place, each in enumerate(self.literals) if found[each] > 0)
        return sum(found[each] < 0 for each in self.literals)

    def values(self, cells: Iterable[int]) -> OneOf | Within:
        """Return the words or numbers of some cells."""
        if not self.cuts:
            return OneOf(frozenset(self.trait.words[cell].name for cell in cells))
        return Within(merged(Interval(self.cuts[cell], self.cuts[cell + 1]) for cell in cells))

    def is_edge(self, cell: int) -> bool:
        """Say whether a cell is a single number inside the range: where two limits meet."""
        return bool(self.cuts) and self.cuts[cell][0] == self.cuts[cell + 1][0]


def _runs(cells: Iterable[int]) -> Iterable[tuple[int, int]]:
    """Return neighbouring cells as (first, last)."""
    low = high = None
    for cell in sorted(cells):
        if low is None or high is None or cell > high + 1:
            if low is not None and high is not None:
                yield low, high
            low = cell
        high = cell
    if low is not None and high is not None:
        yield low, high


def scale_for(trait: Trait, mentioned: Iterable[Allowed], absent: int, clauses: Clauses) -> Scale:
    """Return the scale of a trait, cut at every threshold mentioned, its laws written down."""
    cuts = _cuts(trait, mentioned) if trait.kind is Kind.NUMBER else ()
    count = len(cuts) - 2 if cuts else len(trait.words)
    literals = tuple(clauses.fresh() for _ in range(count))
    if cuts:
        for lower, higher in pairwise(literals):
            clauses.add(-lower, higher)
        if absent != NEVER:  # one way of not existing, not one for each cell
            for each in literals:
                clauses.add(-absent, each)
    else:
        _exactly_one(literals, absent, clauses)
    return Scale(trait=trait, cuts=cuts, literals=literals, absent=absent)


def _cuts(trait: Trait, mentioned: Iterable[Allowed]) -> tuple[Cut, ...]:
    low, high = (trait.low, 0), (trait.high, 1)
    inner = {
        cut
        for allowed in mentioned
        if isinstance(allowed, Within)
        for interval in allowed.intervals
        for cut in (interval.low, interval.high)
        if low < cut < high
    }
    return (low, *sorted(inner), high)


def _exactly_one(literals: Sequence[int], absent: int, clauses: Clauses) -> None:
    alternatives = literals if absent == NEVER else (*literals, absent)
    clauses.add(*alternatives)
    for place, one in enumerate(alternatives):
        for other in alternatives[place + 1 :]:
            clauses.add(-one, -other)
