"""Quiz and court side by side for each rule: counts before and since it was first asked.

Nothing here says that one caused the other; players also get older and are coached.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

import numpy as np

from tactics.model.progress import Practised
from tactics.model.rule import RuleSet, Strength
from tactics.review.ledger import Heading, Ledger, Marks, Rows
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

    trained, untrained: since the first quiz day, balls under rules asked by the day of the ball,
    and under rules not asked by then; a ball counts once for each rule. undated: balls left out.
    """

    rules: tuple[RuleBeside, ...]
    trained: Rate
    untrained: Rate
    undated: int


def side_by_side(ledger: Ledger, rules: RuleSet, quiz: Mapping[str, Practised]) -> SideBySide:
    """Return both counts of every rule that was answered in the quiz and met on court."""
    asked = {rule: each for rule, each in quiz.items() if each.answered}
    days = np.array([ball.date for ball in ledger.balls], dtype="U10")
    dated = days != ""
    start = min((each.first_day for each in asked.values()), default=date.max).isoformat()
    options = {rule.id for rule in rules.rules if rule.strength is Strength.MAY}
    found: list[RuleBeside] = []
    groups: tuple[list[Heading], list[Heading]] = ([], [])
    for heading in ledger.by_rule():
        if heading.name in options:
            continue
        each = asked.get(heading.name)
        first = date.max.isoformat() if each is None else each.first_day.isoformat()
        since, later = dated & (days >= first), dated & (days >= start)
        groups[0].append(_only(heading, later & since))
        groups[1].append(_only(heading, later & ~since))
        if each is not None:
            before = _rate(ledger, [_only(heading, dated & ~since)])
            after = _rate(ledger, [_only(heading, since)])
            beside = RuleBeside(rule=heading.name, quiz=each, before=before, since=after)
            found += [beside] if beside.met else []
    return SideBySide(
        rules=tuple(sorted(found, key=lambda e: (-e.met, e.rule))),
        trained=_rate(ledger, groups[0]),
        untrained=_rate(ledger, groups[1]),
        undated=int(np.count_nonzero(~dated)),
    )


def _only(heading: Heading, mask: Marks) -> Heading:
    kept, broken = heading.kept, heading.broken
    return Heading(
        name=heading.name, kept=kept[mask[kept]], broken=broken[mask[broken]],
        open=heading.open[:0], lessons=heading.lessons,
    )  # fmt: skip


def _rate(ledger: Ledger, headings: list[Heading]) -> Rate:
    kept = sum(len(each.kept) for each in headings)
    rows: list[Rows] = [part for each in headings for part in (each.kept, each.broken)]
    lessons = {int(place) for part in rows for place in ledger.session[part]}
    return Rate(count=kept, n=sum(map(len, rows)), lessons=len(lessons))
