"""Why a choice cannot be played from where the ball is met."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from tactics.engine.leading import Row
from tactics.engine.wish import PACE, Wish
from tactics.flight.launch import Aim, Cannot
from tactics.flight.window import closing_pace_ms, vertical_window

_NUDGE = 1e-6
_GUESSED_DEPTH_M = 8.0


class Why(StrEnum):
    """What is in the way."""

    NO_LAUNCH = "no launch"
    THROUGH_THE_NET = "through the net"
    WINDOW_CLOSED = "window closed"
    TOO_FAST = "more pace than the player has"
    AROUND_THE_POST = "around the post"


@dataclass(frozen=True, slots=True, kw_only=True)
class NoShot:
    """The reason in numbers: what was asked for (m, m/s), and a value with the most that would do.

    value, most: pace in m/s, or for a ball around the post metres from the middle of the net; nan
    where there is none.
    """

    why: Why
    asked: tuple[tuple[str, float], ...]
    value: float
    most: float


def no_shot_of(
    wish: Wish, done: Aim, leading: tuple[str, str], asked: Row, target_x_m: float, number: int = 0
) -> NoShot | None:
    """Return why shot `number` of `done` cannot be played; None if it can."""
    found = _reason(wish, done, asked, target_x_m, number)
    if found is None:
        return None
    why, value, most = found
    named = tuple((part, asked[part]) for part in leading)
    return NoShot(why=why, asked=named, value=value, most=most)


def _reason(
    wish: Wish, done: Aim, asked: Row, target_x_m: float, number: int
) -> tuple[Why, float, float] | None:
    pace = asked.get(PACE, float(done.pace_ms[number]))
    azimuth = float(done.azimuth_deg[number])
    if np.isnan(azimuth):
        azimuth = _towards(wish, target_x_m)
    if PACE in asked and not _is_open(wish, pace, azimuth):
        return Why.WINDOW_CLOSED, pace, _closing_pace_ms(wish, azimuth)
    cannot = done.cannot(number)
    if cannot is not None:
        through = cannot is Cannot.THROUGH_THE_NET
        return Why.THROUGH_THE_NET if through else Why.NO_LAUNCH, pace, np.nan
    crossing = float(done.flight.crossing.position_m[0, number])
    support = wish.venue.court.support_x_m
    if abs(crossing) > support:
        return Why.AROUND_THE_POST, crossing, support
    if PACE not in asked and pace > wish.best_ms + _NUDGE:
        return Why.TOO_FAST, pace, wish.best_ms
    return None


def _towards(wish: Wish, target_x_m: float) -> float:
    """Return the direction (degrees) of a ball that finds no landing."""
    contact = wish.position.moment.contact
    along = contact.depth_m + _GUESSED_DEPTH_M
    return float(np.degrees(np.arctan2(target_x_m - contact.x_m, along)))


def _is_open(wish: Wish, pace_ms: float, azimuth_deg: float) -> bool:
    window = vertical_window(
        wish.strike,
        pace_ms=pace_ms,
        azimuth_deg=azimuth_deg,
        area=wish.position.moment.area,
        court=wish.venue.court,
        air=wish.venue.air,
    )
    # a pace that meets neither edge is too slow, which is no closed window
    return bool(window.is_open[0] or np.isnan(window.allowed_deg[0]))


def _closing_pace_ms(wish: Wish, azimuth_deg: float) -> float:
    found = closing_pace_ms(
        wish.strike,
        azimuth_deg=azimuth_deg,
        area=wish.position.moment.area,
        court=wish.venue.court,
        air=wish.venue.air,
    )
    return float(found[0])
