"""How many choices kept the rules: by game situation, by part, by rule, by cause."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from tactics.model.audit import JudgedBall
from tactics.model.ball import Ball
from tactics.model.choice import Cause
from tactics.model.known import OneOf
from tactics.model.standard import STANDARD
from tactics.model.verdict import BROKEN, KEPT, Kept, Verdict
from tactics.review.rates import Rate

GAME_SITUATION = "game situation"
OPEN_SITUATION = "not seen"
SITUATIONS = tuple(word.name for word in STANDARD.trait(GAME_SITUATION).words)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """Balls under one heading. open: could not be decided; lessons: of the decided ones."""

    name: str
    kept: int
    broken: int
    open: int
    lessons: int

    @property
    def total(self) -> int:
        """Return how many balls there are, open ones included."""
        return self.kept + self.broken + self.open

    @property
    def kept_rate(self) -> Rate:
        """Return the share of decided balls that kept the rules."""
        return Rate(count=self.kept, n=self.kept + self.broken, lessons=self.lessons)

    @property
    def broken_rate(self) -> Rate:
        """Return the share of decided balls that broke them."""
        return Rate(count=self.broken, n=self.kept + self.broken, lessons=self.lessons)


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseCount:
    """Balls put down to one cause: by the coach, and proposed where the coach named none."""

    cause: Cause
    by_coach: int
    proposed: int


Session = tuple[str, str, str]
"""Player, date and lesson: balls that agree in all three belong to one lesson."""


def session_of(ball: Ball) -> Session:
    """Return what tells one lesson or match from another."""
    return (ball.player, ball.date, ball.lesson)


def overall(judged: Sequence[JudgedBall]) -> Tally:
    """Return all balls as one tally."""
    return _tally("all", [(each, each.verdict.kept) for each in judged])


def by_situation(judged: Sequence[JudgedBall]) -> tuple[Tally, ...]:
    """Return a tally for each game situation that occurs, in the order of a point."""
    groups: dict[str, list[tuple[JudgedBall, Kept]]] = {}
    for each in judged:
        groups.setdefault(_situation_of(each), []).append((each, each.verdict.kept))
    return _tallies(groups, (*SITUATIONS, OPEN_SITUATION))


def by_part(judged: Sequence[JudgedBall]) -> tuple[Tally, ...]:
    """Return a tally for each part that was graded, in the order of the vocabulary."""
    groups: dict[str, list[tuple[JudgedBall, Kept]]] = {}
    for each in judged:
        for finding in each.verdict.findings:
            kept = Kept.OPEN
            if finding.grade in KEPT | BROKEN:
                kept = Kept.YES if finding.grade in KEPT else Kept.NO
            groups.setdefault(finding.part, []).append((each, kept))
    return _tallies(groups, tuple(trait.folded for trait in STANDARD.parts))


def by_rule(judged: Sequence[JudgedBall]) -> tuple[Tally, ...]:
    """Return a tally for each rule that decided a part: the most often broken first.

    A ball that broke the rule in one part counts once, as broken.
    """
    groups: dict[str, list[tuple[JudgedBall, Kept]]] = {}
    for each in judged:
        for rule, kept in rules_met(each).items():
            groups.setdefault(rule, []).append((each, kept))
    tallies = [_tally(name, pairs) for name, pairs in groups.items()]
    return tuple(sorted(tallies, key=lambda tally: (-tally.broken, -tally.total, tally.name)))


def by_cause(judged: Iterable[JudgedBall]) -> tuple[CauseCount, ...]:
    """Return the causes that occur, in their fixed order."""
    with_cause = [each for each in judged if each.cause is not None]
    counts = (
        CauseCount(
            cause=cause,
            by_coach=sum(e.cause is cause and not e.cause_is_proposed for e in with_cause),
            proposed=sum(e.cause is cause and e.cause_is_proposed for e in with_cause),
        )
        for cause in Cause
    )
    return tuple(count for count in counts if count.by_coach or count.proposed)


def rules_met(each: JudgedBall) -> dict[str, Kept]:
    """Return rule -> whether this ball kept it: charged, or it spoke and was not charged.

    On a ball that is not decided, a rule that was not charged is open.
    """
    verdict = each.verdict
    met = dict.fromkeys((r for f in verdict.findings for r in f.rules), Kept.OPEN)
    spoke = dict.fromkeys(verdict.spoke, Kept.YES if is_settled(verdict) else Kept.OPEN)
    return met | spoke | dict.fromkeys(verdict.charged, Kept.NO)


def is_settled(verdict: Verdict) -> bool:
    """Say whether a ball is decided, so that a rule that spoke and was not charged was kept."""
    possible = verdict.possible
    return possible <= KEPT or (len(possible) == 1 and possible <= BROKEN)


def _situation_of(each: JudgedBall) -> str:
    phase = each.ball.situation.get(GAME_SITUATION)
    if isinstance(phase, OneOf) and len(phase.words) == 1:
        return next(iter(phase.words))
    return OPEN_SITUATION


def _tallies(
    groups: Mapping[str, list[tuple[JudgedBall, Kept]]], order: Sequence[str]
) -> tuple[Tally, ...]:
    return tuple(_tally(name, groups[name]) for name in order if name in groups)


def _tally(name: str, pairs: Sequence[tuple[JudgedBall, Kept]]) -> Tally:
    decided = [each for each, kept in pairs if kept is not Kept.OPEN]
    return Tally(
        name=name,
        kept=sum(kept is Kept.YES for _, kept in pairs),
        broken=sum(kept is Kept.NO for _, kept in pairs),
        open=len(pairs) - len(decided),
        lessons=len({session_of(each.ball) for each in decided}),
    )
