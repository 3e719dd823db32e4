"""The hitter's way home and the chance to win the point from the answer to a reply."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from tactics.flight.assumptions import Assumptions
from tactics.flight.constants import GRAVITY_MS2, RAD_S_PER_RPM
from tactics.flight.interception import BEHIND_BASELINE_M, Meetings
from tactics.flight.levels import Level
from tactics.flight.moment import Moment
from tactics.flight.motion import Array
from tactics.flight.normal import Index, normal_share
from tactics.flight.recovery import recovery_x_m
from tactics.flight.replies import Fan, ease, reply_targets
from tactics.flight.running import run_distance_m, run_time_s

_AFTER_BOUNCE_S: Final = (0.15, 0.3, 0.45, 0.6, 0.8, 1.0)
_HEIGHTS_M: Final = (0.25, 2.0)
_AIR_HEIGHTS_M: Final = (0.1, 2.6)
_VOLLEY_DEPTH_M: Final = 7.0  # a hitter nearer to the net also meets replies in the air
_AIR_LOSS: Final = 0.95  # of the forward distance after the bounce
_SHORT_BALL_M: Final = (
    9.1,
    2.7,
)  # a reply that lands nearer than this is attackable, fully 2.7 m on
_TIME_TO_ATTACK_S: Final = 0.6
_NET_LEVEL_M: Final = (0.9, 0.4)
NEVER: Final = -9.0  # spare seconds of a ball that cannot be met at all


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Home:
    """Where the hitter has got to when the opponent hits, for m meetings; x, depth from the net.

    `share` is the part of the way home that is done (0 to 1), `owed_m` what is left of an extra way
    that leads nowhere.
    """

    x_m: Array
    depth_m: Array
    share: Array
    owed_m: Array


def way_home(found: Meetings, moment: Moment, assumed: Assumptions, extra_m: float = 0.0) -> Home:
    """Straight run from the contact to the recovery place until each meeting.

    `extra_m` lengthens the way by a distance that leads nowhere (for studying longer recoveries).
    """
    depth = moment.home_depth_m
    goal_x = recovery_x_m(found.x_m, found.y_m, depth, moment.venue)
    from_x, from_depth = moment.contact.x_m, moment.contact.depth_m
    way = np.hypot(goal_x - from_x, depth - from_depth)
    run = run_distance_m(found.time_s - assumed.stroke_end_s, moment.hitter)
    done = np.minimum(1.0, run / np.maximum(way, 1e-9))
    return Home(
        x_m=from_x + done * (goal_x - from_x),
        depth_m=from_depth + done * (depth - from_depth),
        share=np.minimum(1.0, run / np.maximum(way + extra_m, 1e-9)),
        owed_m=np.clip(way + extra_m - run, 0.0, extra_m),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Reply:
    """k single replies: landing place, direction (unit), time, speeds after the bounce."""

    target_x: Array
    target_depth: Array
    ahead_x: Array
    ahead_y: Array
    time_s: Array
    forward_ms: Array
    upward_ms: Array


def answer_chance(
    fan: Fan,
    which: tuple[Index, ...],
    home: Home,
    moment: Moment,
    assumed: Assumptions,
) -> Array:
    """The hitter's chance to win the point after each chosen reply, (k,).

    `which` are the indices (meeting, target, pace) of k replies of the fan.
    """
    meeting = which[0]
    reply = _after_bounce(fan, which, moment)
    place = (home.x_m[meeting], home.depth_m[meeting])
    share = home.share[meeting]
    owed = home.owed_m[meeting]
    slowness = assumed.split_step + (1.0 - assumed.split_step) * (1.0 - share)
    reaction = moment.hitter.reaction_s + assumed.reaction_shift_s
    spare = _ground_spare(reply, place, owed, slowness, moment, assumed) - reaction
    short, span = (each * moment.venue.length_scale for each in _SHORT_BALL_M)
    is_short = np.clip((short - reply.target_depth) / span, 0.0, 1.0)
    attack = np.maximum(is_short, _unhurried(spare, moment.hitter))
    chance = _winning(spare, attack, assumed)
    if moment.home_depth_m < _VOLLEY_DEPTH_M or moment.contact.depth_m < _VOLLEY_DEPTH_M:
        volley = _volley_chance(fan, which, place, owed, slowness, moment, assumed)
        chance = np.maximum(chance, volley)
    return chance


def _after_bounce(fan: Fan, which: tuple[Index, ...], moment: Moment) -> _Reply:
    """The bounce in the plane of the reply: slides or grips, as in the full bounce."""
    meeting, target, pace = which
    venue, drag = moment.venue, fan.shot.drag
    distance = fan.distance_m[meeting, target, 0]
    target_x, target_depth = (each[target] for each in reply_targets(venue))
    speed = np.sqrt(fan.shot.forward2[meeting, target, pace]) * np.exp(
        -drag.slowing_per_m * distance
    )
    fall = speed * fan.shot.landing_slope[meeting, target, pace]
    slip = speed - drag.radius_m * RAD_S_PER_RPM * fan.topspin_rpm[meeting, 0, 0]
    share = venue.ball.inertia_share
    grip = (1.0 + venue.surface.grip_restitution) * share / (1.0 + share) * np.abs(slip)
    slide = venue.surface.friction * (1.0 + venue.restitution) * fall
    return _Reply(
        target_x=target_x,
        target_depth=target_depth,
        ahead_x=(target_x - fan.found.x_m[meeting]) / distance,
        ahead_y=(target_depth + fan.found.y_m[meeting]) / distance,
        time_s=fan.shot.time_s[meeting, target, pace],
        forward_ms=speed - np.sign(slip) * np.minimum(slide, grip),
        upward_ms=venue.restitution * fall,
    )


def _ground_spare(
    reply: _Reply,
    place: tuple[Array, Array],
    owed: Array,
    slowness: Array,
    moment: Moment,
    assumed: Assumptions,
) -> Array:
    """Best time in hand after the bounce, reaction not yet taken off, (k,)."""
    after = np.array(_AFTER_BOUNCE_S)[:, None]
    height = (
        moment.venue.ball.radius_m + reply.upward_ms * after - 0.5 * GRAVITY_MS2 * after * after
    )
    along = (_AIR_LOSS * after) * reply.forward_ms
    x = reply.target_x + along * reply.ahead_x
    depth = reply.target_depth + along * reply.ahead_y
    away = np.hypot(x - place[0], depth - place[1]) - assumed.reach_m + owed
    spare = reply.time_s + after - slowness * run_time_s(away, moment.hitter)
    low, high = _HEIGHTS_M
    far = moment.venue.court.half_length_m + BEHIND_BASELINE_M
    workable = (height > low) & (height < high) & (depth <= far)
    best: Array = np.where(workable, spare, NEVER).max(axis=0)
    return best


def _volley_chance(
    fan: Fan,
    which: tuple[Index, ...],
    place: tuple[Array, Array],
    owed: Array,
    slowness: Array,
    moment: Moment,
    assumed: Assumptions,
) -> Array:
    """Chance from meeting the reply in the air in the hitter's own plane; 0 where there is none."""
    meeting, target, _ = which
    x, y = fan.found.x_m[meeting], fan.found.y_m[meeting]
    target_x, target_depth = (each[target] for each in reply_targets(moment.venue))
    part = (y + place[1]) / (y + target_depth)
    distance = fan.distance_m[meeting, target, 0]
    shot = fan.shot.picked(which)
    height, time = shot.height_m(part * distance), shot.time_to_s(part * distance)
    away = np.abs(x + part * (target_x - x) - place[0]) - assumed.reach_m + owed
    reaction = moment.hitter.reaction_s + assumed.reaction_shift_s
    spare = time - reaction - slowness * run_time_s(away, moment.hitter)
    level, span = _NET_LEVEL_M
    above = np.clip((height - level) / span, -1.0, 1.0)
    attack = np.where(above >= 0.0, np.maximum(above, _unhurried(spare, moment.hitter)), above)
    low, high = _AIR_HEIGHTS_M
    workable = (part < 1.0) & (place[1] < _VOLLEY_DEPTH_M) & (height > low) & (height < high)
    return np.where(workable, _winning(spare, attack, assumed), 0.0)


def _unhurried(spare_s: Array, hitter: Level) -> Array:
    """How attackable a ball is for the time it gives, 0 to 1."""
    share: Array = np.clip((spare_s - hitter.rally_spare_s) / _TIME_TO_ATTACK_S, 0.0, 1.0)
    return share


def _winning(spare_s: Array, attack: Array, assumed: Assumptions) -> Array:
    """Chance to reach the ball times the chance to win the point from there."""
    easy = ease(spare_s, assumed.set_spare_s)
    worth = 0.5 - assumed.loss_when_late * (1.0 - easy) + assumed.gain_from_attack * attack * easy
    reached = normal_share(spare_s / assumed.spread_time_s)
    chance: Array = reached * np.clip(worth, 0.02, 0.98)
    return chance
