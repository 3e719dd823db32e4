"""What a proof finds, as values: words for it are found in `report`."""

from dataclasses import dataclass
from enum import StrEnum

from tactics.checks.witness import Common, Witness
from tactics.model.condition import Condition
from tactics.problem import Severity
from tactics.source import Span


class Kind(StrEnum):
    """What can be proved; the value is the code of the page that explains it."""

    GAP = "gap"
    CONFLICT = "conflict"
    TERM_NEVER_HOLDS = "term-never-holds"
    NEVER_APPLIES = "never-applies"
    ALWAYS_OVERRULED = "always-overruled"
    IDLE_CONDITION = "idle-condition"
    IDLE_EXCEPTION = "idle-exception"
    REPEATED_RULE = "repeated-rule"
    UNEVEN_HANDS = "uneven-hands"
    MISSING_STAGE = "missing-stage"


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """A rule that almost speaks in a gap: what it asks that is not so, or who sets it aside."""

    rule: str
    asks: tuple[Condition, ...] = ()
    unless: tuple[Condition, ...] = ()
    choosing: tuple[Condition, ...] = ()
    beaten_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One finding. rules: those it is about, the one to mend first.

    others: rules that are the reason. reasons: lines of what cannot happen that play a part.
    conditions, exceptions: those that cannot come together; of what changes nothing, the first
    is meant, and the others make it so. edges: facts whose exact value is the only place where
    it happens. has_more: other witnesses exist besides.
    """

    kind: Kind
    severity: Severity
    span: Span
    opener: int = 0
    rules: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    phases: tuple[str, ...] = ()
    term: str = ""
    conditions: tuple[Condition, ...] = ()
    exceptions: tuple[Condition, ...] = ()
    others: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    common: Common | None = None
    witnesses: tuple[Witness, ...] = ()
    near: tuple[Near, ...] = ()
    edges: tuple[str, ...] = ()
    has_more: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far a check is."""

    check: Kind
    done: int
    total: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Unconfirmed:
    """A finding that the evaluator does not confirm: a fault of the program, not of the rules."""

    check: Kind
    rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsettled:
    """A question that took more work than it is given; nothing is known about its answer."""

    check: Kind
    rules: tuple[str, ...] = ()


Step = Finding | Progress | Unconfirmed | Unsettled
