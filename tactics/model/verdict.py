"""What the rules make of a choice."""

from dataclasses import dataclass
from enum import StrEnum

from tactics.model.known import Allowed, Known


class Grade(StrEnum):
    """The grade of a choice; never of what the ball did."""

    SOUND = "sound"
    ACCEPTABLE = "acceptable"
    DOUBTFUL = "doubtful"
    UNSOUND = "unsound"
    UNDECIDED = "undecided"


KEPT = frozenset({Grade.SOUND, Grade.ACCEPTABLE})
BROKEN = frozenset({Grade.DOUBTFUL, Grade.UNSOUND})


class Kept(StrEnum):
    """Whether the choice kept the rules, as far as what was seen can tell."""

    YES = "kept"
    NO = "broken"
    OPEN = "open"


class Reason(StrEnum):
    """Why a choice cannot be graded: three different things, never mixed up."""

    FACT_NOT_SEEN = "a fact was not seen"
    CONFLICT = "rules disagree"
    NO_RULE = "no rule speaks to this"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What was found for one part of a choice.

    wanted: what the deciding rules leave; rules: the ids charged where it was broken, else
    the ids that decided; option_of: the rule whose option made a departure acceptable.
    """

    part: str
    grade: Grade
    charted: Known
    wanted: Allowed | None
    rules: tuple[str, ...]
    option_of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """Grade, what it rests on, and what is still open.

    possible: every grade that some completion of the facts not seen would give.
    deciding: the rule to explain first. missing: facts not seen that matter, the one that would
    settle most first. clashing: ids of rules that leave no common answer. spoke: rules that
    decided a charted part, charged: rules that were broken - under every completion, so a rate
    by rule is charged against spoke.
    """

    grade: Grade
    possible: frozenset[Grade]
    findings: tuple[Finding, ...]
    deciding: str = ""
    reason: Reason | None = None
    missing: tuple[str, ...] = ()
    clashing: tuple[str, ...] = ()
    spoke: tuple[str, ...] = ()
    charged: tuple[str, ...] = ()

    @property
    def kept(self) -> Kept:
        """Say whether the choice kept the rules under every completion, under none, or open."""
        if self.possible <= KEPT:
            return Kept.YES
        return Kept.NO if self.possible <= BROKEN else Kept.OPEN
