"""Random situations and choices that can happen, cell by cell, for rule sets of any size."""

from random import Random

from tactics.checks.proof import Proof
from tactics.checks.space import GAME_SITUATION
from tactics.checks.witness import Cells, Witness, tell
from tactics.model.condition import All, Condition, Test
from tactics.model.known import Known, OneOf, Within


def lawful_cells(proof: Proof, rng: Random) -> Cells:
    """Return a random cell for every fact and part that exists, all of them together legal."""
    space = proof.space
    names = sorted(space.scales)
    rng.shuffle(names)
    asked = list(proof.legal)
    cells: dict[str, int | None] = {}
    for name in (GAME_SITUATION, *(each for each in names if each != GAME_SITUATION)):
        tried = [None, *rng.sample(range(space.scales[name].size), space.scales[name].size)]
        for cell in tried:
            literal = space.cell(name, cell)
            if space.clauses.can_hold((*asked, literal)):
                asked.append(literal)
                cells[name] = cell
                break
    return cells


def known_of(proof: Proof, cells: Cells) -> dict[str, Known]:
    return {
        name: proof.space.scales[name].values((cell,))
        for name, cell in cells.items()
        if cell is not None
    }


def witness_of(proof: Proof, cells: Cells) -> Witness:
    return tell(proof.space, cells, ())


def condition_of(known: dict[str, Known], names: list[str]) -> Condition:
    """Return the condition that these facts are as they are."""
    allowed = ((name, known[name]) for name in names)
    return All(tuple(Test(name=n, allowed=a) for n, a in allowed if isinstance(a, OneOf | Within)))
