"""The balls an audit could not decide, each with what would decide it."""

from collections.abc import Iterator, Sequence

from tactics.model.audit import JudgedBall
from tactics.model.verdict import Kept, Reason, Verdict
from tactics.reading.wording import both
from tactics.report.audit_balls import short_ball
from tactics.report.layout import bullet, counted, wrapped
from tactics.report.verdicts import grades_between
from tactics.review.open_facts import open_facts, undecided


def next_fact_lines(judged: Sequence[JudgedBall]) -> tuple[str, ...]:
    """Return the fact worth charting next, with the balls it matters on."""
    return tuple(
        line
        for best in open_facts(judged)[:1]
        for line in wrapped(
            f"Worth charting next: {best.fact}. It matters most on "
            f"{counted(best.decides, 'ball')}, and matters on {best.matters}.",
            "  ",
        )
    )


def undecided_lines(judged: Sequence[JudgedBall], *, with_file: bool) -> tuple[str, ...]:
    """Return every undecided ball by reason."""
    lines: list[str] = []
    for each, text in _told(judged):
        lines += bullet(f"{short_ball(each.ball, with_file=with_file)}: {text}", "  ")
    return tuple(lines)


def _told(judged: Sequence[JudgedBall]) -> Iterator[tuple[JudgedBall, str]]:
    for each in undecided(judged, Reason.FACT_NOT_SEEN):
        yield each, _waiting(each.verdict)
    for each in undecided(judged, Reason.CONFLICT):
        yield each, f"{both(each.verdict.clashing)} leave no common answer"
    for each in undecided(judged, Reason.NO_RULE):
        yield each, "no rule speaks to what was charted of the choice"


def _waiting(verdict: Verdict) -> str:
    fact = verdict.missing[0] if verdict.missing else "more than one fact"
    either_way = ", against the rules either way" if verdict.kept is Kept.NO else ""
    return f"{fact} decides {grades_between(verdict.possible)}{either_way}"
