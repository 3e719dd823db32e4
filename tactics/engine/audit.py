"""Charts -> a verdict on every ball."""

from collections import Counter
from collections.abc import Iterable, Sequence

from tactics.engine.advisor import Advisor
from tactics.engine.cause import cause_of
from tactics.engine.coverage import is_covered, left_open
from tactics.engine.judge_each import judge_each
from tactics.engine.levels import for_level, level_of
from tactics.model.audit import Audit, JudgedBall
from tactics.model.ball import Ball, Chart
from tactics.model.verdict import Verdict


def judge_ball(advisor: Advisor, ball: Ball) -> Verdict:
    """Return the verdict on one ball; its outcome is not looked at."""
    return judge_balls(advisor, [ball])[0]


def audit(charts: Sequence[Chart], advisor: Advisor) -> Audit:
    """Return the audit of one or more charts; verdicts are those of `judge_ball`."""
    balls = [ball for chart in charts for ball in chart.balls]
    covered = [ball for ball in balls if is_covered(advisor.rules, ball.situation)]
    return assemble(charts, advisor, covered, judge_balls(advisor, covered))


def judge_balls(advisor: Advisor, balls: Sequence[Ball]) -> list[Verdict]:
    """Return the verdict on each ball, margins in scatter put into metres for its own level."""
    verdicts: dict[int, Verdict] = {}
    for level, rows in rows_by_level(advisor, balls).items():
        some = [balls[row] for row in rows]
        found = judge_each(
            for_level(advisor, level), [b.situation for b in some], [b.choice for b in some]
        )
        verdicts |= zip(rows, found, strict=True)
    return [verdicts[row] for row in range(len(balls))]


def rows_by_level(advisor: Advisor, balls: Sequence[Ball]) -> dict[str, list[int]]:
    """Return the balls of each level; all under one name where the rules know no levels."""
    if advisor.by_level is None:
        return {"": list(range(len(balls)))}
    groups: dict[str, list[int]] = {}
    for row, ball in enumerate(balls):
        groups.setdefault(level_of(ball.situation), []).append(row)
    return groups


def assemble(
    charts: Sequence[Chart], advisor: Advisor, covered: Sequence[Ball], verdicts: Iterable[Verdict]
) -> Audit:
    """Return the audit of covered balls with their verdicts."""
    covered_ids = set(map(id, covered))
    opened = Counter(fact for ball in covered for fact in left_open(advisor.rules, ball.situation))
    return Audit(
        rule_set=advisor.rules.name,
        charts=tuple(charts),
        judged=tuple(map(judged_ball, covered, verdicts)),
        not_covered=tuple(
            ball for chart in charts for ball in chart.balls if id(ball) not in covered_ids
        ),
        assumed=tuple(sorted(opened.items())),
    )


def judged_ball(ball: Ball, verdict: Verdict) -> JudgedBall:
    """Return a ball with its verdict and the cause of a bad one."""
    cause, proposed = cause_of(ball, verdict)
    return JudgedBall(ball=ball, verdict=verdict, cause=cause, cause_is_proposed=proposed)
