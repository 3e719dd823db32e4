"""Rule set -> advisor."""

from tactics.engine.advisor import Advisor, Engine, Matcher
from tactics.engine.durable_engine import DurableEngine, load
from tactics.engine.program import Program, build
from tactics.engine.scatter_rules import (
    in_metres,
    level_it_applies_to,
    speaks_in_scatter,
    usual_scatter_m,
)
from tactics.model.rule import RuleSet


def compile_rules(
    rules: RuleSet, engine: str = "auto", *, one_scatter_m: float | None = None
) -> Advisor:
    """Return an advisor for a rule set.

    engine: "auto" asks durable-rules where it is installed and the plain matcher elsewhere;
    "matcher" and "durable" ask for one of them (ImportError where it cannot be had).
    one_scatter_m: the player's own sideways scatter (m), for rules that say `1.4 scatter`; without
    it that of each ball's level, else of the level the rules are for, else of a club player.
    """
    by_level = speaks_in_scatter(rules) and one_scatter_m is None
    ready = rules
    if speaks_in_scatter(rules):
        ready = in_metres(rules, one_scatter_m or usual_scatter_m(level_it_applies_to(rules)))
    program = build(ready)
    return Advisor(
        rules=ready,
        program=program,
        engine=_engine(engine, program),
        by_level=rules if by_level else None,
    )


def _engine(wanted: str, program: Program) -> Engine:
    if wanted == "matcher":
        return Matcher(program)
    if wanted == "durable" and load() is None:
        raise ImportError("durable-rules cannot be imported here")
    return DurableEngine(program)
