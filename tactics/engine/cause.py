"""What a bad ball is put down to: the coach's word, or a proposal that says it is one."""

from tactics.model.ball import Ball
from tactics.model.choice import Cause
from tactics.model.known import Known, OneOf, Within
from tactics.model.verdict import BROKEN, KEPT, Grade, Verdict

_READY_PARTS = frozenset(("afterwards", "stance"))
_LATE = frozenset(("late", "emergency"))
_FAR_STEPS = 5.0


def cause_of(ball: Ball, verdict: Verdict) -> tuple[Cause | None, bool]:
    """Return the cause of a bad ball and whether it is only proposed; None for a good one."""
    if ball.cause is not None:
        return ball.cause, False
    proposed = propose(ball, verdict)
    return proposed, proposed is not None


def propose(ball: Ball, verdict: Verdict) -> Cause | None:
    """Return a cause that fits grade, execution, time and position; None where nothing is wrong.

    A ball not played, or only what came after it, is charged to effort, feet that were late to
    position. A shot that broke the rules late or far from the ball is charged to position, one
    that ignored an opponent at the net to reading, any other to deciding. A choice that kept
    them and went wrong is charged to luck, to the physical side or to execution.
    """
    if verdict.grade in BROKEN:
        return _behind_a_bad_choice(ball, verdict)
    if verdict.grade in KEPT and ball.outcome.as_intended == "no":
        return _behind_a_missed_ball(ball)
    return None


def _behind_a_bad_choice(ball: Ball, verdict: Verdict) -> Cause:
    gravest = _gravest_parts(verdict)
    if "response" in gravest or gravest <= _READY_PARTS:
        return Cause.POSITION if gravest == {"stance"} else Cause.EFFORT
    if _is(ball.situation.get("game situation"), "opponent at net") and _is_in_trouble(ball):
        return Cause.READ
    return Cause.POSITION if _is_in_trouble(ball) else Cause.DECIDE


def _gravest_parts(verdict: Verdict) -> frozenset[str]:
    """Return the parts with the worst finding of a choice that broke the rules."""
    for grade in (Grade.UNSOUND, Grade.DOUBTFUL):
        parts = frozenset(f.part for f in verdict.findings if f.grade is grade)
        if parts:
            return parts
    return frozenset()


def _behind_a_missed_ball(ball: Ball) -> Cause:
    if ball.outcome.disturbed not in ("", "no"):
        return Cause.UNLUCKY
    if _is(ball.situation.get("restricted today"), "yes"):
        return Cause.PHYSICAL
    return Cause.EXECUTE


def _is_in_trouble(ball: Ball) -> bool:
    time, balance = ball.situation.get("time"), ball.situation.get("balance")
    steps = ball.situation.get("steps to the ball")
    late = isinstance(time, OneOf) and time.words <= _LATE
    far = isinstance(steps, Within) and steps.intervals[0].low[0] >= _FAR_STEPS
    return late or far or _is(balance, "stretched") or _is(balance, "jammed")


def _is(known: Known, name: str) -> bool:
    return isinstance(known, OneOf) and known.words == {name}
