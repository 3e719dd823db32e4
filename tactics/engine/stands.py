"""Where to stand for a return, from the facts about server and returner."""

from dataclasses import dataclass

from tactics.engine.position import Position
from tactics.engine.strokes import serve_shape
from tactics.engine.told import USUAL_STATURE_M
from tactics.engine.typical import only_word
from tactics.flight.court import Stage
from tactics.flight.levels import Level
from tactics.flight.ranges import OutOfRange
from tactics.flight.stand import (
    CONTACT_TO_STATURE,
    FROM_CENTRE_M,
    Hand,
    ReturnStand,
    Server,
    ServeSide,
    return_stand,
    stand_by_depth,
)
from tactics.flight.venue import Venue
from tactics.model.situation import Situation

DEPTHS_M = (-1.0, 0.0, 1.0, 2.0, 3.0)
"""Metres behind the baseline that are compared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ServeAsked:
    """What is asked about a serve beside the facts; None and "": as usual for hand and level."""

    behind_baseline_m: float = 1.0
    from_centre_m: float | None = None
    contact_height_m: float | None = None
    curve: str = ""
    pace_ms: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StandFound:
    """The place for one return and at several depths, with who serves and who returns.

    place: None where a serve cannot land in, or is down twice before it is there. right: the sign
    of x on the returner's forehand side.
    """

    server: Server
    returner: Level
    venue: Venue
    right: int
    place: ReturnStand | OutOfRange | None
    by_depth: tuple[ReturnStand | OutOfRange | None, ...]
    taken: tuple[str, ...]


def stand_found(position: Position, asked: ServeAsked) -> StandFound:
    """Return where to stand for a return; the server plays at the opponent's level."""
    venue = position.venue
    taken = [each for each in position.taken if each.startswith("level")]
    server = _server(position, asked, taken)
    returner = position.moment.hitter
    return StandFound(
        server=server,
        returner=returner,
        venue=venue,
        right=position.right,
        place=return_stand(server, returner, asked.behind_baseline_m, venue),
        by_depth=stand_by_depth(server, returner, venue, DEPTHS_M),
        taken=tuple(taken),
    )


def return_place(position: Position, asked: ServeAsked) -> ReturnStand | OutOfRange | None:
    """Return where to stand for a return at the one depth asked for."""
    server = _server(position, asked, [])
    return return_stand(server, position.moment.hitter, asked.behind_baseline_m, position.venue)


def _server(position: Position, asked: ServeAsked, taken: list[str]) -> Server:
    venue, situation = position.venue, position.situation
    return Server(
        hand=Hand(_word(situation, "opponent hand", "right", taken)),
        side=ServeSide(_word(situation, "serve side", "deuce", taken)),
        level=position.moment.opponent,
        from_centre_m=_or(asked.from_centre_m, FROM_CENTRE_M * venue.width_scale),
        contact_height_m=_or(asked.contact_height_m, _usual_contact_m(situation)),
        wide=serve_shape(asked.curve) if asked.curve else None,
        pace_ms=asked.pace_ms,
    )


def _usual_contact_m(situation: Situation) -> float:
    stage = Stage(only_word(situation.get("stage")) or Stage.FULL_COURT)
    return CONTACT_TO_STATURE * USUAL_STATURE_M[stage]


def _or(value: float | None, other: float) -> float:
    return other if value is None else value


def _word(situation: Situation, fact: str, usual: str, taken: list[str]) -> str:
    found = only_word(situation.get(fact))
    if not found:
        taken.append(f"{fact} not given: {usual}")
    return found or usual
