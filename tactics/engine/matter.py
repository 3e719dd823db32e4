"""What is not known but could change the grade.

A rule that depends on a fact not seen, and that the choice keeps either way, changes nothing:
only rules about a contested part, options for it and whoever could beat those are looked at.
"""

from collections.abc import Mapping, Sequence
from functools import reduce
from operator import and_

from tactics.engine.cells import cells_of, is_open
from tactics.engine.combine import advice_on
from tactics.engine.match import DEPENDS, NO, YES, Truth
from tactics.engine.open_tests import open_leaves
from tactics.engine.program import Program

FINDS = "finds"


def mattering_rules(
    program: Program, truths: Sequence[Truth], charted: Mapping[str, int]
) -> frozenset[int]:
    """Return the undecided rules that could change the grade of this choice."""
    possible = frozenset(place for place, truth in enumerate(truths) if truth is not NO)
    parts = contested_parts(program, possible, charted)
    if not _surely_spoken(program, truths, possible, charted):
        parts = frozenset(charted)
    relevant = {place for place in possible if _touches(program, place, parts)}
    relevant |= _beaters(program, possible, relevant)
    return frozenset(place for place in relevant if truths[place] is DEPENDS)


def contested_parts(
    program: Program, possible: frozenset[int], charted: Mapping[str, int]
) -> frozenset[str]:
    """Return the charted parts that a possible rule may break or on which rules may clash."""
    return frozenset(
        part for part, mask in charted.items() if _is_contested(program, possible, part, mask)
    )


def _is_contested(program: Program, possible: frozenset[int], part: str, mask: int) -> bool:
    asked = [
        wanted
        for place in possible
        if not program.ready[place].is_option_only
        for wanted in [advice_on(program.ready[place], part)]
        if wanted
    ]
    if part == FINDS and is_open(mask):
        return any(mask & ~wanted for wanted in asked)
    return bool(asked) and not reduce(and_, asked, mask)


def _surely_spoken(
    program: Program,
    truths: Sequence[Truth],
    possible: frozenset[int],
    charted: Mapping[str, int],
) -> bool:
    """Say whether a must or should speaks about a charted part under every completion."""
    beatable = {beaten for place in possible for beaten in program.ready[place].beats}
    return any(
        truth is YES
        and place not in beatable
        and not program.ready[place].is_option_only
        and any(part in charted for part, _ in program.ready[place].advice)
        for place, truth in enumerate(truths)
    )


def _touches(program: Program, place: int, parts: frozenset[str]) -> bool:
    rule = program.ready[place]
    return any(part in parts for answer in (rule.advice, *rule.options) for part, _ in answer)


def _beaters(program: Program, possible: frozenset[int], relevant: set[int]) -> set[int]:
    """Return the possible rules that beat a relevant one, or beat a beater, and so on."""
    found = set(relevant)
    while True:
        more = {p for p in possible - found if program.ready[p].beats & found}
        if not more:
            return found
        found |= more


def classes(
    program: Program,
    rules: frozenset[int],
    masks: Mapping[str, int],
    leaves: Sequence[Truth],
    terms: Sequence[Truth],
) -> dict[str, tuple[int, ...]]:
    """Return fact (or part) -> its possible cells, grouped where these rules see no difference.

    Only facts on which one of the rules hangs are listed, in the order of the vocabulary.
    """
    hanging: dict[str, list[int]] = {}
    indexes = frozenset[int]().union(
        *(
            open_leaves(program, node, leaves, terms)
            for place in rules
            for rule in [program.ready[place]]
            for node in (rule.when, rule.unless, rule.choosing)
        )
    )
    for index in sorted(indexes):
        leaf = program.leaves[index]
        hanging.setdefault(leaf.name, []).append(leaf.mask)
    return {
        name: grouped(masks[name], hanging[name]) for name in program.grid.axes if name in hanging
    }


def grouped(mask: int, tests: Sequence[int]) -> tuple[int, ...]:
    """Return the cells of a set, grouped where these tests see no difference."""
    groups: dict[tuple[bool, ...], int] = {}
    for cell in cells_of(mask):
        signature = tuple(bool(cell & test) for test in tests)
        groups[signature] = groups.get(signature, 0) | cell
    return tuple(groups.values())
