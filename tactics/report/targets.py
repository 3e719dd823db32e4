"""The shot that is wanted, part by part: its aim where there is one, else what the rules leave."""

from tactics.engine.advise import Advice
from tactics.model.known import Allowed
from tactics.report.aims import aims


def wanted_shot(advice: Advice) -> dict[str, Allowed]:
    """Return part -> aim, or the values the standard leaves; clashing parts are left out."""
    axes = advice.advisor.program.grid.axes
    left: dict[str, Allowed] = {
        part: axes[part].allowed_of(standard.allowed)
        for part, standard in advice.standards.items()
        if standard.allowed
    }
    return {**left, **aims(advice)}
