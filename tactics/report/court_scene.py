"""What stands on a court and where balls go, before it is drawn: in characters or as SVG.

Frame: the hitter's own view, metres; x to the right, y along the court, the hitter at y < 0.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from tactics.engine.position import Position
from tactics.flight.bounce import bounce
from tactics.flight.court import Court
from tactics.flight.path import Path, trace
from tactics.flight.trajectory import fly
from tactics.report.shot_text import Shown

_SAMPLES = 80


class What(StrEnum):
    """Who or what a mark stands for."""

    PLAYER = "player"
    OPPONENT = "opponent"
    LANDING = "landing of that shot"
    HOME = "right place afterwards"
    REPLY = "where a reply may land"
    SERVER = "server"
    STAND = "place to stand"
    SERVE = "serve as it comes to the returner"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Something at a place (m); text: the number of a shot, else nothing."""

    what: What
    x_m: float
    y_m: float
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A straight way seen from above, from place to place (m); number: the shot's."""

    start: tuple[float, float]
    end: tuple[float, float]
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class CourtScene:
    """A court with what is on it; the two hands only name the sides."""

    court: Court
    marks: tuple[Mark, ...]
    ways: tuple[Way, ...]
    forehand_is_right: bool = True
    their_forehand_is_right: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Flight:
    """A ball seen from the side: (distance along the court from the net, height), metres."""

    number: int
    places: tuple[tuple[float, float], ...]


def shot_scene(shown: Sequence[Shown], position: Position) -> CourtScene:
    """Return who stands where, the shots, and for a single one the place to go and the replies."""
    contact = position.moment.contact
    opponent_x, opponent_depth = position.moment.opponent_place_m
    flown = [(each.number, each.flown) for each in shown if each.flown is not None]
    landings = [
        Mark(
            what=What.LANDING,
            x_m=float(done.exchanges.landing_x_m[0]),
            y_m=float(done.exchanges.landing_y_m[0]),
            text=str(number),
        )
        for number, done in flown
    ]
    start = (contact.x_m, -contact.depth_m)
    return CourtScene(
        court=position.venue.court,
        marks=(
            *_afterwards(shown),
            *reversed(landings),
            Mark(what=What.OPPONENT, x_m=opponent_x, y_m=opponent_depth),
            Mark(what=What.PLAYER, x_m=contact.x_m, y_m=-contact.depth_m),
        ),
        ways=tuple(
            Way(start=start, end=(mark.x_m, mark.y_m), number=int(mark.text)) for mark in landings
        ),
        forehand_is_right=position.right > 0,
        their_forehand_is_right=position.their_right < 0,
    )


def _afterwards(shown: Sequence[Shown]) -> list[Mark]:
    """Return the right place and the replies of a single shot; of several, nothing."""
    only = shown[0].flown if len(shown) == 1 else None
    if only is None:
        return []
    marks = [
        Mark(what=What.REPLY, x_m=reply.target_x_m, y_m=-reply.target_depth_m)
        for reply in only.replies
    ]
    home_x = float(only.exchanges.home_x_m[0])
    if not np.isnan(home_x):
        depth = only.candidate.moment.home_depth_m
        marks.append(Mark(what=What.HOME, x_m=home_x, y_m=-depth))
    return marks


def side_flights(shown: Sequence[Shown]) -> tuple[Flight, ...]:
    """Return each shot from the side: to its bounce, and on to where the opponent meets it."""
    return tuple(_flight(each) for each in shown if each.flown is not None)


def _flight(shown: Shown) -> Flight:
    flown = shown.flown
    assert flown is not None
    moment = flown.candidate.moment
    launch = flown.candidate.first().launch()
    ball, air = moment.venue.ball, moment.venue.air
    landing = fly(launch, ball=ball, air=air).landing
    landing_s, contact_s = float(landing.time_s[0]), float(flown.exchanges.contact_time_s[0])
    places = _sampled(
        trace(launch, ball=ball, air=air), 0.0, min(landing_s, _or(contact_s, landing_s))
    )
    if contact_s > landing_s:
        after = bounce(landing, surface=moment.venue.surface, ball=ball)
        places += _sampled(trace(after, ball=ball, air=air), landing_s, contact_s)
    return Flight(number=shown.number, places=tuple(places))


def _or(value: float, other: float) -> float:
    return other if np.isnan(value) else value


def _sampled(path: Path, start_s: float, end_s: float) -> list[tuple[float, float]]:
    times = np.linspace(start_s, end_s, _SAMPLES)[:, None]
    y, z = path.at(times).position_m[1:, :, 0]
    return [(float(a), float(b)) for a, b in zip(y, z, strict=True) if not np.isnan(a)]
