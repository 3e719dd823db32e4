"""From "this can happen" to a situation a coach would describe: ordinary wherever it may be."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from tactics.checks.clauses import is_in
from tactics.checks.scale import Scale
from tactics.checks.space import GAME_SITUATION, Space
from tactics.model.choice import Choice
from tactics.model.known import Known, OneOf, Within
from tactics.model.situation import Situation
from tactics.model.trait import Role, Trait

Cells = Mapping[str, int | None]
"""Fact or part -> the cell of its value, None where it does not exist."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Witness:
    """A situation (and a choice) that shows a problem, whole as far as rules can tell apart.

    telling: the facts and parts that make the difference; all others are those of an ordinary
    ball, or do not matter. The game situation is always worth telling.
    """

    situation: Situation
    choice: Choice
    telling: tuple[str, ...]

    @property
    def told(self) -> Situation:
        """Return the facts worth telling only."""
        return Situation.of(
            (name, known) for name, known in self.situation.facts if name in self.telling
        )

    @property
    def told_choice(self) -> Choice:
        """Return the parts of the choice worth telling only."""
        return Choice.of((name, known) for name, known in self.choice.parts if name in self.telling)


@dataclass(frozen=True, slots=True, kw_only=True)
class Common:
    """What all situations of a finding have in common, where that says anything.

    terms: named situations that all of them are, beyond what the facts say.
    """

    facts: Situation
    parts: Choice
    terms: tuple[str, ...] = ()


def ordinary_cells(space: Space, goal: Sequence[int]) -> Cells | None:
    """Return the most ordinary legal situation in which the goal holds, None where none does.

    Facts that a coach sees at a glance are the last to be kept ordinary, so a witness differs
    in those rather than in what is rarely charted.
    """
    asked = [*space.legal, *goal]
    if not space.clauses.can_hold(asked):
        return None
    found = space.clauses.found()
    cells: dict[str, int | None] = {}
    for name in _most_ordinary_first(space):
        for cell in _preferred(space, name, cells):
            literal = space.cell(name, cell)
            if not is_in(found, literal):
                if not space.clauses.can_hold([*asked, literal]):
                    continue
                found = space.clauses.found()
            asked.append(literal)
            cells[name] = cell
            break
    return cells


def _most_ordinary_first(space: Space) -> list[str]:
    traits = [trait for trait in space.words.traits if trait.folded in space.scales]
    others = [trait for trait in reversed(traits) if trait.folded != GAME_SITUATION]
    ranked = sorted(others, key=lambda trait: (trait.role is not Role.PART, trait.quick))
    return [GAME_SITUATION, *(trait.folded for trait in ranked)]


def _preferred(space: Space, name: str, cells: Cells) -> Iterator[int | None]:
    """Yield the cells of a fact, the ordinary one first, then the nearest to it."""
    scale = space.scales[name]
    usual = ordinary_of(space, scale.trait, _phase(space, cells))
    first = min(usual, default=0)
    order = sorted(
        range(scale.size),
        key=lambda cell: (cell not in usual, scale.is_edge(cell), abs(cell - first), cell),
    )
    yield None
    yield from order


def _phase(space: Space, cells: Cells) -> str:
    cell = cells.get(GAME_SITUATION)
    return "" if cell is None else space.scales[GAME_SITUATION].trait.words[cell].name


def ordinary_of(space: Space, trait: Trait, phase: str) -> frozenset[int]:
    """Return the cells of an everyday ball in a game situation; none where nothing is ordinary."""
    known = trait.ordinary_value(phase)
    return (
        space.scales[trait.folded].cells_of(known)
        if isinstance(known, OneOf | Within)
        else (frozenset())
    )


def tell(space: Space, cells: Cells, holds: Sequence[int]) -> Witness:
    """Return the witness of cells in which all of `holds` hold, with what is worth telling."""
    return Witness(
        situation=_situation(space, cells),
        choice=_choice(space, cells),
        telling=_telling(space, cells, holds),
    )


def _telling(space: Space, cells: Cells, holds: Sequence[int]) -> tuple[str, ...]:
    """Return the facts without which `holds` would not be sure, in the vocabulary's order.

    A fact that is left out may be anything. A part of the choice is left out where it alone may
    be anything: it takes an odd pair (a smash at a body) to make a difference then.
    """
    fails = -space.clauses.every(holds)
    phase = _phase(space, cells)
    unusual = {
        name
        for name, cell in cells.items()
        if cell is not None and cell not in ordinary_of(space, space.scales[name].trait, phase)
    }
    fixed = {name: space.cell(name, cell) for name, cell in cells.items()}
    for name in _most_ordinary_first(space):
        if name != GAME_SITUATION and name in unusual:
            others = [literal for other, literal in fixed.items() if other != name]
            if not space.clauses.can_hold([*space.legal, *others, fails]):
                unusual.discard(name)
                if _is_fact(space.scales[name]):
                    del fixed[name]
    unusual.add(GAME_SITUATION)
    return tuple(trait.folded for trait in space.words.traits if trait.folded in unusual)


def _situation(space: Space, cells: Cells) -> Situation:
    return Situation.of(_values(space, cells, Role.FACT))


def _choice(space: Space, cells: Cells) -> Choice:
    return Choice.of(_values(space, cells, Role.PART))


def _values(space: Space, cells: Cells, role: Role) -> Iterator[tuple[str, Known]]:
    for name, cell in cells.items():
        scale = space.scales[name]
        if cell is not None and scale.trait.role is role:
            yield name, scale.values((cell,))


def common(
    space: Space, goal: Sequence[int], always: Sequence[int], terms: Mapping[str, int]
) -> Common:
    """Return what every legal situation of the goal has in common, beyond what always holds.

    Compared is with all legal situations in the same game situations in which `always` holds;
    what follows from the rest is left out.
    """
    inside = _reached(space, (*always, *goal))
    phases = inside[GAME_SITUATION]
    around = (*space.legal, *always, space.scales[GAME_SITUATION].literal(phases, space.clauses))
    if around not in space.reached:
        space.reached[around] = _reached(space, around)
    outside = space.reached[around]
    told = {
        name: space.scales[name].literal(cells, space.clauses)
        for name, cells in inside.items()
        if cells and cells < outside[name]
    }
    for name in _most_ordinary_first(space):
        if name in told:
            others = [literal for other, literal in told.items() if other != name]
            if not space.clauses.can_hold([*around, *others, -told[name]]):
                del told[name]
    named = _terms_of(space, (*always, *goal), (*around, *told.values()), terms)
    if len(phases) < space.scales[GAME_SITUATION].size:
        told[GAME_SITUATION] = 0
    values = {name: space.scales[name].values(inside[name]) for name in told}
    facts = {name: known for name, known in values.items() if _is_fact(space.scales[name])}
    parts = {name: known for name, known in values.items() if name not in facts}
    return Common(facts=Situation.of(facts), parts=Choice.of(parts), terms=named)


def _terms_of(
    space: Space, goal: Sequence[int], told: Sequence[int], terms: Mapping[str, int]
) -> tuple[str, ...]:
    """Return the terms that hold throughout the goal and do not follow from what is told."""
    can_hold = space.clauses.can_hold
    return tuple(
        name
        for name, literal in terms.items()
        if can_hold((*told, -literal)) and not can_hold((*space.legal, *goal, -literal))
    )


def _is_fact(scale: Scale) -> bool:
    return scale.trait.role is Role.FACT


def _reached(space: Space, goal: Iterable[int]) -> dict[str, frozenset[int]]:
    """Return the cells of each fact that occur in some legal situation of the goal."""
    asked = [*space.legal, *goal]
    seen: dict[str, set[int]] = {name: set() for name in space.scales}

    def take_answer() -> None:
        found = space.clauses.found()
        for name, scale in space.scales.items():
            cell = scale.cell_in(found)
            if cell is not None:
                seen[name].add(cell)

    if space.clauses.can_hold(asked):
        take_answer()
        for name, scale in space.scales.items():
            for cell in range(scale.size):
                if cell not in seen[name] and space.clauses.can_hold(
                    [*asked, space.cell(name, cell)]
                ):
                    take_answer()
    return {name: frozenset(cells) for name, cells in seen.items()}
