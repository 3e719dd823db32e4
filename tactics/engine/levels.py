"""Rules that speak in multiples of scatter, for the level of the player at hand."""

from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.engine.scatter_rules import usual_scatter_m
from tactics.model.known import OneOf
from tactics.model.situation import Situation


def level_of(situation: Situation) -> str:
    """Return the one level a situation names, or nothing."""
    known = situation.get("level")
    return next(iter(known.words)) if isinstance(known, OneOf) and len(known.words) == 1 else ""


def for_level(advisor: Advisor, level: str) -> Advisor:
    """Return the advisor for players of one level; the same one where nothing depends on it."""
    if advisor.by_level is None or not level:
        return advisor
    engine = "matcher" if advisor.engine.name == "matcher" else "auto"
    return compile_rules(advisor.by_level, engine, one_scatter_m=usual_scatter_m(level))
