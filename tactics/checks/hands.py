"""Rules that treat a left-hander otherwise than as the mirror image of a right-hander."""

from collections.abc import Iterator
from dataclasses import replace

from tactics.checks.difference import advice_differs, affected_by
from tactics.checks.finding import Finding, Kind, Step, Unconfirmed
from tactics.checks.proof import Proof
from tactics.checks.space import Space
from tactics.checks.voices import Voices
from tactics.checks.witness import Witness, ordinary_cells, tell
from tactics.model.rule import Rule
from tactics.problem import Severity

_TURNED = ("own hand", "opponent hand", "serve side")


def mirrored(space: Space) -> Space:
    """Return the space as seen in a mirror: both hands and the serve side change places.

    All else is told as forehand or backhand side, which a mirror leaves alone.
    """
    turned = {
        name: replace(scale, literals=scale.literals[::-1])
        for name, scale in space.scales.items()
        if name in _TURNED
    }
    return replace(space, scales={**space.scales, **turned})


def find_uneven_hands(proof: Proof) -> Iterator[Step]:
    """Yield a finding for each rule on account of which the mirrored advice is another one."""
    if not set(_TURNED) & proof.space.scales.keys():
        return
    here = proof.voices
    there = Voices(space=mirrored(proof.space), rules=proof.rules)
    even: list[int] = []
    for rule in sorted(proof.rules.rules, key=lambda rule: rule.id):
        turned = proof.space.clauses.differs(here.active[rule.id], there.active[rule.id])
        differs = advice_differs(proof.space, here, there, affected_by(proof.rules, rule))
        goal = (there.covered, differs, turned, *even)
        if proof.can_hold(*goal):
            even.append(-turned)
            yield _finding(proof, rule, goal)


def _finding(proof: Proof, rule: Rule, goal: tuple[int, ...]) -> Step:
    cells = ordinary_cells(proof.space, (proof.voices.covered, *goal))
    if cells is None:
        return Unconfirmed(check=Kind.UNEVEN_HANDS, rules=(rule.id,))
    witness = tell(proof.space, cells, goal[1:3])
    turned = [name for name in _TURNED if name in cells and cells[name] is not None]
    witness = replace(witness, telling=tuple(dict.fromkeys((*witness.telling, *turned))))
    if not _is_uneven(proof, rule, witness):
        return Unconfirmed(check=Kind.UNEVEN_HANDS, rules=(rule.id,))
    return Finding(
        kind=Kind.UNEVEN_HANDS,
        severity=Severity.WARNING,
        span=rule.span,
        rules=(rule.id,),
        parts=tuple(part for part, _ in rule.advice),
        witnesses=(witness,),
    )


def _is_uneven(proof: Proof, rule: Rule, witness: Witness) -> bool:
    """Say whether the evaluator, too, lets the rule speak on one side of the mirror only."""
    seen = proof.replay(witness)
    other = proof.replay(replace(witness, situation=witness.situation.mirrored()))
    return proof.is_real(witness) and (rule.id in seen.active) != (rule.id in other.active)
