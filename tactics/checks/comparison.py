"""What is different between two rule sets, as values."""

from dataclasses import dataclass

from tactics.checks.witness import Common, Witness
from tactics.model.ball import Ball
from tactics.model.known import Allowed
from tactics.model.verdict import Verdict
from tactics.model.vocabulary import Vocabulary


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What a rule set leaves of a part. allowed: None where no rule speaks or rules clash."""

    part: str
    allowed: Allowed | None
    must_allowed: Allowed | None
    clashing: tuple[str, ...] = ()
    is_spoken: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """All situations in which the same rules stop and the same rules start to decide.

    before: rules that decide only in the old set, or ask for something else there; after: the
    same of the new set. parts: where their answers differ. opened, closed: rules whose options
    (alternatives, or a may rule) are there only afterwards, or only before.
    """

    before: tuple[str, ...]
    after: tuple[str, ...]
    parts: tuple[str, ...] = ()
    opened: tuple[str, ...] = ()
    closed: tuple[str, ...] = ()
    common: Common
    witness: Witness
    said_before: tuple[Said, ...] = ()
    said_after: tuple[Said, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Flip:
    """A charted ball whose grade changes; None where a rule set does not cover it."""

    ball: Ball
    before: Verdict | None
    after: Verdict | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Everything that changes from one rule set to another.

    words: of both sets. added, removed, reworded: rule ids; reworded rules differ in anything a
    coach wrote.
    changes are complete: every situation with other advice belongs to one of them - unless
    is_complete is false (too many). unconfirmed: changes the evaluator does not confirm, a fault
    of the program. flips: charted balls with another grade, of `balls` in all.
    """

    old: str
    new: str
    words: Vocabulary
    added: tuple[str, ...]
    removed: tuple[str, ...]
    reworded: tuple[str, ...]
    changes: tuple[Change, ...]
    is_complete: bool = True
    unconfirmed: int = 0
    flips: tuple[Flip, ...] = ()
    balls: int = 0

    @property
    def is_same(self) -> bool:
        """Say whether no advice and no charted grade changes."""
        return not self.changes and not self.flips and self.is_complete
