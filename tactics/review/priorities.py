"""What to work on: at most three rules, each with how sure it is and why it stands where it does.

A weakness is a rule that a player breaks more often than they break the other rules: somebody who
breaks all of them equally often has none. Rules that only warn (see `left_alone`) are looked at,
and are not among the others. Every rule met on ten balls or more is looked at, and
that several were looked at is allowed for (Holm). Balls of one lesson count less than independent
ones (the design effect in `spread`).
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise

import numpy as np

from tactics.model.choice import Cause
from tactics.model.rule import RuleSet, Strength
from tactics.model.verdict import KEPT
from tactics.review.comparing import CHANCE, chance_of_more, holm
from tactics.review.ledger import ABSENT, CAUSE_CODES, Heading, Ledger
from tactics.review.rates import Rate, Standing
from tactics.review.spread import Spread, spread_of

MOST = 3
SAFETY = "safety"
_LEAST_EXCESS = 0.05
"""A smaller difference is not worth a lesson, however sure it is."""
_SAME_BALLS = 0.5


class Sureness(StrEnum):
    """How sure it is that a rule is broken more often than the others."""

    PATTERN = "pattern"
    EARLY_SIGN = "early sign"


class Because(StrEnum):
    """What puts a priority before the next one."""

    SAFETY = "safety"
    SURER = "surer"
    MUST = "must"
    MORE_BALLS = "more balls"
    LAST = "last"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Priority:
    """A rule to work on.

    rest: how often the other rules were broken. chance: how often chance alone would show as
    much, with all rules looked at allowed for. alone: the same without that. excess: balls
    broken beyond the player's own usual share. together: rules broken on the same balls. causes:
    what the broken balls are put down to, the most frequent first. doubted: broken balls that the
    coach marked as good.
    """

    rule: str
    sureness: Sureness
    heading: Heading
    rest: Rate
    chance: float
    alone: float
    excess: float
    before: Because = Because.LAST
    together: tuple[str, ...] = ()
    causes: tuple[tuple[Cause, int], ...] = ()
    doubted: int = 0

    @property
    def broken(self) -> Rate:
        """Return the share of its balls on which the rule was broken."""
        return self.heading.broken_rate


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Priorities:
    """At most three, in order. looked_at: rules with enough balls to be compared.

    waiting: further rules that stand out as well. few: rules broken on fewer than ten balls,
    about which nothing can be said yet. alike: how alike the balls of one lesson are, 0 to 1.
    """

    chosen: tuple[Priority, ...]
    looked_at: int
    waiting: tuple[Priority, ...] = ()
    few: tuple[Heading, ...] = ()
    alike: float = 0.0


def priorities(ledger: Ledger, rules: RuleSet, skip: frozenset[str] = frozenset()) -> Priorities:
    """Return what to work on; the rules in `skip` are looked at and never chosen."""
    headings = ledger.by_rule()
    spread = spread_of(ledger, headings)
    enough = [
        place
        for place, each in enumerate(headings)
        if each.broken_rate.standing is not Standing.NOT_ENOUGH
    ]
    found = _standing_out(headings, spread, enough, ledger.warnings)
    wanted = [each for each in found if each.rule not in skip]
    distinct = _without_echoes(sorted(wanted, key=lambda each: _rank(each, rules)))
    return Priorities(
        chosen=tuple(_told(each, ledger) for each in _in_order(distinct[:MOST], rules)),
        looked_at=len(enough),
        waiting=tuple(distinct[MOST:]),
        few=tuple(
            each
            for each in headings
            if len(each.broken) and each.broken_rate.standing is Standing.NOT_ENOUGH
        ),
        alike=spread.alike,
    )


def _standing_out(
    headings: Sequence[Heading],
    spread: Spread,
    enough: Sequence[int],
    warnings: frozenset[str],
) -> list[Priority]:
    """Return the rules broken more often than the others, beyond what chance would do."""
    others = [_others(headings, place, warnings) for place in enough]
    every = [each.broken_rate for each in headings]
    rests = [_together([every[other] for other in places]) for places in others]
    alone = [
        chance_of_more(
            every[place].share,
            spread.worth(place),
            rest.share if rest.n else 1.0,
            spread.worth_of(places),
        )
        for place, rest, places in zip(enough, rests, others, strict=True)
    ]
    together = holm(alone)
    return [
        _priority(headings[place], rest, chance, single)
        for place, rest, chance, single in zip(enough, rests, together, alone, strict=True)
        if single < CHANCE and every[place].share - rest.share >= _LEAST_EXCESS
    ]


def _others(headings: Sequence[Heading], place: int, warnings: frozenset[str]) -> list[int]:
    """Return the rules that one is compared with.

    Rules that only warn are kept on nearly every ball by leaving something alone; they would make
    any other rule look weak and are left out as long as there are others.
    """
    rest = [other for other in range(len(headings)) if other != place]
    return [other for other in rest if headings[other].name not in warnings] or rest


def _together(rates: Sequence[Rate]) -> Rate:
    return Rate(
        count=sum(each.count for each in rates),
        n=sum(each.n for each in rates),
        lessons=max((each.lessons for each in rates), default=0),
    )


def _priority(heading: Heading, rest: Rate, chance: float, alone: float) -> Priority:
    rate = heading.broken_rate
    is_pattern = chance < CHANCE and rate.standing is Standing.PATTERN
    return Priority(
        rule=heading.name,
        sureness=Sureness.PATTERN if is_pattern else Sureness.EARLY_SIGN,
        heading=heading,
        rest=rest,
        chance=chance,
        alone=alone,
        excess=(rate.share - rest.share) * rate.n,
    )


def _rank(each: Priority, rules: RuleSet) -> tuple[bool, bool, bool, float, str]:
    rule = rules.rule(each.rule)
    return (
        rule.concern != SAFETY,
        each.sureness is not Sureness.PATTERN,
        rule.strength is not Strength.MUST,
        -each.excess,
        each.rule,
    )


_REASONS = (Because.SAFETY, Because.SURER, Because.MUST, Because.MORE_BALLS)


def _in_order(ordered: Sequence[Priority], rules: RuleSet) -> list[Priority]:
    """Return each with what puts it before the next."""
    ranks = [_rank(each, rules) for each in ordered]
    before = [
        next((why for why, a, b in zip(_REASONS, mine, after, strict=False) if a != b),
             Because.MORE_BALLS)
        for mine, after in pairwise(ranks)
    ]  # fmt: skip
    reasons = [*before, Because.LAST][: len(ordered)]
    return [replace(each, before=why) for each, why in zip(ordered, reasons, strict=True)]


def _without_echoes(ordered: Sequence[Priority]) -> list[Priority]:
    """Return the priorities without those that are mostly the same balls under another name."""
    kept: list[Priority] = []
    for each in ordered:
        place = next((p for p, k in enumerate(kept) if _is_echo(each, k)), None)
        if place is None:
            kept.append(each)
        else:
            kept[place] = replace(kept[place], together=(*kept[place].together, each.rule))
    return kept


def _is_echo(each: Priority, stronger: Priority) -> bool:
    shared = np.intersect1d(each.heading.broken, stronger.heading.broken, assume_unique=True)
    return len(shared) > _SAME_BALLS * len(each.heading.broken)


def _told(each: Priority, ledger: Ledger) -> Priority:
    rows = each.heading.broken
    causes = Counter(int(code) for code in ledger.cause[rows] if code != ABSENT)
    named = tuple((CAUSE_CODES[code], count) for code, count in causes.most_common())
    doubted = sum(ledger.balls[int(row)].mark in KEPT for row in rows)
    return replace(each, causes=named, doubted=doubted)
