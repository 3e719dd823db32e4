"""Mix rules: how large a share of many balls may be, or has to be."""

from dataclasses import dataclass, field
from enum import StrEnum

from tactics.model.condition import ALWAYS, Condition
from tactics.source import Span

SMALLEST_MIX = 10
"""Below so many balls no share is told, whatever a mix rule asks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """A share as a coach says it: two in three."""

    count: int
    of: int

    @property
    def part(self) -> float:
        """Return the share as a number, 0 to 1."""
        return self.count / self.of


class MixSays(StrEnum):
    """What a mix rule says about a share that was seen."""

    KEPT = "kept"
    TOO_OFTEN = "too often"
    TOO_RARELY = "too rarely"
    NOT_ENOUGH = "not enough"


@dataclass(frozen=True, slots=True, kw_only=True)
class MixExample:
    """A share that may be seen, and what the mix rule has to say about it."""

    seen: Share
    says: MixSays
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class MixRule:
    """One share over many balls: a should by nature, since no single ball keeps or breaks it.

    of: which balls count. share: which of them are the share. any_one: a fact or part each of
    whose words is a share of its own ("" where `share` says it). for_each: facts or parts whose
    words are counted apart. over: balls needed before anything is said. balls: what the coach
    calls them.
    """

    id: str
    title: str
    concern: str = ""
    of: Condition = ALWAYS
    share: Condition = ALWAYS
    any_one: str = ""
    at_most: Share | None = None
    at_least: Share | None = None
    for_each: tuple[str, ...] = ()
    over: int = SMALLEST_MIX
    balls: str = "balls"
    because: str = ""
    cue: str = ""
    drills: tuple[str, ...] = ()
    evidence: str = ""
    note: str = ""
    author: str = ""
    examples: tuple[MixExample, ...] = field(default=(), compare=False)
    span: Span = field(compare=False)

    def says(self, count: int, n: int) -> MixSays:
        """Return what the rule says when `count` of `n` balls were the share."""
        if n < max(self.over, SMALLEST_MIX):
            return MixSays.NOT_ENOUGH
        if self.at_most is not None and count * self.at_most.of > self.at_most.count * n:
            return MixSays.TOO_OFTEN
        if self.at_least is not None and count * self.at_least.of < self.at_least.count * n:
            return MixSays.TOO_RARELY
        return MixSays.KEPT
