"""Many charts at once: the same columns as from whole verdicts, many times faster."""

from collections import Counter
from collections.abc import Sequence

import numpy as np

from tactics.engine.advisor import Advisor
from tactics.engine.audit import rows_by_level
from tactics.engine.batch import GRADES, SILENT, GradeBits, Verdicts, grades_in, judge_frame
from tactics.engine.cause import cause_of
from tactics.engine.columns import columns_of
from tactics.engine.coverage import is_covered, left_open
from tactics.engine.lane_judge import frame_of
from tactics.engine.levels import for_level
from tactics.engine.settle import overall
from tactics.model.ball import Ball, Chart
from tactics.model.known import NOT_SEEN
from tactics.model.verdict import BROKEN, KEPT, Finding, Grade, Kept, Verdict
from tactics.review.ledger import (
    ABSENT,
    CAUSE_CODES,
    GRADE_CODES,
    KEPT_CODES,
    Codes,
    Ledger,
    Marks,
    sessions_of,
    situations_of,
)
from tactics.review.left_alone import left_alone, only_warns
from tactics.review.tallies import is_settled

_POSSIBLE = [grades_in(bits) for bits in range(1 << len(GRADES))]


def season(charts: Sequence[Chart], advisor: Advisor) -> Ledger:
    """Return every covered ball of the charts, judged as `judge_ball` judges it."""
    every = [ball for chart in charts for ball in chart.balls]
    is_in = [is_covered(advisor.rules, ball.situation) for ball in every]
    balls = tuple(ball for ball, covered in zip(every, is_in, strict=True) if covered)
    opened = Counter(fact for ball in balls for fact in left_open(advisor.rules, ball.situation))
    verdicts, alone = _judged(advisor, balls)
    sessions, session = sessions_of(balls)
    grade = _by_bits(verdicts.possible, [GRADE_CODES.index(_grade(g)) for g in _POSSIBLE])
    cause, proposed = _causes(balls, verdicts, grade)
    settled = _by_bits(verdicts.possible, [is_settled(_only(g)) for g in _POSSIBLE]) > 0
    return Ledger(
        rule_set=advisor.rules.name,
        charts=tuple(charts),
        balls=balls,
        not_covered=tuple(b for b, covered in zip(every, is_in, strict=True) if not covered),
        assumed=tuple(sorted(opened.items())),
        sessions=sessions,
        session=session,
        kept=_by_bits(verdicts.possible, [_kept_code(_only(g).kept) for g in _POSSIBLE]),
        grade=grade,
        situation=situations_of(balls),
        cause=cause,
        cause_is_proposed=proposed,
        parts={part: _part_codes(bits) for part, bits in verdicts.parts.items()},
        rules=tuple(ready.rule.id for ready in advisor.program.ready),
        met=verdicts.charged | ((verdicts.spoke | alone) & settled),
        broken=verdicts.charged,
        waiting=verdicts.spoke & ~verdicts.charged & ~settled,
        warnings=frozenset(
            ready.rule.id for ready in advisor.program.ready if only_warns(ready, advisor.program)
        ),
    )


def _judged(advisor: Advisor, balls: Sequence[Ball]) -> tuple[Verdicts, Marks]:
    """Return the verdicts, each by the margins of its own level, and warnings left alone."""
    groups = rows_by_level(advisor, balls)
    if len(groups) == 1:
        return _judged_alike(for_level(advisor, next(iter(groups))), balls)
    whole, alone = _nothing(advisor, len(balls))
    for level, rows in groups.items():
        some = np.array(rows, np.intp)
        found, left = _judged_alike(for_level(advisor, level), [balls[row] for row in rows])
        whole.possible[some] = found.possible
        for part, bits in found.parts.items():
            whole.parts[part][some] = bits
        whole.spoke[:, some], whole.charged[:, some] = found.spoke, found.charged
        alone[:, some] = left
    return whole, alone


def _judged_alike(advisor: Advisor, balls: Sequence[Ball]) -> tuple[Verdicts, Marks]:
    columns = columns_of(advisor, [b.situation for b in balls], [b.choice for b in balls])
    frame = frame_of(advisor.program, columns)
    return judge_frame(frame), left_alone(frame)


def _nothing(advisor: Advisor, count: int) -> tuple[Verdicts, Marks]:
    shape = (len(advisor.program.ready), count)
    parts = {trait.folded: np.zeros(count, np.uint8) for trait in advisor.vocabulary.parts}
    verdicts = Verdicts(
        program=advisor.program,
        possible=np.zeros(count, np.uint8),
        parts=parts,
        spoke=np.zeros(shape, np.bool_),
        charged=np.zeros(shape, np.bool_),
    )
    return verdicts, np.zeros(shape, np.bool_)


def _by_bits(bits: GradeBits, table: Sequence[int]) -> Codes:
    return np.array(table, np.int8)[bits]


def _grade(possible: frozenset[Grade]) -> Grade:
    return overall(possible) if possible else Grade.UNDECIDED


def _only(possible: frozenset[Grade]) -> Verdict:
    return Verdict(grade=_grade(possible), possible=possible, findings=())


def _kept_code(kept: Kept) -> int:
    return KEPT_CODES.index(kept)


def _part_grade(bits: int) -> Grade | None:
    """Return the grade of one part's finding, as `settle` gives it; None where there is none."""
    if bits in (0, SILENT):
        return None
    grades = grades_in(bits)
    if bits & SILENT and not grades <= KEPT:
        grades |= {Grade.SOUND}
    return overall(grades)


def _part_codes(bits: GradeBits) -> Codes:
    table = np.full(2 * SILENT, ABSENT, np.int8)
    for number in range(2 * SILENT):
        grade = _part_grade(number)
        if grade is not None:
            kept = Kept.YES if grade in KEPT else Kept.NO if grade in BROKEN else Kept.OPEN
            table[number] = _kept_code(kept)
    return table[bits]


def _causes(balls: Sequence[Ball], verdicts: Verdicts, grade: Codes) -> tuple[Codes, Marks]:
    """Return each ball's cause, and whether it is only proposed.

    A proposal rests on the grade of the choice and on which parts were worst, so that much of a
    verdict is put together here and no more.
    """
    cause = np.full(len(balls), ABSENT, np.int8)
    proposed = np.zeros(len(balls), np.bool_)
    outlines: dict[tuple[int, ...], Verdict] = {}
    names = tuple(verdicts.parts)
    columns = np.array([verdicts.parts[name] for name in names]).reshape(len(names), len(balls))
    for row, ball in enumerate(balls):
        key = (int(grade[row]), int(verdicts.possible[row]), *columns[:, row].tolist())
        if key not in outlines:
            outlines[key] = _outline(key, names)
        found, is_proposed = cause_of(ball, outlines[key])
        if found is not None:
            cause[row], proposed[row] = CAUSE_CODES.index(found), is_proposed
    return cause, proposed


def _outline(key: tuple[int, ...], names: Sequence[str]) -> Verdict:
    grade, possible, *bits = key
    graded = ((name, _part_grade(each)) for name, each in zip(names, bits, strict=True))
    return Verdict(
        grade=GRADE_CODES[grade],
        possible=_POSSIBLE[possible],
        findings=tuple(
            Finding(part=name, grade=found, charted=NOT_SEEN, wanted=None, rules=())
            for name, found in graded
            if found is not None
        ),
    )
