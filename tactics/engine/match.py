"""What a rule means: yes, no or depends. Every other way of evaluating has to agree with this."""

from collections.abc import Mapping, Sequence
from enum import IntEnum

from tactics.engine.program import (
    Every,
    Flag,
    Leaf,
    Node,
    Opposite,
    Program,
    ReadyRule,
    Some,
)


class Truth(IntEnum):
    """Three values; `all` is the smallest, `any` the largest, `not` turns them round."""

    NO = 0
    DEPENDS = 1
    YES = 2


NO, DEPENDS, YES = Truth.NO, Truth.DEPENDS, Truth.YES
_OPPOSITE = (YES, DEPENDS, NO)


def test(possible: int, allowed: int) -> Truth:
    """Say whether a value lies in the allowed cells, when all that is known is `possible`."""
    if not possible & allowed:
        return NO
    return DEPENDS if possible & ~allowed else YES


def test_leaves(program: Program, masks: Mapping[str, int]) -> tuple[Truth, ...]:
    """Return the truth of every numbered test whose fact or part is in `masks`; others depend."""
    return tuple(
        test(masks[leaf.name], leaf.mask) if leaf.name in masks else DEPENDS
        for leaf in program.leaves
    )


def holds(node: Node, leaves: Sequence[Truth], terms: Sequence[Truth]) -> Truth:
    """Say whether a condition holds, from the truth of its tests and terms (Kleene's logic)."""
    match node:
        case Leaf():
            return leaves[node.index]
        case Every():
            return _smallest(node.inside, leaves, terms)
        case Flag():
            return terms[node.index]
        case Some():
            return _largest(node.inside, leaves, terms)
        case Opposite():
            return _OPPOSITE[holds(node.inside, leaves, terms)]


def _smallest(inside: tuple[Node, ...], leaves: Sequence[Truth], terms: Sequence[Truth]) -> Truth:
    smallest = YES
    for each in inside:
        truth = holds(each, leaves, terms)
        if truth is NO:
            return NO
        if truth is DEPENDS:
            smallest = DEPENDS
    return smallest


def _largest(inside: tuple[Node, ...], leaves: Sequence[Truth], terms: Sequence[Truth]) -> Truth:
    largest = NO
    for each in inside:
        truth = holds(each, leaves, terms)
        if truth is YES:
            return YES
        if truth is DEPENDS:
            largest = DEPENDS
    return largest


def infer(program: Program, leaves: Sequence[Truth]) -> tuple[tuple[Truth, ...], tuple[Truth, ...]]:
    """Return the truth of every term and of every rule (`when` and no `unless`), choice unseen."""
    terms: list[Truth] = []
    for node in program.terms:
        terms.append(holds(node, leaves, terms))
    return tuple(terms), tuple(_applies(rule, leaves, terms) for rule in program.ready)


def _applies(rule: ReadyRule, leaves: Sequence[Truth], terms: Sequence[Truth]) -> Truth:
    when = holds(rule.when, leaves, terms)
    if when is NO:
        return NO
    return min(when, _OPPOSITE[holds(rule.unless, leaves, terms)])
