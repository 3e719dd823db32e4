"""Where to stand for a return: the middle of the fan between the wide serve and the one down the T.

The fan is flown from the server's place, hand and curve; a left-hander's is not a mirror image of
the same side. Recovery places after one's own shot are in `recovery.py`.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final

import numpy as np

from tactics.flight.bounce import bounce
from tactics.flight.court import Area
from tactics.flight.launch import aim
from tactics.flight.levels import CLUB, Level
from tactics.flight.motion import Array, Motion
from tactics.flight.path import trace
from tactics.flight.ranges import OutOfRange, out_of_range
from tactics.flight.running import run_distance_m
from tactics.flight.strike import Strike
from tactics.flight.venue import FULL_COURT, Venue

REACH_M: Final = 1.1  # without a step; assumption
FIRST_STEP_S: Final = 0.1  # lost between reaction and running; assumption
FROM_CENTRE_M: Final = 0.9  # where a singles server stands, either side of the centre mark
CONTACT_TO_STATURE: Final = 1.5  # height of the serve's contact over body height
DEFAULT_STATURE_M: Final = 1.80
_SLOWER: Final = np.linspace(1.0, 0.6, 17)  # a serve too fast to land in is hit slower
NEAREST_M: Final = -4.0  # behind the baseline: further in the serve is still in the air
FARTHEST_M: Final = 6.0


class Hand(StrEnum):
    """The hand that holds the racket."""

    RIGHT = "right"
    LEFT = "left"


class ServeSide(StrEnum):
    """The side of the centre mark the server stands on, seen by the server."""

    DEUCE = "deuce"
    AD = "ad"


@dataclass(frozen=True, slots=True, kw_only=True)
class ServeShape:
    """Pace as a share of the level's flat first serve, and spin (rpm) towards the server's curve.

    `side_rpm` is the side spin of a slice: to the left for a right-hander.
    """

    pace_share: float
    topspin_rpm: float
    side_rpm: float


# Shapes of the worked left-hander: slice 151, kick 137 and flat 176 km/h.
SLICE: Final = ServeShape(pace_share=0.858, topspin_rpm=900.0, side_rpm=2000.0)
KICK: Final = ServeShape(pace_share=0.778, topspin_rpm=2600.0, side_rpm=1200.0)
FLAT: Final = ServeShape(pace_share=1.0, topspin_rpm=700.0, side_rpm=700.0)
_WIDE_AIM_M: Final = (0.45, 1.8)  # inside the sideline and the service line
_WIDE_KICK_AIM_M: Final = (0.45, 1.5)
_CENTRE_AIM_M: Final = (0.45, 0.7)  # from the centre line and inside the service line


@dataclass(frozen=True, slots=True, kw_only=True)
class Server:
    """Who serves: hand, side, level, place along the baseline and height of contact (m).

    `wide` and `centre` are the shapes of the two serves that bound the fan; None takes the shape
    that suits the hand: wide a slice where it curves that way, else a kick; flat down the T.
    """

    hand: Hand = Hand.RIGHT
    side: ServeSide = ServeSide.DEUCE
    level: Level = field(default=CLUB)
    from_centre_m: float = FROM_CENTRE_M
    contact_height_m: float = CONTACT_TO_STATURE * DEFAULT_STATURE_M
    wide: ServeShape | None = None
    centre: ServeShape | None = None
    pace_ms: float | None = None

    @property
    def curves_left(self) -> bool:
        """Whether this server's slice curves to the server's left."""
        return self.hand is Hand.RIGHT

    @property
    def slice_runs_wide(self) -> bool:
        """Whether the slice curves towards the outer side of the box."""
        return self.curves_left == (self.side is ServeSide.DEUCE)

    @property
    def shapes(self) -> tuple[ServeShape, ServeShape]:
        """The wide serve and the one down the T."""
        wide = self.wide or (SLICE if self.slice_runs_wide else KICK)
        return wide, self.centre or FLAT

    @property
    def flat_pace_ms(self) -> float:
        """Pace of the flat first serve."""
        return self.level.serve_pace_ms if self.pace_ms is None else self.pace_ms


@dataclass(frozen=True, slots=True, kw_only=True)
class ServeAtReturner:
    """One serve where the returner meets it, in the returner's own view (m, s, km/h).

    `x_m` is to the returner's right; `beyond_line_m` how far outside the singles sideline.
    """

    x_m: float
    height_m: float
    time_s: float
    speed_ms: float
    beyond_line_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnStand:
    """Where to stand, in the returner's own view: x to the right, depth from the net (m).

    `by_angle_x_m` halves the angle at the server, `by_time_x_m` gives both serves the same share of
    what can be reached in time; `inside_line_m` is that of the latter. `to_*_m` are the ways from
    there, `covers_*_m` what is reached in time: less than the way means guessing.
    """

    depth_m: float
    by_angle_x_m: float
    by_time_x_m: float
    inside_line_m: float
    wide: ServeAtReturner
    centre: ServeAtReturner
    to_wide_m: float
    to_centre_m: float
    covers_wide_m: float
    covers_centre_m: float


def return_stand(
    server: Server,
    returner: Level = CLUB,
    behind_baseline_m: float = 1.0,
    venue: Venue = FULL_COURT,
) -> ReturnStand | OutOfRange | None:
    """The place to wait for the serve at a depth, negative inside the baseline.

    A serve that cannot land in at its pace is taken as much slower as it needs. None where none
    lands in, where it would bounce twice before it is there, or on a court without service line.
    """
    problem = out_of_range(
        "distance behind the baseline", behind_baseline_m, NEAREST_M, FARTHEST_M, "m"
    )
    if problem is not None:
        return problem
    depth = venue.court.half_length_m + behind_baseline_m
    met = _serves_at(server, depth, venue)
    if met is None or np.isnan(met.time_s).any():
        return None
    x = met.position_m[0]
    server_x = _server_x(server)
    across = venue.court.half_length_m + depth
    middle = np.arctan((x - server_x) / across).mean()
    covers = REACH_M + run_distance_m(
        met.time_s - returner.serve_reaction_s - FIRST_STEP_S, returner
    )
    by_time = (x[0] * covers[1] + x[1] * covers[0]) / covers.sum()
    wide, centre = (_at_returner(met, number, venue) for number in (0, 1))
    return ReturnStand(
        depth_m=depth,
        by_angle_x_m=-float(server_x + across * np.tan(middle)),
        by_time_x_m=-float(by_time),
        inside_line_m=venue.court.service_half_width_m - abs(float(by_time)),
        wide=wide,
        centre=centre,
        to_wide_m=abs(float(x[0] - by_time)),
        to_centre_m=abs(float(x[1] - by_time)),
        covers_wide_m=float(covers[0]),
        covers_centre_m=float(covers[1]),
    )


def _server_x(server: Server) -> float:
    return server.from_centre_m * (1.0 if server.side is ServeSide.DEUCE else -1.0)


def _serves_at(server: Server, depth_m: float, venue: Venue) -> Motion | None:
    """Both serves, wide and down the T, crossing the returner's line; server's view."""
    area = Area.FROM_RIGHT if server.side is ServeSide.DEUCE else Area.FROM_LEFT
    box = venue.court.box(area)
    if box is None:
        return None
    wide, centre = server.shapes
    outer = -1.0 if server.side is ServeSide.DEUCE else 1.0
    curve = 1.0 if server.curves_left else -1.0
    aside, short = _WIDE_AIM_M if server.slice_runs_wide else _WIDE_KICK_AIM_M
    from_centre, deep = _CENTRE_AIM_M
    half = venue.court.service_half_width_m
    done = aim(
        Strike(
            x_m=_server_x(server),
            y_m=-venue.court.half_length_m,
            z_m=server.contact_height_m,
            topspin_rpm=np.array([[wide.topspin_rpm], [centre.topspin_rpm]]),
            sidespin_rpm=curve * np.array([[wide.side_rpm], [centre.side_rpm]]),
        ),
        target_x_m=outer * np.array([[half - aside], [from_centre]]),
        pace_ms=server.flat_pace_ms * np.array([[wide.pace_share], [centre.pace_share]]) * _SLOWER,
        landing_y_m=box.y_high_m - np.array([[short], [deep]]),
        court=venue.court,
        air=venue.air,
    )
    possible = done.is_possible.reshape(2, _SLOWER.size)
    if not possible.any(axis=1).all():
        return None
    fastest = possible.argmax(axis=1) + _SLOWER.size * np.arange(2)
    landing = done.flight.landing.only(fastest)
    after = bounce(landing, surface=venue.surface, ball=venue.ball)
    return trace(after, ball=venue.ball, air=venue.air).crossing(depth_m)


def _at_returner(met: Motion, number: int, venue: Venue) -> ServeAtReturner:
    x, _, z = met.position_m[:, number]
    return ServeAtReturner(
        x_m=-float(x),
        height_m=float(z),
        time_s=float(met.time_s[number]),
        speed_ms=float(met.speed_ms[number]),
        beyond_line_m=float(abs(x) - venue.court.service_half_width_m),
    )


def stand_by_depth(
    server: Server,
    returner: Level = CLUB,
    venue: Venue = FULL_COURT,
    behind_m: Array | tuple[float, ...] = (-1.0, 0.0, 1.0, 2.0, 3.0),
) -> tuple[ReturnStand | OutOfRange | None, ...]:
    """The same for several depths: each metre back buys time and widens the fan."""
    return tuple(return_stand(server, returner, float(each), venue) for each in behind_m)
