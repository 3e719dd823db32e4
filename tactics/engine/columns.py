"""Balls -> columns of small numbers, with everything that follows from other facts filled in."""

from array import array
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from tactics.engine.advisor import Advisor
from tactics.engine.cells import Axis
from tactics.engine.derive import DERIVED, FINDS_RESTS_ON, finds, side_of
from tactics.engine.matter import FINDS
from tactics.model.choice import Choice
from tactics.model.known import NOT_APPLICABLE, NOT_SEEN, Known, OneOf, Within, word
from tactics.model.situation import Situation
from tactics.model.trait import Trait

Codes = NDArray[np.int32]
UNSEEN, ABSENT, UNSEEN_OR_ABSENT = 0, 1, 2


class Column:
    """One fact or part of N balls: a code a ball, and what each code stands for."""

    def __init__(self, axis: Axis, count: int) -> None:
        """Start with nothing seen."""
        self.axis = axis
        self.codes: Codes = np.zeros(count, np.int32)
        self.values: list[Known] = [NOT_SEEN, NOT_APPLICABLE, NOT_SEEN]
        self.masks: list[int] = [axis.everything, axis.absent, axis.everything | axis.absent]
        self.codes_by_id: dict[int, int] = {}
        self._alive: list[Known] = []
        self._by_value: dict[Known, int] = {NOT_SEEN: UNSEEN, NOT_APPLICABLE: ABSENT}

    def code_of(self, known: Known) -> int:
        """Return the code of a value, a new one where it has none yet."""
        code = self.codes_by_id.get(id(known))
        if code is None:
            code = self._by_value.get(known)
            if code is None:
                code = self._by_value[known] = len(self.values)
                self.values.append(known)
                self.masks.append(self.axis.possible(known))
            self.codes_by_id[id(known)] = code
            self._alive.append(known)  # an id is only good while its value lives
        return code

    def code_of_cells(self, mask: int) -> int:
        """Return the code of a set of cells."""
        if mask == self.masks[UNSEEN]:
            return UNSEEN
        if mask == self.masks[ABSENT]:
            return ABSENT
        if mask == self.masks[UNSEEN_OR_ABSENT]:
            return UNSEEN_OR_ABSENT
        if mask & self.axis.absent:
            return self._code_beside_absent(mask)
        return self.code_of(self.axis.allowed_of(mask))

    def _code_beside_absent(self, mask: int) -> int:
        if mask in self.masks:
            return self.masks.index(mask)
        self.values.append(NOT_SEEN)
        self.masks.append(mask)
        return len(self.masks) - 1

    def where(self, says: Callable[[int], bool]) -> NDArray[np.bool_]:
        """Return for each ball whether its cells pass `says`."""
        table = np.fromiter((says(mask) for mask in self.masks), np.bool_, len(self.masks))
        picked: NDArray[np.bool_] = table[self.codes]
        return picked

    def rows(self, which: NDArray[np.intp]) -> "Column":
        """Return a column with these balls only (a ball may come several times)."""
        other = Column(self.axis, 0)
        other.codes = self.codes[which]
        other.values, other.masks = self.values, self.masks
        other.codes_by_id, other._by_value = self.codes_by_id, self._by_value
        other._alive = self._alive
        return other

    def with_codes(self, codes: Codes) -> "Column":
        """Return a column of other balls with these codes, which mean the same."""
        other = self.rows(np.arange(0))
        other.codes = codes
        return other


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """All facts and parts of N balls, by folded name, as conditions see them.

    charted: the parts as they are graded: a charted band stays whole there, even where a
    condition about it is settled one way and the other. graded: part -> whether it is graded.
    """

    count: int
    by_name: dict[str, Column]
    charted: dict[str, Column]
    graded: dict[str, NDArray[np.bool_]]

    def rows(self, which: NDArray[np.intp]) -> "Columns":
        """Return the same for some of the balls (a ball may come several times)."""
        by_name = {name: column.rows(which) for name, column in self.by_name.items()}
        return Columns(
            count=len(which),
            by_name=by_name,
            charted={part: by_name[part] for part in self.charted},
            graded={part: bits[which] for part, bits in self.graded.items()},
        )


def columns_of(
    advisor: Advisor, situations: Sequence[Situation], choices: Sequence[Choice]
) -> Columns:
    """Return the columns of balls, in their order, as `judge_ball` sees each of them."""
    axes, words = advisor.program.grid.axes, advisor.vocabulary
    facts, parts = ({t.folded: axes[t.folded] for t in some} for some in (words.facts, words.parts))
    by_fact = _entered(facts, situations, lambda situation: situation.facts)
    by_part = _entered(parts, choices, lambda choice: choice.parts)
    both = {**by_fact, **by_part}
    columns = {name: both[name] for name in axes if name in both}
    for fact, allowed in advisor.rules.applies_to:
        if isinstance(allowed, OneOf | Within):
            _fill(columns[fact], allowed)
    for trait in words.facts:
        if trait.unset:
            _fill(columns[trait.folded], word(trait.unset))
    for fact, sources, derive in DERIVED:
        _derive(columns, fact, sources, derive)
    _work_out_finds(columns)
    _mark_absent(columns, words.facts)
    return Columns(
        count=len(situations),
        by_name=columns,
        charted={trait.folded: columns[trait.folded] for trait in words.parts},
        graded=_graded(columns, words.parts),
    )


Thing = TypeVar("Thing")


def _entered(
    axes: Mapping[str, Axis],
    things: Sequence[Thing],
    pairs_of: Callable[[Thing], tuple[tuple[str, Known], ...]],
) -> dict[str, Column]:
    """Return the columns of many things; one that comes again and again is written once."""
    distinct = {id(thing): thing for thing in things}
    columns = {name: Column(axis, len(distinct)) for name, axis in axes.items()}
    _enter(columns, map(pairs_of, distinct.values()))
    if len(distinct) < len(things):
        places = {key: place for place, key in enumerate(distinct)}
        which = np.array([places[id(thing)] for thing in things], np.intp)
        for column in columns.values():
            column.codes = column.codes[which]
    return columns


def _enter(columns: Mapping[str, Column], rows: Iterable[tuple[tuple[str, Known], ...]]) -> None:
    """Write the values of every ball into the columns: the one loop over all cells of a chart."""
    buffers = {name: array("i", column.codes.tobytes()) for name, column in columns.items()}
    entries = {
        name: (buffers[name], column.codes_by_id, column.code_of)
        for name, column in columns.items()
    }
    for place, pairs in enumerate(rows):
        for name, known in pairs:
            entry = entries.get(name)
            if entry is not None:
                buffer, by_id, code_of = entry
                code = by_id.get(id(known))
                buffer[place] = code_of(known) if code is None else code
    for name, column in columns.items():
        column.codes = np.array(buffers[name], np.int32)


def _fill(column: Column, known: Known) -> None:
    column.codes[column.codes == UNSEEN] = column.code_of(known)


def _derive(
    columns: Mapping[str, Column],
    fact: str,
    sources: tuple[str, ...],
    derive: Callable[[dict[str, Known]], Known | None],
) -> None:
    """Fill a fact in where it was not seen, once for each different set of sources."""
    target = columns[fact]
    open_rows = np.flatnonzero(target.codes == UNSEEN)
    which, combinations = _different([columns[name] for name in sources], open_rows)
    found = []
    for values in combinations:
        known = derive(dict(zip(sources, values, strict=True)))
        found.append(UNSEEN if known is None else target.code_of(known))
    target.codes[open_rows] = np.array(found, np.int32)[which] if found else 0


def _different(
    columns: Sequence[Column], rows: NDArray[np.intp]
) -> tuple[NDArray[np.intp], list[tuple[Known, ...]]]:
    """Return for each row the number of its combination of values, and the combinations."""
    key = np.zeros(len(rows), np.int64)
    for column in columns:
        key = key * len(column.values) + column.codes[rows]
    unique, first, which = np.unique(key, return_index=True, return_inverse=True)
    combinations = [
        tuple(column.values[column.codes[rows[place]]] for column in columns) for place in first
    ]
    assert len(unique) == len(combinations)
    return which.astype(np.intp), combinations


def _work_out_finds(columns: Mapping[str, Column]) -> None:
    target = columns[FINDS]
    width = _sides_only(columns["court width"])
    sources = [target, columns["direction"]]
    sources += [width if name == "court width" else columns[name] for name in FINDS_RESTS_ON]
    rows = np.flatnonzero(target.codes <= UNSEEN_OR_ABSENT)
    which, combinations = _different(sources, rows)
    found = []
    for charted, direction, *facts in combinations:
        choice = Choice.of({FINDS: charted, "direction": direction})
        situation = Situation.of(zip(FINDS_RESTS_ON, facts, strict=True))
        found.append(target.code_of(finds(choice, situation)))
    target.codes[rows] = np.array(found, np.int32)[which] if found else 0


def _sides_only(width: Column) -> Column:
    """Return the widths with all values alike that lie on the same side of the court."""
    representatives: dict[frozenset[str], int] = {}
    table = [
        representatives.setdefault(side_of(value), code) for code, value in enumerate(width.values)
    ]
    coarse = width.rows(np.arange(len(width.codes)))
    coarse.codes = np.array(table, np.int32)[width.codes]
    return coarse


def _mark_absent(columns: Mapping[str, Column], facts: Sequence[Trait]) -> None:
    """Facts that do not exist in a ball's game situation are not applicable."""
    phase = columns["game situation"]
    for trait in facts:
        if trait.absent_in:
            absent = phase.axis.mask_of(OneOf(trait.absent_in))
            column = columns[trait.folded]
            unseen = column.codes == UNSEEN
            inside, outside = (
                np.array([bool(_phases(phase, mask) & side) for mask in phase.masks])[phase.codes]
                for side in (absent, ~absent)
            )
            column.codes[unseen & inside] = UNSEEN_OR_ABSENT
            column.codes[unseen & inside & ~outside] = ABSENT


def _phases(phase: Column, mask: int) -> int:
    """Return the game situations of a set of cells; without any, all are possible."""
    return mask & phase.axis.everything or phase.axis.everything


def _graded(columns: Mapping[str, Column], parts: Sequence[Trait]) -> dict[str, NDArray[np.bool_]]:
    restricted = columns["restricted today"]
    yes = restricted.axis.mask_of(word("yes"))
    is_value = restricted.codes > UNSEEN_OR_ABSENT
    spared = is_value & restricted.where(lambda mask: bool(mask & yes))
    graded = {}
    for trait in parts:
        charted = columns[trait.folded].codes > UNSEEN_OR_ABSENT
        graded[trait.folded] = charted & ~spared if trait.effort else charted
    return graded
