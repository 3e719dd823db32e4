"""combine.py and matter.py for many balls at once, on lanes. They have to agree ball by ball."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

import numpy as np

from tactics.engine.cells import is_open
from tactics.engine.columns import Columns
from tactics.engine.lanes import Three, Truths, any_of, infer, packed
from tactics.engine.match import NO, YES, test
from tactics.engine.matter import FINDS
from tactics.engine.program import Program, ReadyRule
from tactics.model.rule import Strength
from tactics.model.verdict import Grade


@dataclass(kw_only=True)
class Frame:
    """N balls on lanes: the truth of every rule, and where charted parts meet sets of cells."""

    program: Program
    columns: Columns
    full: int
    truths: Truths
    graded: dict[str, int]
    _touching: dict[tuple[str, int], int] = field(default_factory=dict)
    _beyond: dict[tuple[str, int], int] = field(default_factory=dict)

    def touching(self, part: str, mask: int) -> int:
        """Return the lanes whose charted part touches these cells."""
        key = (part, mask)
        if key not in self._touching:
            bits = self.columns.charted[part].where(lambda cells: bool(cells & mask))
            self._touching[key] = self.graded[part] & packed(bits)
        return self._touching[key]

    def missing(self, part: str, mask: int) -> int:
        """Return the lanes whose charted part lies wholly outside these cells."""
        return self.graded[part] & ~self.touching(part, mask)

    def beyond(self, part: str, mask: int) -> int:
        """Return the lanes whose charted part may lie outside these cells."""
        key = (part, mask)
        if key not in self._beyond:
            bits = self.columns.charted[part].where(lambda cells: bool(cells & ~mask))
            self._beyond[key] = self.graded[part] & packed(bits)
        return self._beyond[key]

    def speakers(self, part: str) -> list[tuple[int, int]]:
        """Return (rule, cells asked for) of every must and should about a part."""
        return [
            (place, mask)
            for place, rule in enumerate(self.program.ready)
            if not rule.is_option_only
            for name, mask in rule.advice
            if name == part
        ]


def frame_of(program: Program, columns: Columns) -> Frame:
    """Return N balls on lanes."""
    full = (1 << columns.count) - 1
    leaves = []
    for leaf in program.leaves:
        column = columns.by_name[leaf.name]
        truths = [test(cells, leaf.mask) for cells in column.masks]
        sure = packed(np.array([truth is YES for truth in truths])[column.codes])
        possible = packed(np.array([truth is not NO for truth in truths])[column.codes])
        leaves.append(Three(sure, possible))
    return Frame(
        program=program,
        columns=columns,
        full=full,
        truths=infer(program, full, tuple(leaves)),
        graded={part: packed(bits) for part, bits in columns.graded.items()},
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What is found on every lane, rules that still depend being idle.

    overall: grade -> lanes; parts: part -> grade -> lanes; spoke, charged: rule -> lanes.
    """

    overall: Mapping[Grade, int]
    parts: Mapping[str, Mapping[Grade, int]]
    spoke: tuple[int, ...]
    charged: tuple[int, ...]


def find(frame: Frame) -> Found:
    """Return the findings of every lane."""
    active = unbeaten(frame)
    options = _Options(frame, active)
    spoke = [0] * len(active)
    charged = [0] * len(active)
    parts = {
        part: _find_part(frame, part, active, options, spoke, charged) for part in frame.graded
    }
    silent = frame.full & ~any_of(lanes for found in parts.values() for lanes in found.values())
    if silent:
        for part, found in parts.items():
            found[Grade.ACCEPTABLE] |= silent & frame.graded[part] & options.for_part(part)
    return Found(
        overall=_overall(frame.full, parts),
        parts=parts,
        spoke=tuple(spoke),
        charged=tuple(charged),
    )


def unbeaten(frame: Frame) -> list[int]:
    """Return for each rule the lanes in which it surely applies and nobody sets it aside."""
    ready = frame.program.ready
    active, beaten = [0] * len(ready), [0] * len(ready)
    for place in frame.program.beating_order:
        active[place] = frame.truths.rules[place].sure & ~beaten[place]
        for other in ready[place].beats:
            beaten[other] |= active[place]
    return active


class _Options:
    """Where the options of active rules are met."""

    def __init__(self, frame: Frame, active: list[int]) -> None:
        self._met: list[tuple[int, frozenset[str], int]] = []
        for rule, lanes in zip(frame.program.ready, active, strict=True):
            for option in rule.options if lanes else ():
                met = lanes
                for part, mask in option:
                    met &= ~frame.missing(part, mask)
                if met:
                    self._met.append((rule.rank, frozenset(p for p, _ in option), met))

    def for_part(self, part: str, rank: int | None = None) -> int:
        """Return where an option about the part is met (by a concern not below `rank`)."""
        return any_of(
            lanes
            for owner_rank, parts, lanes in self._met
            if part in parts and (rank is None or owner_rank <= rank)
        )


def _find_part(
    frame: Frame,
    part: str,
    active: list[int],
    options: _Options,
    spoke: list[int],
    charged: list[int],
) -> dict[Grade, int]:
    found = dict.fromkeys(Grade, 0)
    remaining = frame.graded[part]
    by_rank: dict[int, list[tuple[int, int]]] = {}
    for place, mask in frame.speakers(part):
        by_rank.setdefault(frame.program.ready[place].rank, []).append((place, mask))
    for rank in sorted(by_rank):
        group = by_rank[rank]
        here = remaining & any_of(active[place] for place, _ in group)
        if here:
            remaining &= ~here
            _decide(frame, part, rank, _Deciding(frame, part, here, group, active), options, found,
                    spoke, charged)  # fmt: skip
    return found


class _Deciding:
    """The rules of one concern about one part, in the lanes `here` where it decides."""

    def __init__(
        self, frame: Frame, part: str, here: int, group: list[tuple[int, int]], active: list[int]
    ) -> None:
        ready = frame.program.ready
        self.here = here
        self.musts = _of_strength(ready, group, Strength.MUST)
        self.shoulds = _of_strength(ready, group, Strength.SHOULD)
        self.active = {place: active[place] & here for place, _ in group}
        cells = [1 << place for place in range(frame.program.grid.axes[part].size)]
        must_ok = {cell: here & ~self._outside(self.musts, cell) for cell in cells}
        self.must_clash = here & ~any_of(must_ok.values())
        for place, mask in self.shoulds:
            keepable = any_of(lanes for cell, lanes in must_ok.items() if cell & mask)
            self.active[place] &= keepable | self.must_clash
        left = {c: lanes & ~self._outside(self.shoulds, c) for c, lanes in must_ok.items()}
        self.clash = here & ~any_of(left.values())
        self.meets_musts = any_of(lanes & frame.touching(part, c) for c, lanes in must_ok.items())
        self.meets_all = any_of(lanes & frame.touching(part, c) for c, lanes in left.items())

    def _outside(self, rules: list[tuple[int, int]], cell: int) -> int:
        return any_of(self.active[place] for place, mask in rules if not mask & cell)


def _of_strength(
    ready: tuple[ReadyRule, ...], group: Iterable[tuple[int, int]], strength: Strength
) -> list[tuple[int, int]]:
    return [(p, mask) for p, mask in group if ready[p].rule.strength is strength]


def _decide(
    frame: Frame,
    part: str,
    rank: int,
    deciding: _Deciding,
    options: _Options,
    found: dict[Grade, int],
    spoke: list[int],
    charged: list[int],
) -> None:
    missed = {
        place: deciding.active[place] & frame.missing(part, mask)
        for place, mask in (*deciding.musts, *deciding.shoulds)
    }
    _add_jointly_missed(deciding, missed)
    broken_must = any_of(missed[place] for place, _ in deciding.musts)
    undecided = deciding.must_clash | (deciding.clash & ~broken_must)
    judged = deciding.here & ~undecided
    broken = judged & any_of(missed.values())
    excused = broken & (options.for_part(part, rank) | (options.for_part(part) & ~broken_must))
    bad = broken & ~excused
    found[Grade.UNDECIDED] |= undecided
    found[Grade.SOUND] |= judged & ~broken
    found[Grade.ACCEPTABLE] |= excused
    found[Grade.UNSOUND] |= bad & broken_must
    found[Grade.DOUBTFUL] |= bad & ~broken_must
    for place, lanes in missed.items():
        charged[place] |= bad & lanes
        spoke[place] |= judged & deciding.active[place]


def _add_jointly_missed(deciding: _Deciding, missed: dict[int, int]) -> None:
    """Charge rules that a charted band could keep one by one, but not together."""
    for rules, meets in (
        (deciding.musts, deciding.meets_musts),
        (deciding.shoulds, deciding.meets_all),
    ):
        jointly = deciding.here & ~meets & ~any_of(missed.values())
        for place, _ in rules:
            missed[place] |= jointly & deciding.active[place]


def _overall(full: int, parts: Mapping[str, Mapping[Grade, int]]) -> dict[Grade, int]:
    overall, left = dict.fromkeys(Grade, 0), full
    for grade in (
        Grade.UNSOUND, Grade.UNDECIDED, Grade.DOUBTFUL, Grade.ACCEPTABLE, Grade.SOUND,
    ):  # fmt: skip
        overall[grade] = left & any_of(found[grade] for found in parts.values())
        left &= ~overall[grade]
    overall[Grade.UNDECIDED] |= left
    return overall


@dataclass(frozen=True, slots=True, kw_only=True)
class Mattering:
    """rules: for each rule the lanes in which it is undecided and could change the grade.

    finds: the lanes in which it matters which wing the ball finds.
    """

    rules: list[int]
    finds: int

    @property
    def any(self) -> int:
        """Return the lanes in which anything open matters."""
        return any_of(self.rules) | self.finds


def mattering(frame: Frame) -> Mattering:
    """Return what could change the grade of each lane (see matter.mattering_rules)."""
    contested = {part: _contested(frame, part) for part in frame.graded}
    unspoken = frame.full & ~_surely_spoken(frame)
    widened = {part: lanes | (frame.graded[part] & unspoken) for part, lanes in contested.items()}
    relevant = []
    for rule, truth in zip(frame.program.ready, frame.truths.rules, strict=True):
        parts = {part for answer in (rule.advice, *rule.options) for part, _ in answer}
        relevant.append(truth.possible & any_of(widened[part] for part in parts))
    for place in frame.program.beating_order[::-1]:
        beats = frame.program.ready[place].beats
        relevant[place] |= frame.truths.rules[place].possible & any_of(relevant[b] for b in beats)
    return Mattering(
        rules=[
            lanes & ~truth.sure for lanes, truth in zip(relevant, frame.truths.rules, strict=True)
        ],
        finds=contested[FINDS] & _open_finds(frame),
    )


def _open_finds(frame: Frame) -> int:
    return frame.graded[FINDS] & packed(frame.columns.charted[FINDS].where(is_open))


def _contested(frame: Frame, part: str) -> int:
    asked = [
        (mask, frame.truths.rules[place].possible)
        for place, mask in frame.speakers(part)
        if frame.truths.rules[place].possible
    ]
    if not asked or not frame.graded[part]:
        return 0
    speaking = any_of(possible for _, possible in asked)
    cells = (1 << place for place in range(frame.program.grid.axes[part].size))
    agreed = any_of(
        frame.touching(part, cell)
        & ~any_of(possible for mask, possible in asked if not mask & cell)
        for cell in cells
    )
    contested = frame.graded[part] & speaking & ~agreed
    if part == FINDS:
        opened = _open_finds(frame)
        beyond = any_of(possible & frame.beyond(part, mask) for mask, possible in asked)
        contested = (contested & ~opened) | (opened & beyond)
    return contested


def _surely_spoken(frame: Frame) -> int:
    ready = frame.program.ready
    beatable = [0] * len(ready)
    for rule, truth in zip(ready, frame.truths.rules, strict=True):
        for beaten in rule.beats:
            beatable[beaten] |= truth.possible
    return any_of(
        truth.sure & ~beatable[place] & any_of(frame.graded[part] for part, _ in rule.advice)
        for place, (rule, truth) in enumerate(zip(ready, frame.truths.rules, strict=True))
        if not rule.is_option_only
    )


def possible_beyond_counting(frame: Frame) -> dict[Grade, int]:
    """Return the grades Kleene's logic cannot rule out (see judge.possible_beyond_counting)."""
    breakable = {Strength.MUST: 0, Strength.SHOULD: 0, Strength.MAY: 0}
    for rule, truth in zip(frame.program.ready, frame.truths.rules, strict=True):
        for part, mask in rule.advice:
            breakable[rule.rule.strength] |= truth.possible & frame.beyond(part, mask)
    return {
        Grade.SOUND: frame.full,
        Grade.ACCEPTABLE: frame.full,
        Grade.UNDECIDED: frame.full,
        Grade.DOUBTFUL: breakable[Strength.SHOULD],
        Grade.UNSOUND: breakable[Strength.MUST],
    }
