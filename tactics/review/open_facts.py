"""Facts nobody saw that kept balls undecided: what is worth charting next."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from tactics.model.audit import JudgedBall
from tactics.model.verdict import Grade, Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenFact:
    """A fact; on how many undecided balls it decides most, and on how many it matters at all."""

    fact: str
    decides: int
    matters: int


def open_facts(judged: Sequence[JudgedBall]) -> tuple[OpenFact, ...]:
    """Return the facts that keep balls undecided, the one worth charting next first."""
    waiting = [
        each.verdict.missing
        for each in judged
        if each.verdict.reason is Reason.FACT_NOT_SEEN and each.verdict.missing
    ]
    first = Counter(missing[0] for missing in waiting)
    any_ = Counter(fact for missing in waiting for fact in missing)
    facts = sorted(any_, key=lambda fact: (-first[fact], -any_[fact], fact))
    return tuple(OpenFact(fact=fact, decides=first[fact], matters=any_[fact]) for fact in facts)


def undecided(judged: Sequence[JudgedBall], reason: Reason) -> tuple[JudgedBall, ...]:
    """Return the balls that are undecided for one of the three reasons."""
    return tuple(
        each
        for each in judged
        if each.verdict.grade is Grade.UNDECIDED and each.verdict.reason is reason
    )
