"""The estimate of a point for several shots at once: one number each under one set of assumptions.

Layers: each candidate is flown in full with its scatter; the opponent meets every ball that lands
in where it suits best and plays the best reply; the hitter's answer to it has a chance by time and
place. It orders shots; alone a value means little (see `point.py` for the range).
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from tactics.flight.answers import Home, answer_chance, way_home
from tactics.flight.assumptions import MIDDLE, Assumptions
from tactics.flight.interception import SAMPLE_S, Meetings, meetings
from tactics.flight.moment import Moment
from tactics.flight.motion import Array, Motion
from tactics.flight.normal import from_logit, logit, normal_share
from tactics.flight.replies import (
    Fan,
    ease,
    execution_factor,
    opponent_spare_s,
    reply_fan,
)
from tactics.flight.scatter import comfortable_pace_share, pace_factor
from tactics.flight.shares import mirrored_normals, shares_of_balls
from tactics.flight.shots import Shots, Spread, spread_of
from tactics.flight.trajectory import clearance_m, fly

FINE_POWER: Final = 6  # 64 errors and their mirror images: 128 balls a shot
SHARE_POWER: Final = 9
_LEAST_REACHED: Final = 0.01  # meetings reached more rarely than this decide nothing
_BLOCK: Final = 768  # meetings worked on together, so that they stay in the processor's cache


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Values:
    """For n shots: the estimated chance to win the point and the share of balls in, (n,)."""

    chance: Array
    share_in: Array


def shot_spread(shots: Shots, moment: Moment, assumed: Assumptions = MIDDLE) -> Spread:
    """Scatter of each shot: the hitter's own, times strain, times the growth with its pace."""
    strain = moment.strain
    comfortable = comfortable_pace_share(
        strain.balance_factor, assumed.late_pace_share, assumed.late_factor
    )
    base = moment.scatter.times(strain.factor * assumed.hitter_scatter)
    if moment.is_serve:
        return spread_of([base] * len(shots))
    shares = shots.pace_ms / moment.hitter_pace_ms
    return spread_of(
        [base.times(pace_factor(each, comfortable, assumed.pace_growth)) for each in shares]
    )


def point_values(
    shots: Shots,
    moment: Moment,
    assumed: Assumptions = MIDDLE,
    *,
    power: int = FINE_POWER,
    sample_s: float = SAMPLE_S,
    extra_m: float = 0.0,
) -> Values:
    """Chance to win the point with each of n shots, all with the same errors.

    The share in comes from the quadrature of `shares.py`; what a ball that lands in is worth from
    2**(power + 1) balls a shot. `extra_m` lengthens the way home (for studying recoveries).
    """
    drag = moment.venue.ball.drag * assumed.drag / MIDDLE.drag
    moment = replace(moment, venue=moment.venue.with_drag(drag))
    spread = shot_spread(shots, moment, assumed)
    share_in = shares_of_balls(shots, spread, moment.venue, moment.box, SHARE_POWER).into_court
    normals = mirrored_normals(power)
    balls = shots.scattered(normals, spread)
    worth = _worth_when_in(balls, len(normals), moment, assumed, sample_s, extra_m)
    return Values(chance=share_in * worth, share_in=share_in)


def central_values(shots: Shots, moment: Moment) -> Array:
    """Chance (n,) after each ball exactly as aimed, 0 for one that is out: a quick first sieve."""
    return _worth_when_in(shots.launch(), 1, moment, MIDDLE, SAMPLE_S, 0.0)


def _worth_when_in(
    balls: Motion,
    balls_a_shot: int,
    moment: Moment,
    assumed: Assumptions,
    sample_s: float,
    extra_m: float,
) -> Array:
    """Mean chance over the balls of each shot that land in, 0 where none does."""
    venue = moment.venue
    flight = fly(balls, ball=venue.ball, air=venue.air)
    x, y, _ = flight.landing.position_m
    clears = clearance_m(flight.crossing, venue.court) >= 0.0
    is_in = np.flatnonzero(clears & moment.box.contains(x, y))
    found = meetings(
        balls.only(is_in),
        flight.landing.only(is_in),
        venue,
        in_air=not moment.is_serve,
        sample_s=sample_s,
    )
    threat = _threat(found, is_in.size, moment, assumed, extra_m)
    won = from_logit(logit(1.0 - threat) + moment.hitter.point_odds)
    shot, count = is_in // balls_a_shot, len(balls) // balls_a_shot
    total = np.bincount(shot, weights=won, minlength=count)
    return np.asarray(total / np.maximum(np.bincount(shot, minlength=count), 1))


def _threat(
    found: Meetings, count: int, moment: Moment, assumed: Assumptions, extra_m: float
) -> Array:
    """The opponent's chance from the best meeting with each ball that landed in, (count,)."""
    spare = opponent_spare_s(found, moment, assumed)
    reached = normal_share(spare / assumed.spread_time_s)
    easy = ease(spare, assumed.set_spare_s)
    useful = np.flatnonzero(reached > _LEAST_REACHED)
    promise = reached[useful] / execution_factor(found.only(useful), easy[useful], assumed)
    useful = useful[np.argsort(-promise, kind="stable")]
    threat = np.zeros(count)
    for start in range(0, useful.size, _BLOCK):
        block = useful[start : start + _BLOCK]
        part = found.only(block)
        fan = reply_fan(part, easy[block], moment.opponent, moment.venue, assumed)
        home = way_home(part, moment, assumed, extra_m)
        worth = _best_replies(fan, reached[block], threat, home, moment, assumed)
        np.maximum.at(threat, part.ball, worth)
    return threat


def _best_replies(
    fan: Fan,
    reached: Array,
    threat: Array,
    home: Home,
    moment: Moment,
    assumed: Assumptions,
) -> Array:
    """Reached times the worth of the best reply of each meeting (m,).

    Too low, harmlessly, where `threat` says that the ball already offers something better.
    """
    odds = moment.opponent.reply_odds
    targets, paces = fan.chance_in.shape[1:]
    best = fan.chance_in.reshape(-1, targets * paces).argmax(axis=1)
    surest = (np.arange(best.size), best // paces, best % paces)
    worth = fan.chance_in[surest] * (1.0 - answer_chance(fan, surest, home, moment, assumed))
    # a reply that lands in too rarely cannot beat what is there already, whatever the answer
    known = np.minimum(threat[fan.found.ball] / reached, 1.0)
    needed = np.maximum(from_logit(logit(known) - odds), worth)
    which = np.nonzero(fan.chance_in > needed[:, None, None])
    others = fan.chance_in[which] * (1.0 - answer_chance(fan, which, home, moment, assumed))
    np.maximum.at(worth, which[0], others)
    return np.asarray(reached * from_logit(logit(worth) + odds))
