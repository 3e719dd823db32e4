"""What a player's answers say about each rule, for showing: dates, counts, and what went astray."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class Holding(StrEnum):
    """How things stand with a rule; none of them is final."""

    SECURE = "secure"
    DUE = "due"
    LATER = "comes back"
    CHANGED = "changed by your coach"
    NEW = "not met yet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """What a standing rests on. answered, full: all answers, and those with full credit.

    run: days of first meetings with full credit since the last one without. sure: how many of
    the last three of them were sure. lasts_days: the predicted time until recall falls to 90 %.
    """

    answered: int
    full: int
    run: tuple[date, ...]
    sure: int
    lasts_days: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleProgress:
    """One rule. due: when it comes back; secure_until: the last day it counts as secure."""

    rule: str
    title: str
    holding: Holding
    due: date | None = None
    secure_until: date | None = None
    evidence: Evidence | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SureAndWrong:
    """A rule that was answered wrong while sure. right_since: full credit on a later day."""

    rule: str
    title: str
    days: tuple[date, ...]
    right_since: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MixedUp:
    """How often the advice of one rule was given where another holds."""

    rule: str
    title: str
    other: str
    other_title: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """Everything to show of a player on a day. elsewhere: rules met that are not in this set."""

    day: date
    rules: tuple[RuleProgress, ...]
    sure_and_wrong: tuple[SureAndWrong, ...] = ()
    mixed_up: tuple[MixedUp, ...] = ()
    sure: int = 0
    sure_and_right: int = 0
    elsewhere: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Practised:
    """How much a rule was practised in the quiz. answered, full: answers, and full credit."""

    first_day: date
    answered: int
    full: int
