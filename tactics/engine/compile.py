"""Rule set -> advisor."""

from tactics.engine.advisor import Advisor, Engine, Matcher
from tactics.engine.durable_engine import DurableEngine, load
from tactics.engine.program import Program, build
from tactics.model.rule import RuleSet


def compile_rules(rules: RuleSet, engine: str = "auto") -> Advisor:
    """Return an advisor for a rule set.

    engine: "auto" asks durable-rules where it is installed and the plain matcher elsewhere;
    "matcher" and "durable" ask for one of them (ImportError where it cannot be had).
    """
    program = build(rules)
    return Advisor(rules=rules, program=program, engine=_engine(engine, program))


def _engine(wanted: str, program: Program) -> Engine:
    if wanted == "matcher":
        return Matcher(program)
    if wanted == "durable" and load() is None:
        raise ImportError("durable-rules cannot be imported here")
    return DurableEngine(program)
