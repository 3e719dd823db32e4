"""Quiz and court side by side for each rule: counts before and since it was first asked.

Nothing here says that one caused the other; players also get older and are coached.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tactics.model.progress import Practised
from tactics.model.rule import RuleSet, Strength
from tactics.review.ledger import Heading, Ledger, Marks, Rows
from tactics.review.own_change import OwnChange, own_change
from tactics.review.rates import Rate


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleBeside:
    """One rule in the quiz and on dated balls: before the day it was first asked, and since."""

    rule: str
    quiz: Practised
    before: Rate
    since: Rate

    @property
    def met(self) -> int:
        """Return how many dated balls it was met on."""
        return self.before.n + self.since.n


@dataclass(frozen=True, slots=True, kw_only=True)
class SideBySide:
    """Rules asked and met, most often met first.

    change: each rule against itself, beside rules not asked yet. undated: balls left out.
    """

    rules: tuple[RuleBeside, ...]
    change: OwnChange
    undated: int


def side_by_side(ledger: Ledger, rules: RuleSet, quiz: Mapping[str, Practised]) -> SideBySide:
    """Return both counts of every rule that was answered in the quiz and met on court."""
    asked = {rule: each for rule, each in quiz.items() if each.answered}
    only_shown = quiz.keys() - asked.keys()
    options = {rule.id for rule in rules.rules if rule.strength is Strength.MAY}
    graded = [each for each in ledger.by_rule() if each.name not in options]
    days = np.array([ball.date for ball in ledger.balls], dtype="U10")
    found = [
        _beside(ledger, heading, asked[heading.name], days)
        for heading in graded
        if heading.name in asked
    ]
    return SideBySide(
        rules=tuple(sorted((e for e in found if e.met), key=lambda e: (-e.met, e.rule))),
        change=own_change(
            ledger,
            [each for each in graded if each.name not in only_shown],
            {rule: each.first_day for rule, each in asked.items()},
        ),
        undated=int(np.count_nonzero(days == "")),
    )


def _beside(
    ledger: Ledger, heading: Heading, quiz: Practised, days: NDArray[np.str_]
) -> RuleBeside:
    since = days >= quiz.first_day.isoformat()
    return RuleBeside(
        rule=heading.name,
        quiz=quiz,
        before=_rate(ledger, heading, ~since & (days != "")),
        since=_rate(ledger, heading, since),
    )


def _rate(ledger: Ledger, heading: Heading, mask: Marks) -> Rate:
    kept, broken = heading.kept[mask[heading.kept]], heading.broken[mask[heading.broken]]
    rows: Rows = np.concatenate((kept, broken))
    lessons = len(np.unique(ledger.session[rows]))
    return Rate(count=len(kept), n=len(rows), lessons=lessons)
