"""Many balls side by side: one truth for N balls is an `int` of N bits, one lane a ball.

Python's whole numbers do `and`, `or` and `not` on 100,000 lanes in microseconds; numpy packs
columns into lanes and lanes back into columns.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_

import numpy as np
from numpy.typing import NDArray

from tactics.engine.program import Every, Flag, Leaf, Node, Opposite, Program, Some

Bits = NDArray[np.bool_]


def packed(bits: Bits) -> int:
    """Return lanes from one truth a ball, shape (N,)."""
    return int.from_bytes(np.packbits(bits, bitorder="little").tobytes(), "little")


def unpacked(lanes: int, count: int) -> Bits:
    """Return one truth a ball, shape (count,), from lanes."""
    raw = np.frombuffer(lanes.to_bytes((count + 7) // 8, "little"), np.uint8)
    return np.unpackbits(raw, count=count, bitorder="little").astype(np.bool_)


def stacked(lanes: Sequence[int], count: int) -> Bits:
    """Return the truths of several lanes, shape (len(lanes), count)."""
    stack = np.zeros((len(lanes), count), np.bool_)
    for place, each in enumerate(lanes):
        if each:
            stack[place] = unpacked(each, count)
    return stack


def any_of(lanes: Iterable[int]) -> int:
    """Return the lanes set in at least one."""
    return reduce(or_, lanes, 0)


@dataclass(frozen=True, slots=True)
class Three:
    """A three-valued truth for every lane: `sure` where it is yes, `possible` where not no."""

    sure: int
    possible: int

    @property
    def depends(self) -> int:
        """Return the lanes where it is neither yes nor no."""
        return self.possible & ~self.sure


@dataclass(frozen=True, slots=True, kw_only=True)
class Truths:
    """The truth of tests, terms and rules (choice included) of a program, lane by lane."""

    full: int
    leaves: tuple[Three, ...]
    terms: tuple[Three, ...]
    rules: tuple[Three, ...]


def holds(node: Node, full: int, leaves: tuple[Three, ...], terms: list[Three]) -> Three:
    """Return where a condition holds, as `match.holds` does for one ball."""
    match node:
        case Leaf(index):
            return leaves[index]
        case Flag(index):
            return terms[index]
        case Every(inside):
            sure = possible = full
            for each in inside:
                three = holds(each, full, leaves, terms)
                sure &= three.sure
                possible &= three.possible
            return Three(sure, possible)
        case Some(inside):
            sure = possible = 0
            for each in inside:
                three = holds(each, full, leaves, terms)
                sure |= three.sure
                possible |= three.possible
            return Three(sure, possible)
        case Opposite(each):
            three = holds(each, full, leaves, terms)
            return Three(full & ~three.possible, full & ~three.sure)


def infer(program: Program, full: int, leaves: tuple[Three, ...]) -> Truths:
    """Return the truth of all terms and rules for every lane."""
    terms: list[Three] = []
    for node in program.terms:
        terms.append(holds(node, full, leaves, terms))
    rules = []
    for rule in program.ready:
        when = holds(rule.when, full, leaves, terms)
        unless = holds(rule.unless, full, leaves, terms)
        choosing = holds(rule.choosing, full, leaves, terms)
        rules.append(
            Three(
                when.sure & ~unless.possible & choosing.sure,
                when.possible & ~unless.sure & choosing.possible,
            )
        )
    return Truths(full=full, leaves=leaves, terms=tuple(terms), rules=tuple(rules))


def hanging(program: Program, truths: Truths, mattering: list[int]) -> dict[int, int]:
    """Return test -> the lanes in which an undecided rule of `mattering` hangs on it.

    mattering: for each rule, the lanes in which it could change the grade.
    """
    found: dict[int, int] = {}
    for rule, lanes in zip(program.ready, mattering, strict=True):
        if lanes:
            for node in (rule.when, rule.unless, rule.choosing):
                _hang(program, truths, node, lanes, found)
    return found


def _hang(program: Program, truths: Truths, node: Node, lanes: int, found: dict[int, int]) -> None:
    lanes &= holds(node, truths.full, truths.leaves, list(truths.terms)).depends
    if not lanes:
        return
    match node:
        case Leaf(index):
            found[index] = found.get(index, 0) | lanes
        case Flag(index):
            _hang(program, truths, program.terms[index], lanes, found)
        case Every(inside) | Some(inside):
            for each in inside:
                _hang(program, truths, each, lanes, found)
        case Opposite(each):
            _hang(program, truths, each, lanes, found)
