"""What stands out in an audit: chosen by fixed rules, so that nobody picks what they like."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from tactics.model.audit import Audit
from tactics.model.verdict import Kept
from tactics.review.marks import Marks, compare_marks
from tactics.review.open_facts import OpenFact, open_facts
from tactics.review.outcomes import Did, outcome_table
from tactics.review.rates import Rate, Standing
from tactics.review.tallies import Tally, by_rule, by_situation, overall


@dataclass(frozen=True, slots=True, kw_only=True)
class Highlights:
    """What a coach should see first.

    strongest: the game situation that kept the rules most surely (and more often than not);
    weakest: the rule broken most surely; both by the low end of the interval, from ten balls on.
    few: the rule broken most often where no broken rule has ten balls yet.
    good_missed: kept the rules, ball not as intended. bad_came_off: the other way round.
    """

    all: Tally
    strongest: Tally | None
    weakest: Tally | None
    few: Tally | None
    good_missed: int
    bad_came_off: int
    next_fact: OpenFact | None
    marks: Marks
    left_out: int


def highlights(audit: Audit) -> Highlights:
    """Return what stands out in an audit."""
    rules = by_rule(audit.judged)
    situations = by_situation(audit.judged)
    table = outcome_table(audit.judged)
    weakest = _surest([tally for tally in rules if tally.broken], _broken)
    broken = [tally for tally in rules if tally.broken]
    return Highlights(
        all=overall(audit.judged),
        strongest=_surest([tally for tally in situations if tally.kept > tally.broken], _kept),
        weakest=weakest,
        few=broken[0] if broken and weakest is None else None,
        good_missed=table.count(Kept.YES, Did.NOT_AS_INTENDED),
        bad_came_off=table.count(Kept.NO, Did.AS_INTENDED),
        next_fact=next(iter(open_facts(audit.judged)), None),
        marks=compare_marks(audit.judged),
        left_out=sum(len(chart.left_out) for chart in audit.charts),
    )


def _kept(tally: Tally) -> Rate:
    return tally.kept_rate


def _broken(tally: Tally) -> Rate:
    return tally.broken_rate


def _surest(tallies: Iterable[Tally], rate_of: Callable[[Tally], Rate]) -> Tally | None:
    """Return the tally whose share is surely highest, of those that may be given a share."""
    fit = [tally for tally in tallies if rate_of(tally).standing is not Standing.NOT_ENOUGH]
    return max(fit, key=lambda tally: rate_of(tally).interval[0], default=None)
