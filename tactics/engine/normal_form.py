"""Conditions -> chains: alternatives of plain conjunctions, which durable-rules is trusted with.

Everything with a truth has a slot: first the program's tests, then its terms, then its rules,
then steps in between. A literal is a slot times two, plus one where its opposite is asked for.
In Kleene's logic a chain that asks for a test and its opposite can still depend, so it stays.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import prod

from tactics.engine.program import Every, Flag, Leaf, Node, Opposite, Program, Some

MOST_MULTIPLIED = 16
"""Where `all` of several `any` would give more chains than this, an `any` becomes a step."""
LONGEST = 60
"""A longer chain has its first literals gathered in a step of their own."""

Chain = frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Derivation:
    """The slot `target` holds where every literal of one of the chains holds.

    stage: 0 where only tests are read, else one more than that of the latest slot read.
    """

    target: int
    stage: int
    chains: tuple[Chain, ...]


def derivations(program: Program) -> tuple[Derivation, ...]:
    """Return how every term, rule and step is derived, each after the slots it reads."""
    writer = _Writer(len(program.leaves), len(program.terms) + len(program.ready))
    first = len(program.leaves)
    for place, node in enumerate(program.terms):
        writer.derive(first + place, node)
    first += len(program.terms)
    for place, rule in enumerate(program.ready):
        writer.derive(first + place, Every((rule.when, Opposite(rule.unless))))
    return tuple(writer.found)


class _Writer:
    """Writes derivations in order and hands out slots to the steps in between."""

    def __init__(self, tests: int, targets: int) -> None:
        self.tests = tests
        self.next_slot = tests + targets
        self.stages: dict[int, int] = {}
        self.steps: dict[frozenset[Chain], int] = {}
        self.found: list[Derivation] = []

    def derive(self, target: int, node: Node) -> None:
        """Write down how a node's truth comes about."""
        self._write(target, self._chains(node, turned=False))

    def _write(self, target: int, chains: Iterable[Chain]) -> None:
        short = tuple(sorted(map(self._shortened, chains), key=sorted))
        read = {literal // 2 for chain in short for literal in chain}
        stage = max((self.stages[slot] + 1 for slot in read if slot >= self.tests), default=0)
        self.stages[target] = stage
        self.found.append(Derivation(target=target, stage=stage, chains=short))

    def _step(self, chains: frozenset[Chain]) -> int:
        """Return the literal of a step that holds where one of the chains holds."""
        if chains not in self.steps:
            slot = self.steps[chains] = self.next_slot
            self.next_slot += 1
            self._write(slot, chains)
        return 2 * self.steps[chains]

    def _shortened(self, chain: Chain) -> Chain:
        while len(chain) > LONGEST:
            first = frozenset(sorted(chain)[:LONGEST])
            chain = chain - first | {self._step(frozenset((first,)))}
        return chain

    def _chains(self, node: Node, *, turned: bool) -> frozenset[Chain]:
        match node:
            case Leaf(index):
                return frozenset((frozenset((2 * index + turned,)),))
            case Flag(index):
                return frozenset((frozenset((2 * (self.tests + index) + turned,)),))
            case Opposite(inside):
                return self._chains(inside, turned=not turned)
            case Every(inside) | Some(inside):
                parts = [self._chains(each, turned=turned) for each in inside]
                together = isinstance(node, Every) is not turned
                return self._all_of(parts) if together else _any_of(parts)

    def _all_of(self, parts: list[frozenset[Chain]]) -> frozenset[Chain]:
        """Return the chains of a conjunction; its widest parts become steps where too many."""
        narrow = [part for part in parts if len(part) == 1]
        wide = sorted((part for part in parts if len(part) != 1), key=len)
        while len(wide) > 1 and prod(map(len, wide)) > MOST_MULTIPLIED:
            narrow.append(frozenset((frozenset((self._step(wide.pop()),)),)))
        chains: frozenset[Chain] = frozenset((frozenset(),))
        for part in (*narrow, *wide):
            chains = _any_of([frozenset(one | other for one in chains for other in part)])
        return chains


def _any_of(parts: Iterable[frozenset[Chain]]) -> frozenset[Chain]:
    """Return the chains of a disjunction, without those that ask for more than another does."""
    chains = frozenset[Chain]().union(*parts)
    return frozenset(c for c in chains if not any(other < c for other in chains))
