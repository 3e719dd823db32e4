"""Whole charts at once: the same verdicts as ball by ball, as columns of numbers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce

import numpy as np
from numpy.typing import NDArray

from tactics.engine.advisor import Advisor
from tactics.engine.cells import cells_of
from tactics.engine.columns import Column, Columns, columns_of
from tactics.engine.judge import MOST_COMPLETIONS
from tactics.engine.lane_judge import (
    Found,
    Frame,
    Mattering,
    find,
    frame_of,
    mattering,
    possible_beyond_counting,
)
from tactics.engine.lanes import hanging, stacked, unpacked
from tactics.engine.matter import FINDS, grouped
from tactics.engine.program import Program
from tactics.model.choice import Choice
from tactics.model.situation import Situation
from tactics.model.verdict import Grade

GRADES = (Grade.SOUND, Grade.ACCEPTABLE, Grade.DOUBTFUL, Grade.UNSOUND, Grade.UNDECIDED)
SILENT = 1 << len(GRADES)
"""Bit of a part's grades: in some completion nobody speaks about it."""

_LANES_AT_ONCE = 1 << 18

GradeBits = NDArray[np.uint8]
Rows = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdicts:
    """Verdicts on N balls. Bit i of a number stands for GRADES[i].

    possible: shape (N,). parts: part -> shape (N,), grades of its finding over the completions
    (0: not graded, or too many completions to go through). spoke, charged: shape (rules, N), in
    the program's order, as in `Verdict`.
    """

    program: Program
    possible: GradeBits
    parts: dict[str, GradeBits]
    spoke: NDArray[np.bool_]
    charged: NDArray[np.bool_]

    def grades(self, row: int) -> frozenset[Grade]:
        """Return the possible grades of one ball."""
        return grades_in(int(self.possible[row]))


def grades_in(bits: int) -> frozenset[Grade]:
    """Return the grades that a number stands for."""
    return frozenset(grade for place, grade in enumerate(GRADES) if bits >> place & 1)


def judge_all(
    advisor: Advisor, situations: Sequence[Situation], choices: Sequence[Choice]
) -> Verdicts:
    """Return the verdict on every choice, as `judge_ball` gives it, without its explanation."""
    return judge_frame(frame_of(advisor.program, columns_of(advisor, situations, choices)))


def judge_frame(frame: Frame) -> Verdicts:
    """Return the verdict on every ball of a frame."""
    matters = mattering(frame)
    verdicts = _as_verdicts(frame.program, find(frame), frame.columns)
    open_rows = np.flatnonzero(unpacked(matters.any, frame.columns.count))
    if len(open_rows):
        _Completing(frame, matters, open_rows).settle(verdicts)
    return verdicts


def _as_verdicts(program: Program, found: Found, columns: Columns) -> Verdicts:
    count = columns.count
    parts = {}
    for part, by_grade in found.parts.items():
        bits = _bits(by_grade, count)
        bits[(bits == 0) & columns.graded[part]] = SILENT
        parts[part] = bits
    return Verdicts(
        program=program,
        possible=_bits(found.overall, count),
        parts=parts,
        spoke=stacked(found.spoke, count),
        charged=stacked(found.charged, count),
    )


def _bits(by_grade: Mapping[Grade, int], count: int) -> GradeBits:
    bits = np.zeros(count, np.uint8)
    for place, grade in enumerate(GRADES):
        lanes = by_grade[grade]
        if lanes:
            bits |= unpacked(lanes, count).astype(np.uint8) << place
    return bits


class _Completing:
    """The balls with an open fact that matters, completed in every way that differs."""

    def __init__(self, frame: Frame, matters: Mattering, rows: Rows) -> None:
        self.frame, self.matters, self.rows = frame, matters, rows
        self.columns = frame.columns.rows(rows)
        self.sizes: dict[str, NDArray[np.int64]] = {}
        self.choices: dict[str, tuple[NDArray[np.intp], NDArray[np.int32]]] = {}
        for name, tests in self._tests_by_name().items():
            self._group(name, tests)

    def _tests_by_name(self) -> dict[str, list[tuple[int, NDArray[np.bool_]]]]:
        """Return fact or part -> (cells of a test, the open balls that hang on it)."""
        program, count = self.frame.program, self.frame.columns.count
        by_name: dict[str, list[tuple[int, NDArray[np.bool_]]]] = {}
        found = hanging(program, self.frame.truths, self.matters.rules)
        for index in sorted(found):
            leaf = program.leaves[index]
            hangs = unpacked(found[index], count)[self.rows]
            by_name.setdefault(leaf.name, []).append((leaf.mask, hangs))
        if self.matters.finds:
            by_name.setdefault(FINDS, [])
        return {name: by_name[name] for name in program.grid.axes if name in by_name}

    def _group(self, name: str, tests: list[tuple[int, NDArray[np.bool_]]]) -> None:
        """Group the possible cells of one fact for each open ball, as `matter.classes` does."""
        column = self.columns.by_name[name]
        key = column.codes.astype(np.int64)
        apart = np.zeros(len(self.rows), np.bool_)
        if name == FINDS and self.matters.finds:
            apart = unpacked(self.matters.finds, self.frame.columns.count)[self.rows]
        for _, hangs in tests:
            key = key * 2 + hangs
        unique, first, which = np.unique(key * 2 + apart, return_index=True, return_inverse=True)
        groups = [self._classes(column, row, tests, bool(apart[row])) for row in first]
        width = max(len(group) for group in groups)
        table = np.zeros((len(unique), width), np.int32)
        for place, group in enumerate(groups):
            table[place, : len(group)] = group
        self.sizes[name] = np.array([len(group) for group in groups], np.int64)[which]
        self.choices[name] = (which.astype(np.intp), table)

    def _classes(
        self,
        column: Column,
        row: int,
        tests: list[tuple[int, NDArray[np.bool_]]],
        apart: bool,
    ) -> list[int]:
        code = int(column.codes[row])
        asked = [mask for mask, hangs in tests if hangs[row]]
        if apart:
            return [column.code_of_cells(cell) for cell in cells_of(column.masks[code])]
        if not asked:
            return [code]
        return [column.code_of_cells(cells) for cells in grouped(column.masks[code], asked)]

    def settle(self, verdicts: Verdicts) -> None:
        """Write the verdicts of the open balls over what was found with open rules idle."""
        # in floats: a product of many facts may leave the range of whole numbers
        ways = reduce(np.multiply, (size.astype(float) for size in self.sizes.values()))
        beyond = ways > MOST_COMPLETIONS
        self._give_up(verdicts, self.rows[beyond])
        within = np.flatnonzero(~beyond)
        for some in _portions(within, ways[within].astype(np.int64)):
            self._settle_some(verdicts, some, ways[some].astype(np.int64))

    def _give_up(self, verdicts: Verdicts, rows: Rows) -> None:
        if not len(rows):
            return
        cautious = _bits(possible_beyond_counting(self.frame), self.frame.columns.count)
        verdicts.possible[rows] = cautious[rows]
        for bits in verdicts.parts.values():
            bits[rows] = 0
        verdicts.spoke[:, rows] = False
        verdicts.charged[:, rows] = False

    def _settle_some(self, verdicts: Verdicts, some: Rows, ways: NDArray[np.int64]) -> None:
        starts = np.concatenate(([0], np.cumsum(ways)[:-1])).astype(np.intp)
        lane_row = np.repeat(some, ways)
        completed = self.columns.rows(lane_row)
        place = np.arange(len(lane_row)) - np.repeat(starts, ways)
        for name in reversed(self.sizes):
            size = self.sizes[name][lane_row]
            which, table = self.choices[name]
            codes = table[which[lane_row], place % size]
            completed.by_name[name] = completed.by_name[name].with_codes(codes)
            place //= size
        completed.charted[FINDS] = completed.by_name[FINDS]
        found = _as_verdicts(
            self.frame.program, find(frame_of(self.frame.program, completed)), completed
        )
        rows = self.rows[some]
        verdicts.possible[rows] = np.bitwise_or.reduceat(found.possible, starts)
        for part, bits in found.parts.items():
            verdicts.parts[part][rows] = np.bitwise_or.reduceat(bits, starts)
        for target, source in (
            (verdicts.spoke, found.spoke), (verdicts.charged, found.charged),
        ):  # fmt: skip
            target[:, rows] = np.logical_and.reduceat(source, starts, axis=1)


def _portions(rows: Rows, ways: NDArray[np.int64]) -> Iterator[Rows]:
    """Yield the rows in portions that fit into memory once completed."""
    if not len(rows):
        return
    portion = np.cumsum(ways) // _LANES_AT_ONCE
    yield from np.split(rows, np.flatnonzero(np.diff(portion)) + 1)
