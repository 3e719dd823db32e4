"""The conditions of a rule one by one, each with its literal."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.checks.conditions import conjuncts
from tactics.checks.proof import Proof
from tactics.model.condition import Condition
from tactics.model.rule import Rule


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """A condition of a rule. literal: that it lets the rule apply (an exception: does not hold)."""

    literal: int
    condition: Condition
    is_exception: bool = False


def pieces_of(proof: Proof, rule: Rule) -> tuple[Piece, ...]:
    """Return the pieces of `when` and `if choosing`, then the exceptions."""
    asked = (*conjuncts(rule.when), *conjuncts(rule.choosing))

    def literal(condition: Condition) -> int:
        return proof.space.condition(condition, proof.voices.terms)

    return (
        *(Piece(literal=literal(each), condition=each) for each in asked),
        *(Piece(literal=-literal(e), condition=e, is_exception=True) for e in rule.unless),
    )


def turned(pieces: Sequence[Piece], piece: Piece) -> tuple[int, ...]:
    """Return the literals of all pieces, with one of them failing."""
    return tuple(-each.literal if each is piece else each.literal for each in pieces)


def shortest(proof: Proof, pieces: Sequence[Piece], *more: int) -> frozenset[int]:
    """Return literals that cannot hold together, none of which could be left out.

    Lines of what cannot happen are left out first: a rule that contradicts itself should be
    told so.
    """
    clauses = proof.space.clauses
    pool = (*proof.space.legal, proof.voices.covered, *(each.literal for each in pieces))
    kept = list(dict.fromkeys(pool))
    if clauses.can_hold((*kept, *more)):
        return frozenset()
    for literal in tuple(kept):
        without = [each for each in kept if each != literal]
        if not clauses.can_hold((*without, *more)):
            kept = without
    return frozenset(kept)


def reasons(proof: Proof, culprits: frozenset[int]) -> tuple[str, ...]:
    """Return the ids of what cannot happen among the culprits."""
    return tuple(name for name, literal in proof.space.lines.items() if literal in culprits)
