"""Which tests an undecided condition hangs on."""

from collections.abc import Sequence

from tactics.engine.match import DEPENDS, Truth, holds
from tactics.engine.program import Every, Flag, Leaf, Node, Opposite, Program, Some


def open_leaves(
    program: Program, node: Node, leaves: Sequence[Truth], terms: Sequence[Truth]
) -> frozenset[int]:
    """Return the numbers of the tests that can still turn a condition; terms are opened.

    Branches that are decided already are left out: nothing more about them can matter.
    """
    if holds(node, leaves, terms) is not DEPENDS:
        return frozenset()
    match node:
        case Leaf(index):
            return frozenset((index,))
        case Flag(index):
            return open_leaves(program, program.terms[index], leaves, terms)
        case Every(inside) | Some(inside):
            return frozenset().union(*(open_leaves(program, n, leaves, terms) for n in inside))
        case Opposite(each):
            return open_leaves(program, each, leaves, terms)
