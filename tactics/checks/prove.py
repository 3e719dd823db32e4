"""All proofs about a rule set, in an order in which the first findings explain the later ones."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tactics.checks.always_overruled import find_overruled
from tactics.checks.conflicts import find_conflicts
from tactics.checks.finding import Kind, Step, Unsettled
from tactics.checks.gaps import find_gaps
from tactics.checks.hands import find_uneven_hands
from tactics.checks.idle import find_idle
from tactics.checks.missing_stage import find_missing_stage
from tactics.checks.never_applies import find_dead_rules, find_dead_terms
from tactics.checks.proof import Proof
from tactics.checks.solve import NotSettledError
from tactics.engine.advisor import Advisor


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofKind:
    """A proof by name. is_deep: it looks for what could be left out, and takes longer."""

    name: Kind
    find: Callable[[Proof], Iterator[Step]]
    is_deep: bool = False


PROOFS: tuple[ProofKind, ...] = (
    ProofKind(name=Kind.TERM_NEVER_HOLDS, find=find_dead_terms),
    ProofKind(name=Kind.NEVER_APPLIES, find=find_dead_rules),
    ProofKind(name=Kind.GAP, find=find_gaps),
    ProofKind(name=Kind.CONFLICT, find=find_conflicts),
    ProofKind(name=Kind.ALWAYS_OVERRULED, find=find_overruled),
    ProofKind(name=Kind.MISSING_STAGE, find=find_missing_stage),
    ProofKind(name=Kind.UNEVEN_HANDS, find=find_uneven_hands),
    ProofKind(name=Kind.IDLE_CONDITION, find=find_idle, is_deep=True),
)
"""New proofs (of what the ball's flight allows, say) are one module and one line here."""


def prove(advisor: Advisor, *, deep: bool = True) -> Iterator[Step]:
    """Yield what is found and how far it is; whoever stops listening keeps what came so far."""
    proof = Proof(advisor=advisor)
    for kind in PROOFS:
        if deep or not kind.is_deep:
            yield from _settled(kind, proof)


def _settled(kind: ProofKind, proof: Proof) -> Iterator[Step]:
    try:
        yield from kind.find(proof)
    except NotSettledError:
        yield Unsettled(check=kind.name)
