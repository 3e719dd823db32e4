"""Whole charts at once, with the full verdict on every ball.

Most balls have nothing open that matters: for those the rules that apply come from the lanes, and
balls alike share one verdict. Only the rest are judged one by one.
"""

from collections.abc import Sequence

import numpy as np

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.columns import Columns, columns_of
from tactics.engine.combine import find, worst
from tactics.engine.coverage import as_covered
from tactics.engine.judge import judge
from tactics.engine.lane_judge import Frame, frame_of, mattering, unbeaten
from tactics.engine.lanes import stacked, unpacked
from tactics.engine.settle import Completion, settle
from tactics.model.choice import Choice
from tactics.model.situation import Situation
from tactics.model.verdict import Verdict


def judge_each(
    advisor: Advisor, situations: Sequence[Situation], choices: Sequence[Choice]
) -> list[Verdict]:
    """Return the verdict on every choice, in order: what `judge_ball` gives, many times faster."""
    if not situations:
        return []
    columns = columns_of(advisor, situations, choices)
    frame = frame_of(advisor.program, columns)
    shared = _Shared(frame)
    is_open = unpacked(mattering(frame).any, columns.count)
    return [
        _one_by_one(advisor, situations[row], choices[row]) if is_open[row] else shared.verdict(row)
        for row in range(columns.count)
    ]


def _one_by_one(advisor: Advisor, situation: Situation, choice: Choice) -> Verdict:
    return judge(choice, advise(advisor, as_covered(advisor.rules, situation)))


class _Shared:
    """Verdicts of balls with nothing open, one for all balls that are alike."""

    def __init__(self, frame: Frame) -> None:
        self._program, self._columns = frame.program, frame.columns
        active = stacked(unbeaten(frame), frame.columns.count)
        self._active = active
        self._keys = np.packbits(active, axis=0).T.copy()
        self._parts = [part for part, bits in frame.columns.graded.items() if bits.any()]
        self._made: dict[tuple[bytes, tuple[int, ...]], Verdict] = {}

    def verdict(self, row: int) -> Verdict:
        """Return the verdict on one ball."""
        codes = tuple(self._code(part, row) for part in self._parts)
        key = (self._keys[row].tobytes(), codes)
        if key not in self._made:
            self._made[key] = self._make(row)
        return self._made[key]

    def _code(self, part: str, row: int) -> int:
        columns: Columns = self._columns
        return int(columns.charted[part].codes[row]) if columns.graded[part][row] else -1

    def _make(self, row: int) -> Verdict:
        charted = {
            part: self._columns.charted[part]
            for part in self._parts
            if self._columns.graded[part][row]
        }
        masks = {part: column.masks[column.codes[row]] for part, column in charted.items()}
        active = tuple(int(place) for place in np.flatnonzero(self._active[:, row]))
        findings = tuple(find(self._program, active, masks))
        only = Completion(given={}, findings=findings, grade=worst(findings), applying=active)
        known = {part: column.values[column.codes[row]] for part, column in charted.items()}
        return settle(self._program, known, [only], {})
