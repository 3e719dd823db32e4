"""A player's own scatter as JSON, in metres."""

from tactics.flight.landings import CONFIDENCE, LandingScatter, Spread
from tactics.reading.landings import Landings
from tactics.report.plain_json import FORMAT, Json

_DECIMALS = 3


def scatter_as_json(landings: Landings, found: LandingScatter) -> Json:
    """Return n, how many were set aside, and each spread: sd and middle (m), with intervals."""
    return {
        "format": FORMAT,
        "file": landings.name,
        "has_targets": landings.has_targets,
        "n": found.n,
        "set_aside": found.set_aside,
        "confidence": CONFIDENCE,
        "sideways": _spread(found.sideways),
        "depth": _spread(found.depth),
    }


def _spread(spread: Spread) -> Json:
    return {
        name: round(getattr(spread, name), _DECIMALS)
        for name in ("sd_m", "low_m", "high_m", "middle_m", "middle_low_m", "middle_high_m")
    }
