"""Sentences of the audit's page: what stands out, what is not known, remarks on the charts."""

from collections.abc import Iterator, Sequence

import numpy as np

from tactics.engine.advisor import Advisor
from tactics.model.known import word
from tactics.model.verdict import Grade, Reason
from tactics.problem import Problem
from tactics.report.audit_balls import place_words
from tactics.report.layout import counted
from tactics.report.rates import rate_words
from tactics.review.ledger import KEPT_CODES, Heading, Ledger
from tactics.review.open_facts import open_facts
from tactics.review.rates import Standing
from tactics.review.season_marks import MarkedRows
from tactics.review.shown import judged_rows

_OPEN_LOOKED_AT = 300
_REMARKS_SHOWN = 200


def overall_words(every: Heading) -> str:
    """Return `134 of 183 decided choices kept the rules`."""
    return f"{len(every.kept)} of {counted(every.kept_rate.n, 'decided choice')} kept the rules"


def standing_out(ledger: Ledger, marks: MarkedRows) -> Iterator[str]:
    """Yield what stands first on the page, what went right first."""
    every = ledger.all()
    fit = [
        each
        for each in ledger.by_situation()
        if each.kept_rate.standing is not Standing.NOT_ENOUGH and len(each.kept) > len(each.broken)
    ]
    if fit:
        best = max(fit, key=lambda each: each.kept_rate.interval[0])
        yield f"Kept most surely: {best.name}, {rate_words(best.kept_rate)}."
    missed = sum(_came(ledger, row, "no") for row in every.kept)
    came_off = sum(_came(ledger, row, "yes") for row in every.broken)
    if missed:
        yield (
            f"{counted(missed, 'ball')} well chosen and not hit as intended: keep the choice, work "
            "on stroke and timing."
        )
    if came_off:
        yield f"{counted(came_off, 'ball')} against the rules came off: worth a word all the same."
    if len(marks.apart):
        yield f"You and the rules differ on {counted(len(marks.apart), 'marked ball')}."
    if len(ledger.players) > 1:
        yield "The counts mix several players; --player NAME looks at one of them."


def _came(ledger: Ledger, row: int, as_intended: str) -> bool:
    outcome = ledger.balls[row].outcome
    return outcome.as_intended == as_intended and outcome.disturbed in ("", "no")


def unknown(ledger: Ledger, advisor: Advisor) -> Iterator[str]:
    """Yield what is not known: why balls are undecided, and what was taken as given."""
    rows = np.flatnonzero(ledger.kept == len(KEPT_CODES) - 1)
    looked = [each for _, each in judged_rows(ledger, advisor, rows[:_OPEN_LOOKED_AT].tolist())]
    if len(rows):
        some = f" (why: from the first {len(looked)})" if len(looked) < len(rows) else ""
        yield f"{counted(len(rows), 'ball')} could not be decided{some}."
    for fact in open_facts(looked)[:5]:
        yield f"{fact.fact}: not seen, matters on {fact.matters}, decides most on {fact.decides}."
    for reason in (Reason.CONFLICT, Reason.NO_RULE):
        count = sum(
            e.verdict.grade is Grade.UNDECIDED and e.verdict.reason is reason for e in looked
        )
        if count:
            yield f"{reason}: {counted(count, 'ball')}."
    for fact_name, count in ledger.assumed:
        yield (
            f"{fact_name}: not charted on {counted(count, 'ball')}, taken as what the rules "
            "are for."
        )
    restricted = sum(b.situation.get("restricted today") == word("yes") for b in ledger.balls)
    if restricted:
        yield f"restricted today: on {counted(restricted, 'ball')}, where effort was not graded."
    if ledger.not_covered:
        yield f"{counted(len(ledger.not_covered), 'ball')} of another format or stage: not graded."


def left_out(ledger: Ledger, problems: Sequence[Problem]) -> Iterator[str]:
    """Yield what was said about the charts when they were read."""
    with_file = len(ledger.charts) > 1
    for problem in problems[:_REMARKS_SHOWN]:
        place = place_words(problem.span, with_file=with_file)
        yield f"{place}: {problem.sentence}"
    more = len(problems) - _REMARKS_SHOWN
    if more > 0:
        yield f"and {more} more remarks: tactics audit without --html lists them all"
