"""The columns of a season worked out from whole verdicts, one ball after the other.

Slow, and short enough to be believed: `season` has to give the same.
"""

from collections.abc import Sequence

import numpy as np

from tactics.model.audit import Audit
from tactics.model.verdict import BROKEN, KEPT, Verdict
from tactics.review.ledger import (
    ABSENT,
    CAUSE_CODES,
    GRADE_CODES,
    KEPT_CODES,
    Ledger,
    sessions_of,
    situations_of,
)
from tactics.review.tallies import is_settled


def ledger_of(audit: Audit) -> Ledger:
    """Return the columns of an audit; rules that only warn count as others do."""
    verdicts = [each.verdict for each in audit.judged]
    balls = tuple(each.ball for each in audit.judged)
    rules = tuple(sorted({rule for v in verdicts for rule in (*v.spoke, *v.charged)}))
    sessions, session = sessions_of(balls)
    return Ledger(
        rule_set=audit.rule_set,
        charts=audit.charts,
        balls=balls,
        not_covered=audit.not_covered,
        assumed=audit.assumed,
        sessions=sessions,
        session=session,
        kept=_codes([KEPT_CODES.index(verdict.kept) for verdict in verdicts]),
        grade=_codes([GRADE_CODES.index(verdict.grade) for verdict in verdicts]),
        situation=situations_of(balls),
        cause=_codes(
            [ABSENT if e.cause is None else CAUSE_CODES.index(e.cause) for e in audit.judged]
        ),
        cause_is_proposed=np.array([e.cause_is_proposed for e in audit.judged], np.bool_),
        parts=_parts(verdicts),
        rules=rules,
        met=_marked(rules, [v.spoke if is_settled(v) else v.charged for v in verdicts]),
        broken=_marked(rules, [verdict.charged for verdict in verdicts]),
        waiting=_marked(
            rules,
            [() if is_settled(v) else [r for r in v.spoke if r not in v.charged] for v in verdicts],
        ),
    )


def _codes(values: Sequence[int]) -> np.ndarray:
    return np.array(values, np.int8)


def _parts(verdicts: Sequence[Verdict]) -> dict[str, np.ndarray]:
    parts: dict[str, np.ndarray] = {}
    for row, verdict in enumerate(verdicts):
        for finding in verdict.findings:
            codes = parts.setdefault(finding.part, np.full(len(verdicts), ABSENT, np.int8))
            codes[row] = 0 if finding.grade in KEPT else 1 if finding.grade in BROKEN else 2
    return parts


def _marked(rules: Sequence[str], each: Sequence[Sequence[str]]) -> np.ndarray:
    places = {rule: place for place, rule in enumerate(rules)}
    marks = np.zeros((len(rules), len(each)), np.bool_)
    for row, named in enumerate(each):
        for rule in named:
            marks[places[rule], row] = True
    return marks
