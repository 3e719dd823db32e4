"""A chart with a verdict on every ball."""

from dataclasses import dataclass

from tactics.model.ball import Ball, Chart
from tactics.model.choice import Cause
from tactics.model.verdict import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedBall:
    """A ball, its verdict, and the cause of a bad one (proposed where the coach named none)."""

    ball: Ball
    verdict: Verdict
    cause: Cause | None = None
    cause_is_proposed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Audit:
    """Every ball of a chart: judged, or not covered by the rule set.

    assumed: facts the rule set applies to that some balls left open -> how many balls; they
    were judged as if the rule set applied.
    """

    rule_set: str
    charts: tuple[Chart, ...]
    judged: tuple[JudgedBall, ...]
    not_covered: tuple[Ball, ...] = ()
    assumed: tuple[tuple[str, int], ...] = ()
