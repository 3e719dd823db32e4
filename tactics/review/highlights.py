"""What stands out in a season: chosen by fixed rules, so that nobody picks what they like."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from tactics.model.audit import JudgedBall
from tactics.model.verdict import Kept
from tactics.review.ledger import Heading, Ledger
from tactics.review.open_facts import OpenFact, open_facts
from tactics.review.outcomes import Did, outcome_table
from tactics.review.rates import Rate, Standing
from tactics.review.season_marks import MarkedRows, marked_rows


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Highlights:
    """What a coach should see first.

    strongest: the game situation that kept the rules most surely (and more often than not);
    weakest: the rule broken most surely; both by the low end of the interval, from ten balls on.
    few: the rule broken most often where no broken rule has ten balls yet. next_fact: worth
    charting next, from so many undecided balls (looked_at), which may be the first of more.
    good_missed: kept the rules, ball not as intended. bad_came_off: the other way round.
    """

    all: Heading
    strongest: Heading | None
    weakest: Heading | None
    few: Heading | None
    good_missed: int
    bad_came_off: int
    next_fact: OpenFact | None
    looked_at: int
    marks: MarkedRows
    left_out: int


def highlights(ledger: Ledger, undecided: Sequence[JudgedBall]) -> Highlights:
    """Return what stands out; undecided: those of its undecided balls that were looked at."""
    broken = [each for each in ledger.by_rule() if len(each.broken)]
    table = outcome_table(ledger)
    weakest = _surest(broken, _broken)
    good = [each for each in ledger.by_situation() if len(each.kept) > len(each.broken)]
    return Highlights(
        all=ledger.all(),
        strongest=_surest(good, _kept),
        weakest=weakest,
        few=broken[0] if broken and weakest is None else None,
        good_missed=table.count(Kept.YES, Did.NOT_AS_INTENDED),
        bad_came_off=table.count(Kept.NO, Did.AS_INTENDED),
        next_fact=next(iter(open_facts(undecided)), None),
        looked_at=len(undecided),
        marks=marked_rows(ledger),
        left_out=sum(len(chart.left_out) for chart in ledger.charts),
    )


def _kept(heading: Heading) -> Rate:
    return heading.kept_rate


def _broken(heading: Heading) -> Rate:
    return heading.broken_rate


def _surest(headings: Iterable[Heading], rate_of: Callable[[Heading], Rate]) -> Heading | None:
    """Return the heading whose share is surely highest, of those that may be given a share."""
    fit = [each for each in headings if rate_of(each).standing is not Standing.NOT_ENOUGH]
    return max(fit, key=lambda each: rate_of(each).interval[0], default=None)
