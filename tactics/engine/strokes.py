"""What the words of a choice mean in numbers: pace, spin, heights and depths of each stroke.

Every number here is an assumption about a player of a level; `own best` is what pace counts in.
"""

from dataclasses import dataclass
from math import sqrt
from typing import Final

from tactics.flight.levels import Level
from tactics.flight.moment import Moment
from tactics.flight.stand import FLAT, KICK, SLICE, ServeShape

RALLY_SHARE: Final = 0.70  # a level's rally ball against its best: the middle of the rally band
_SLICES: Final = frozenset({"slice", "drop shot", "volley", "half volley"})
_BEST_AGAINST_GROUNDSTROKE: Final = {
    "slice": 0.80, "volley": 0.75, "half volley": 0.75, "smash": 1.15, "swing volley": 0.95,
}  # fmt: skip
_USUAL_PACE_PCT: Final = {"finish": 90.0, "force": 85.0, "surprise": 85.0, "pass": 85.0}
_HEAVY_RPM: Final = 500.0  # more topspin than the rally ball
_FLAT_SHARE: Final = 0.3  # of the rally ball's topspin
_SLICE_RPM: Final = -1200.0
_VOLLEY_RPM: Final = -800.0
_SERVES: Final = {"flat": FLAT, "slice": SLICE, "side": SLICE, "kick": KICK, "top": KICK,
                  "heavy top": KICK}  # fmt: skip
_HEAVY_FROM_RPM: Final = 250.0
_FLAT_SERVE_PCT: Final = 88.0  # nobody serves their fastest at every first serve


@dataclass(frozen=True, slots=True, kw_only=True)
class Spin:
    """Spin in rpm: topspin (backspin counts negative), and side spin that curves to the left."""

    topspin_rpm: float
    sidespin_rpm: float = 0.0


def best_pace_ms(moment: Moment, stroke: str) -> float:
    """Return a player's own best for a stroke: 100 % of `pace`."""
    if moment.is_serve:
        return moment.hitter.serve_pace_ms * sqrt(moment.venue.length_scale)
    share = _BEST_AGAINST_GROUNDSTROKE.get(stroke, 1.0)
    return share * moment.hitter_pace_ms / RALLY_SHARE


def usual_pace_pct(intent: str, stroke: str) -> float:
    """Return the pace of a rally ball that does not say it, in per cent of the own best."""
    if stroke == "smash":
        return 85.0
    return _USUAL_PACE_PCT.get(intent, 100.0 * RALLY_SHARE)


def usual_serve_pct(word: str, serve_number: str) -> float:
    """Return the pace of a serve that does not say it: what its spin leaves of the own best."""
    shape = serve_shape(word or _usual_serve(serve_number))
    return min(_FLAT_SERVE_PCT, 100.0 * shape.pace_share)


def _usual_serve(serve_number: str) -> str:
    return "kick" if serve_number == "second" else "flat"


def spin_of(word: str, stroke: str, level: Level) -> Spin:
    """Return the spin of a rally ball; without a word the one that goes with the stroke."""
    if not word:
        word = "slice" if stroke in _SLICES else "flat" if stroke == "smash" else "top"
    rally = level.rally_spin_rpm
    if word in ("slice", "side"):
        return Spin(topspin_rpm=_VOLLEY_RPM if "volley" in stroke else _SLICE_RPM)
    if word in ("heavy top", "kick"):
        return Spin(topspin_rpm=rally + _HEAVY_RPM)
    return Spin(topspin_rpm=_FLAT_SHARE * rally if word == "flat" else rally)


def serve_spin_of(word: str, serve_number: str, right: int) -> Spin:
    """Return the spin of a serve; a right-hander's side spin curves to the left."""
    shape = serve_shape(word or _usual_serve(serve_number))
    return Spin(topspin_rpm=shape.topspin_rpm, sidespin_rpm=right * shape.side_rpm)


def serve_shape(word: str) -> ServeShape:
    """Return the shape of a serve that goes by a spin's word."""
    return _SERVES.get(word, FLAT)


def spin_word(topspin_rpm: float, level: Level) -> str:
    """Return the word for a rally ball's topspin."""
    if topspin_rpm < 0:
        return "slice"
    if topspin_rpm >= level.rally_spin_rpm + _HEAVY_FROM_RPM:
        return "heavy top"
    return (
        "top" if topspin_rpm > 0.5 * level.rally_spin_rpm or level.rally_spin_rpm == 0 else "flat"
    )


def serve_spin_word(topspin_rpm: float, sidespin_rpm: float) -> str:
    """Return the word for a serve's spin."""
    if topspin_rpm >= 2000:
        return "kick"
    return "slice" if abs(sidespin_rpm) > 1000 else "flat"
