"""One exchange in numbers: the shot, the opponent's contact, and both players' time to spare."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from tactics.flight.assumptions import MIDDLE
from tactics.flight.bounce import bounce, meet
from tactics.flight.estimate import shot_spread
from tactics.flight.interception import Meetings, meetings
from tactics.flight.moment import Moment
from tactics.flight.motion import Array, Motion
from tactics.flight.normal import Index
from tactics.flight.recovery import recovery_x_m
from tactics.flight.replies import REPLY_PACES, ease, opponent_spare_s, reply_fan, reply_targets
from tactics.flight.running import run_distance_m, run_time_s
from tactics.flight.shares import FINE_POWER, Shares, shares_of_balls
from tactics.flight.shots import Shots
from tactics.flight.trajectory import clearance_m, fly

VOLLEY_DEPTH_M: Final = 7.0  # an opponent nearer than this takes the ball in the air when in time
LEAST_SHARE: Final = 0.05  # replies that land in more rarely are no part of the fan


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Exchanges:
    """For n shots from one moment, arrays (n,); metres and seconds, nan where there is no shot.

    `contact_*` is where a comfortable opponent meets the ball; `opponent_spare_s` is the most time
    the opponent has in hand anywhere on the ball's path, negative when it cannot be reached.
    `hitter_spare_s` is the time left at the recovery place (`home_x_m`, the moment's depth) when
    the opponent hits, `short_m` what is still to run then.
    """

    shares: Shares
    height_over_net_m: Array
    landing_x_m: Array
    landing_y_m: Array
    flight_time_s: Array
    contact_time_s: Array
    contact_x_m: Array
    contact_y_m: Array
    contact_height_m: Array
    contact_speed_ms: Array
    home_x_m: Array
    run_m: Array
    short_m: Array
    hitter_spare_s: Array
    opponent_spare_s: Array

    def __len__(self) -> int:
        """Number of shots."""
        return int(self.flight_time_s.size)


def exchanges(shots: Shots, moment: Moment, power: int = FINE_POWER) -> Exchanges:
    """Everything about n shots but the estimate of the point; scatter as in `shot_spread`."""
    venue = moment.venue
    launch = shots.launch()
    flight = fly(launch, ball=venue.ball, air=venue.air)
    landing = flight.landing
    spare, in_air = _opponent(launch, landing, moment)
    after = bounce(landing, surface=venue.surface, ball=venue.ball)
    contact = _contact(meet(after, venue.court, air=venue.air), in_air)
    x, y, z = contact.position_m
    home_x = recovery_x_m(x, y, moment.home_depth_m, venue)
    run = np.hypot(home_x - moment.contact.x_m, moment.home_depth_m - moment.contact.depth_m)
    running_s = contact.time_s - MIDDLE.stroke_end_s
    return Exchanges(
        shares=shares_of_balls(shots, shot_spread(shots, moment), venue, moment.box, power),
        height_over_net_m=clearance_m(flight.crossing, venue.court),
        landing_x_m=landing.position_m[0],
        landing_y_m=landing.position_m[1],
        flight_time_s=landing.time_s,
        contact_time_s=contact.time_s,
        contact_x_m=x,
        contact_y_m=y,
        contact_height_m=z,
        contact_speed_ms=contact.speed_ms,
        home_x_m=home_x,
        run_m=run,
        short_m=np.maximum(0.0, run - run_distance_m(running_s, moment.hitter)),
        hitter_spare_s=running_s - run_time_s(run, moment.hitter),
        opponent_spare_s=spare,
    )


def _opponent(launch: Motion, landing: Motion, moment: Moment) -> tuple[Array, Meetings]:
    """Most time in hand for each shot, and the volleys an opponent at the net is in time for."""
    down = np.flatnonzero(landing.happens)
    found = meetings(
        launch.only(down), landing.only(down), moment.venue, in_air=not moment.is_serve
    )
    spare = opponent_spare_s(found, moment, MIDDLE)
    best = np.full(len(launch), -np.inf)
    np.maximum.at(best, down[found.ball], spare)
    best[np.isinf(best)] = np.nan
    at_net = moment.opponent_place_m[1] < VOLLEY_DEPTH_M * moment.venue.length_scale
    volleys = found.only(np.flatnonzero(found.is_in_air & (spare >= 0.0) & at_net))
    return best, Meetings(
        ball=down[volleys.ball],
        time_s=volleys.time_s,
        x_m=volleys.x_m,
        y_m=volleys.y_m,
        height_m=volleys.height_m,
        since_bounce_s=volleys.since_bounce_s,
    )


def _contact(bounced: Motion, volleys: Meetings) -> Motion:
    """The contact after the bounce, or the earliest volley where there is one."""
    time_s, place = bounced.time_s.copy(), bounced.position_m.copy()
    order = np.argsort(-volleys.time_s, kind="stable")  # the earliest is written last
    ball = volleys.ball[order]
    time_s[ball] = volleys.time_s[order]
    place[:, ball] = np.stack([volleys.x_m, volleys.y_m, volleys.height_m])[:, order]
    return Motion(
        time_s=time_s,
        position_m=place,
        velocity_ms=bounced.velocity_ms,
        spin_rad_s=bounced.spin_rad_s,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """One answer of the opponent: where on the hitter's side (m), how, and how often in."""

    target_x_m: float
    target_depth_m: float
    pace_ms: float
    time_s: float
    share_in: float


def fan_of_replies(done: Exchanges, number: int, moment: Moment) -> tuple[Reply, ...]:
    """The opponent's answers to shot `number` from the nominal contact, the surest pace a target.

    Sorted from the surest; answers that hardly ever land in are left out.
    """
    if np.isnan(done.contact_time_s[number]):
        return ()
    found = _only_meeting(done, number)
    easy = ease(opponent_spare_s(found, moment, MIDDLE), MIDDLE.set_spare_s)
    fan = reply_fan(found, easy, moment.opponent, moment.venue, MIDDLE)
    pace = fan.chance_in[0].argmax(axis=1)
    x, depth = reply_targets(moment.venue)
    replies = [
        Reply(
            target_x_m=float(x[target]),
            target_depth_m=float(depth[target]),
            pace_ms=REPLY_PACES[fast] * moment.opponent_pace_ms,
            time_s=float(fan.shot.time_s[0, target, fast]),
            share_in=float(fan.chance_in[0, target, fast]),
        )
        for target, fast in enumerate(pace)
    ]
    known = [each for each in replies if each.share_in >= LEAST_SHARE]
    return tuple(sorted(known, key=lambda each: -each.share_in))


def _only_meeting(done: Exchanges, number: int) -> Meetings:
    bounce_s = done.flight_time_s[number]
    contact_s = done.contact_time_s[number]
    since = contact_s - bounce_s if contact_s > bounce_s else np.inf
    one: Index = np.array([number])
    return Meetings(
        ball=np.zeros(1, dtype=np.intp),
        time_s=done.contact_time_s[one],
        x_m=done.contact_x_m[one],
        y_m=done.contact_y_m[one],
        height_m=done.contact_height_m[one],
        since_bounce_s=np.array([since]),
    )
