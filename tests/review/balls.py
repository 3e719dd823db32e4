"""Judged balls for the counting tests."""

from tactics.model.audit import Audit, JudgedBall
from tactics.model.ball import Ball, Chart
from tactics.model.choice import Cause, Choice, Outcome
from tactics.model.known import NOT_SEEN, word
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, Finding, Grade, Reason, Verdict
from tactics.review.ledger import Ledger
from tactics.source import Span
from tests.review.whole_verdicts import ledger_of


def finding(part: str, grade: Grade, *rules: str) -> Finding:
    """Return a finding that was made by these rules."""
    return Finding(part=part, grade=grade, charted=NOT_SEEN, wanted=None, rules=rules)


def judged(
    grade: Grade = Grade.SOUND,
    *,
    possible: frozenset[Grade] | None = None,
    findings: tuple[Finding, ...] = (),
    missing: tuple[str, ...] = (),
    phase: str = "baseline rally",
    lesson: str = "one",
    as_intended: str = "",
    disturbed: str = "no",
    cause: Cause | None = None,
    proposed: bool = False,
    mark: Grade | None = None,
) -> JudgedBall:
    """Return a ball of one lesson with its verdict."""
    verdict = Verdict(
        grade=grade,
        possible=frozenset({grade}) if possible is None else possible,
        findings=findings,
        reason=Reason.FACT_NOT_SEEN if missing else None,
        missing=missing,
        spoke=tuple(dict.fromkeys(rule for each in findings for rule in each.rules)),
        charged=tuple(
            dict.fromkeys(r for each in findings if each.grade in BROKEN for r in each.rules)
        ),
    )
    ball = Ball(
        situation=Situation.of({"game situation": word(phase)} if phase else {}),
        choice=Choice(),
        outcome=Outcome(as_intended=as_intended, disturbed=disturbed),
        lesson=lesson,
        mark=mark,
        span=Span(file="chart.csv", line=2),
    )
    return JudgedBall(ball=ball, verdict=verdict, cause=cause, cause_is_proposed=proposed)


OPEN = frozenset({Grade.SOUND, Grade.DOUBTFUL})
"""What an open ball may come to."""


def counted(*balls: JudgedBall, chart: Chart | None = None) -> Ledger:
    """Return balls as the columns of a season."""
    charts = (chart or Chart(name="c.csv", balls=tuple(each.ball for each in balls)),)
    return ledger_of(Audit(rule_set="any", charts=charts, judged=balls))
