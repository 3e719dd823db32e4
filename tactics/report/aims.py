"""What to try for in each part: shown and drawn, never graded."""

from tactics.engine.advise import Advice
from tactics.model.known import Allowed, ScatterWithin


def aims(advice: Advice) -> dict[str, Allowed]:
    """Return part -> the aim of the rule that comes first in it.

    Where a part has a standard, the aim lies inside what it leaves: first one of a deciding
    rule, then one of a rule that is silent on the standard; elsewhere the highest concern's.
    """
    ready = advice.advisor.program.ready
    speaking = [place for place in advice.applying if not ready[place].is_option_only]
    found: dict[str, Allowed] = {}
    for place in sorted(speaking, key=lambda p: (ready[p].rank, p)):
        for part, allowed in ready[place].rule.aim:
            if _fits(advice, part, allowed) and _is_deciding(advice, place, part):
                found.setdefault(part, allowed)
    for place in sorted(speaking, key=lambda p: (ready[p].rank, p)):
        for part, allowed in ready[place].rule.aim:
            if _fits(advice, part, allowed) and part not in dict(ready[place].advice):
                found.setdefault(part, allowed)
    return found


def _is_deciding(advice: Advice, place: int, part: str) -> bool:
    standard = advice.standards.get(part)
    return standard is None or place in standard.deciding


def _fits(advice: Advice, part: str, allowed: Allowed) -> bool:
    """Say whether an aim lies inside the standard of its part, where there is one."""
    standard = advice.standards.get(part)
    if standard is None or isinstance(allowed, ScatterWithin):
        return True
    return bool(advice.advisor.program.grid.mask(part, allowed) & standard.allowed)
