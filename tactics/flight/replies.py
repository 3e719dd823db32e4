"""The opponent's fan of replies: what can be played from a meeting, and how often it lands in."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from tactics.flight.assumptions import SET_PACE_CAP, Assumptions
from tactics.flight.flat_fire import (
    STEEPEST_TANGENT,
    FlatFire,
    flat_fire,
    flat_share_in,
    flat_spread,
)
from tactics.flight.interception import Meetings
from tactics.flight.levels import Level
from tactics.flight.moment import Moment, rally_pace_ms
from tactics.flight.motion import Array
from tactics.flight.running import run_time_s
from tactics.flight.venue import Venue

REPLY_PACES: Final = (0.55, 0.70, 0.85, 1.0, SET_PACE_CAP)
_VOLLEY_PACE: Final = 0.75
_VOLLEY_SPIN_RPM: Final = -500.0
_OVERHEAD_M: Final = 1.7
# How much harder a contact is at a height (m): awkward near the ground and above the shoulder.
_HEIGHTS_M: Final = (0.1, 0.3, 0.6, 1.3, 1.7, 2.3)
_HEIGHT_FACTORS: Final = (1.4, 1.2, 1.0, 1.0, 1.2, 1.35)
_HALF_VOLLEY: Final = (0.16, 0.5, 1.3)  # within s of the bounce, below m: factor
_QUICK: Final = (0.7, 1.2)  # less than s since the hitter's contact: factor


def reply_targets(venue: Venue) -> tuple[Array, Array]:
    """The 13 places a reply aims at: x and distance from the net on the hitter's side (13,), m."""
    across, along = venue.width_scale, venue.length_scale
    rows = [(x, depth) for depth in (10.385, 8.885) for x in (0.0, 2.115, -2.115, 3.115, -3.115)]
    rows += [(3.315, 7.4), (-3.315, 7.4), (0.0, 5.5)]
    targets = np.array(rows)
    return targets[:, 0] * across, targets[:, 1] * along


def opponent_spare_s(found: Meetings, moment: Moment, assumed: Assumptions) -> Array:
    """Seconds the opponent has in hand at each meeting (m,); negative when late."""
    x, depth = moment.opponent_place_m
    away = np.hypot(found.x_m - x, found.y_m - depth) - assumed.reach_m
    reaction = moment.opponent_reaction_s + assumed.reaction_shift_s + moment.opponent_late_s
    run = assumed.split_step * run_time_s(away, moment.opponent)
    spare: Array = found.time_s - reaction - run
    return spare


def ease(spare_s: Array, set_spare_s: float) -> Array:
    """From 0 (no time to spare) smoothly to 1 (met set)."""
    share = np.clip(spare_s / set_spare_s, 0.0, 1.0)
    smooth: Array = share * share * (3.0 - 2.0 * share)
    return smooth


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fan:
    """Replies from m meetings to 13 targets at 5 paces.

    `chance_in` (m, 13, 5) is 0 where the reply cannot be played; `shot` holds the flights,
    `distance_m` (m, 13, 1) their length, `topspin_rpm` (m, 1, 1) their spin.
    """

    found: Meetings
    shot: FlatFire
    chance_in: Array
    distance_m: Array
    topspin_rpm: Array


def reply_fan(
    found: Meetings,
    easy: Array,
    opponent: Level,
    venue: Venue,
    assumed: Assumptions,
) -> Fan:
    """All replies of an opponent who meets the ball with that ease (m,)."""
    x, y = found.x_m[:, None, None], found.y_m[:, None, None]
    target_x, target_depth = (each[None, :, None] for each in reply_targets(venue))
    distance = np.hypot(target_x - x, target_depth + y)
    pace_share = np.array(REPLY_PACES)[None, None, :]
    spin = _spin(found, opponent)[:, None, None]
    drag = venue.flat_drag()
    shot = flat_fire(
        distance_m=distance,
        start_height_m=found.height_m[:, None, None],
        pace_ms=pace_share * rally_pace_ms(opponent, venue),
        topspin_rpm=spin,
        drag=drag,
    )
    strain = execution_factor(found, easy, assumed)[:, None, None] * _over_pace(
        pace_share, easy[:, None, None], assumed
    )
    to_net = distance * (y / (target_depth + y))
    net_x = x + (target_x - x) * (y / (target_depth + y))
    spread = flat_spread(
        shot,
        to_net,
        strain * np.radians(opponent.sd_elevation_deg),
        strain * np.radians(opponent.sd_azimuth_deg),
        strain * opponent.sd_speed,
    )
    chance = flat_share_in(
        clearance_m=shot.height_m(to_net) - drag.radius_m - venue.court.net_height_m(net_x),
        behind_m=venue.court.half_length_m - target_depth,
        target_x_m=target_x,
        half_width_m=venue.court.half_width_m,
        spread=spread,
    )
    cap = _pace_cap(found, easy, assumed)[:, None, None]
    playable = (pace_share <= cap + 1e-9) & (shot.tangent < STEEPEST_TANGENT)
    return Fan(
        found=found,
        shot=shot,
        chance_in=np.where(playable, chance, 0.0),
        distance_m=distance,
        topspin_rpm=spin,
    )


def _pace_cap(found: Meetings, easy: Array, assumed: Assumptions) -> Array:
    """The most an opponent can hit, as a share of rally pace, (m,)."""
    cap = assumed.late_pace_cap + (SET_PACE_CAP - assumed.late_pace_cap) * easy
    is_volley = found.is_in_air & (found.height_m < _OVERHEAD_M)
    return np.where(is_volley, np.minimum(cap, _VOLLEY_PACE), cap)


def _spin(found: Meetings, opponent: Level) -> Array:
    in_air = np.where(found.height_m < _OVERHEAD_M, _VOLLEY_SPIN_RPM, 0.0)
    return np.where(found.is_in_air, in_air, opponent.rally_spin_rpm)


def execution_factor(found: Meetings, easy: Array, assumed: Assumptions) -> Array:
    """What the contact does to the opponent's scatter, (m,)."""
    late = assumed.late_factor - (assumed.late_factor - 1.0) * easy
    height = np.interp(found.height_m, _HEIGHTS_M, _HEIGHT_FACTORS)
    since, below, harder = _HALF_VOLLEY
    is_half_volley = (found.since_bounce_s < since) & (found.height_m < below)
    quick, hurried = _QUICK
    factor: Array = (
        assumed.opponent_scatter
        * late
        * height
        * np.where(is_half_volley, harder, 1.0)
        * np.where(found.time_s < quick, hurried, 1.0)
    )
    return factor


def _over_pace(pace_share: Array, easy: Array, assumed: Assumptions) -> Array:
    comfortable = assumed.late_pace_share + (1.0 - assumed.late_pace_share) * easy
    over = np.maximum(0.0, pace_share / comfortable - 1.0)
    growth: Array = 1.0 + assumed.pace_growth * over
    return growth
