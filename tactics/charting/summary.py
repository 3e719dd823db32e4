"""What the rules make of the balls just charted, in few lines."""

from collections import Counter
from collections.abc import Sequence

from tactics.engine.advisor import Advisor
from tactics.engine.audit import judge_ball
from tactics.engine.coverage import is_covered
from tactics.model.ball import Ball
from tactics.model.verdict import BROKEN, Grade, Verdict
from tactics.report.layout import counted, wrapped
from tactics.report.verdicts import GRADE_ORDER, find_rule, finding_text, grade_line

_INDENT = "  "


def verdict_on(ball: Ball, advisor: Advisor) -> Verdict | None:
    """Return the verdict on a ball, or None where the rule set does not speak about such balls."""
    return judge_ball(advisor, ball) if is_covered(advisor.rules, ball.situation) else None


def grade_lines(number: int, ball: Ball, advisor: Advisor) -> tuple[str, ...]:
    """Return grade, one cue and broken findings of a ball; the coach's mark stands beside it.

    The cue comes before the findings: it is what is said on court, and room may be short.
    """
    verdict = verdict_on(ball, advisor)
    if verdict is None:
        return (f"Ball {number}: not covered by this rule set{_own(ball)}",)
    first = wrapped(f"Ball {number}: {grade_line(verdict)}{_own(ball)}", "", _INDENT)
    broken = [each for each in verdict.findings if each.grade in BROKEN]
    findings = [
        text
        for each in broken
        for text in wrapped(
            f"{each.part}: {finding_text(each, advisor.rules)}", _INDENT, _INDENT * 2
        )
    ]
    return (*first, *_cue(verdict, advisor), *findings)


def later_lines(balls: Sequence[Ball], first: int, advisor: Advisor) -> tuple[str, ...]:
    """Return the grade of every ball of a sitting; `first` is the number of its first ball."""
    numbered = enumerate(balls, start=first)
    return tuple(text for number, ball in numbered for text in grade_lines(number, ball, advisor))


def differing_lines(balls: Sequence[Ball], first: int, advisor: Advisor) -> tuple[str, ...]:
    """Return on which balls the coach's own mark and the rules differ; both stay as they are."""
    numbers = [
        str(number)
        for number, ball in enumerate(balls, start=first)
        if _differs(ball, verdict_on(ball, advisor))
    ]
    return wrapped(f"Your mark and the rules differ: ball {', '.join(numbers)}.") if numbers else ()


def _differs(ball: Ball, verdict: Verdict | None) -> bool:
    if ball.mark is None or verdict is None or verdict.grade is Grade.UNDECIDED:
        return False
    return ball.mark is not verdict.grade


def counts_lines(balls: Sequence[Ball], advisor: Advisor) -> tuple[str, ...]:
    """Return how many balls of a sitting got which grade; no shares, as they are few."""
    if not balls:
        return ("No balls were charted.",)
    verdicts = [verdict_on(ball, advisor) for ball in balls]
    grades = Counter(verdict.grade for verdict in verdicts if verdict is not None)
    said = [f"{grades[grade]} {grade}" for grade in GRADE_ORDER if grades[grade]]
    uncovered = sum(verdict is None for verdict in verdicts)
    said += [f"{uncovered} not covered"] if uncovered else []
    return wrapped(f"{counted(len(balls), 'ball')}: {', '.join(said)}.", "", _INDENT)


def _own(ball: Ball) -> str:
    return f". Your mark: {ball.mark}" if ball.mark is not None else ""


def _cue(verdict: Verdict, advisor: Advisor) -> tuple[str, ...]:
    rule = find_rule(advisor.rules, verdict.deciding)
    if rule is None or not rule.cue or verdict.grade not in (*BROKEN, Grade.ACCEPTABLE):
        return ()
    return wrapped(f"Cue: {rule.cue}", _INDENT, _INDENT * 2)
