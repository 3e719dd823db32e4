"""The few balls of a season that are shown, with their whole verdicts."""

from collections.abc import Iterable

from tactics.engine.advisor import Advisor
from tactics.engine.audit import judge_balls, judged_ball
from tactics.model.audit import JudgedBall
from tactics.review.ledger import Ledger


def judged_rows(
    ledger: Ledger, advisor: Advisor, rows: Iterable[int]
) -> list[tuple[int, JudgedBall]]:
    """Return (row, ball with its whole verdict), in the order asked for."""
    wanted = [int(row) for row in rows]
    balls = [ledger.balls[row] for row in wanted]
    verdicts = judge_balls(advisor, balls)
    return list(zip(wanted, map(judged_ball, balls, verdicts), strict=True))
