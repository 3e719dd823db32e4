"""One charted ball, and a chart of them."""

from dataclasses import dataclass, field

from tactics.model.choice import NOTHING_NOTED, Cause, Choice, Outcome
from tactics.model.situation import Situation
from tactics.model.verdict import Grade
from tactics.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """Situation, choice and outcome of one ball, with the coach's own words on it.

    date is ISO (2026-03-14) or empty; cause and mark are the coach's, None where not given.
    more: columns the vocabulary does not know, kept as they stood.
    """

    situation: Situation
    choice: Choice
    outcome: Outcome = NOTHING_NOTED
    date: str = ""
    player: str = ""
    lesson: str = ""
    point: str = ""
    ball: str = ""
    note: str = ""
    cause: Cause | None = None
    mark: Grade | None = None
    more: tuple[tuple[str, str], ...] = ()
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """A row that could not be read; why it could not is among the problems of the chart."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """The balls of one file, the rows left out, and the columns nobody knew."""

    name: str
    balls: tuple[Ball, ...]
    left_out: tuple[LeftOut, ...] = ()
    unknown_columns: tuple[str, ...] = ()
