"""What a case file under cases/exchanges can ask to be measured: names to functions of its `given`.

Keys of `given` carry their units; contacts and targets are in the hitter's frame (y < 0 there).
Shares and chances are in percent.
"""

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from tactics.flight.constants import FOOTPRINT
from tactics.flight.court import Area
from tactics.flight.estimate import point_values
from tactics.flight.exchange import Exchanges, exchanges
from tactics.flight.flat_fire import FlatFire, flat_fire, flat_share_in, flat_spread
from tactics.flight.launch import aim
from tactics.flight.levels import LEVELS, Level
from tactics.flight.moment import Moment, home_depth_m
from tactics.flight.motion import Array
from tactics.flight.point import compare_shots, drawn_values
from tactics.flight.recovery import recovery_x_m
from tactics.flight.running import run_distance_m, run_time_s
from tactics.flight.scatter import Balance, Scatter, Strain, level_scatter
from tactics.flight.shares import Shares, mirrored_normals, shares_of_balls
from tactics.flight.shots import Contact, Shots, joined_shots, spread_of
from tactics.flight.stand import Hand, ReturnStand, Server, ServeSide, return_stand
from tactics.flight.strike import Strike
from tactics.flight.trajectory import clearance_m, fly
from tactics.flight.venue import FULL_COURT

Given = Mapping[str, Any]
COURT = FULL_COURT.court


def level_of(given: Given) -> Level:
    return LEVELS[given["level"]]


def contact_of(given: Given) -> Contact:
    x, y, z = given["from_m"]
    return Contact(x_m=x, depth_m=-y, height_m=z)


def scatter_of(given: Given) -> Scatter:
    return level_scatter(level_of(given)).times(given.get("factor", 1.0))


def shots_of(given: Given) -> Shots:
    """By elevation and azimuth, or by target and two of pace, height over net and depth."""
    contact = contact_of(given)
    pace = given["pace_kmh"] / 3.6 if "pace_kmh" in given else given.get("pace_ms")
    spin = {name: given.get(name, 0.0) for name in ("topspin_rpm", "sidespin_rpm")}
    if "elevation_deg" in given:
        columns = [pace, given["elevation_deg"], given.get("azimuth_deg", 0.0), *spin.values()]
    else:
        x, y, z = given["from_m"]
        done = aim(
            Strike(x_m=x, y_m=y, z_m=z, **spin),
            target_x_m=given["to_x_m"],
            pace_ms=pace,
            height_over_net_m=given.get("height_over_net_m"),
            landing_y_m=given.get("to_y_m"),
        )
        columns = [done.pace_ms, done.elevation_deg, done.azimuth_deg, *spin.values()]
    pace, elevation, azimuth, topspin, side = (
        np.ravel(each).astype(float) for each in np.broadcast_arrays(*columns)
    )
    return Shots(
        contact=contact,
        pace_ms=pace,
        elevation_deg=elevation,
        azimuth_deg=azimuth,
        topspin_rpm=topspin,
        sidespin_rpm=side,
    )


def shares_of(given: Given) -> Shares:
    shots, box = shots_of(given), COURT.box(Area(given.get("area", "court")))
    return shares_of_balls(shots, spread_of([scatter_of(given)] * len(shots)), FULL_COURT, box)


def moment_of(given: Given) -> Moment:
    level = level_of(given)
    x, depth = given.get("opponent_m", (0.0, home_depth_m(level, FULL_COURT)))
    if given.get("opponent_on_bisector"):
        contact = contact_of(given)
        x = -float(recovery_x_m(-contact.x_m, contact.depth_m, depth, FULL_COURT))
    return Moment(
        contact=contact_of(given),
        hitter=level,
        opponent=level,
        strain=Strain(balance=Balance(given.get("balance", "set"))),
        opponent_x_m=x,
        opponent_depth_m=depth,
        home_m=given.get("home_m"),
    )


def exchange_of(given: Given) -> Exchanges:
    return exchanges(shots_of(given), moment_of(given))


def share_in_pct(given: Given) -> Array:
    return 100 * shares_of(given).into_court


def best_share_in_pct(given: Given) -> float:
    return float(100 * np.nanmax(shares_of(given).into_court))


def served_share_in_pct(given: Given) -> float:
    """At the elevation, near the aimed one, that suits the competitive level best."""
    aimed = shots_of(given)
    elevations = aimed.elevation_deg + np.linspace(-2.0, 2.0, 81)
    turned = {**given, "azimuth_deg": float(aimed.azimuth_deg[0]), "elevation_deg": elevations}
    best = int(np.argmax(shares_of({**turned, "level": "competitive"}).into_court))
    return float(100 * shares_of(turned).into_court[best])


def misses_pct(given: Given) -> list[float]:
    shares = shares_of(given)
    return [100 * each.item() for each in (shares.into_net, shares.long, shares.wide)]


def landing_spread_m(given: Given) -> list[float]:
    shares = shares_of(given)
    return [shares.sd_depth_m.item(), shares.sd_sideways_m.item()]


def height_over_net_m(given: Given) -> Array:
    return exchange_of(given).height_over_net_m


def inside_baseline_m(given: Given) -> Array:
    return COURT.half_length_m - exchange_of(given).landing_y_m


def pace_kmh(given: Given) -> Array:
    return 3.6 * shots_of(given).pace_ms


def opponent_hits_after_s(given: Given) -> Array:
    return exchange_of(given).contact_time_s


def home_x_m(given: Given) -> Array:
    return exchange_of(given).home_x_m


def sideways_run_m(given: Given) -> Array:
    return np.abs(home_x_m(given) - given["from_m"][0])


def can_cover_m(given: Given) -> Array:
    return run_distance_m(exchange_of(given).contact_time_s - 0.25, level_of(given))


def run_times_s(given: Given) -> Array:
    return run_time_s(given["distances_m"], level_of(given))


def bisector_x_m(given: Given) -> float:
    x, y = given["opponent_m"]
    return float(recovery_x_m(x, y, given["depth_m"], FULL_COURT))


def _flat(given: Given) -> tuple[FlatFire, float, float, float]:
    x, y, z = given["from_m"]
    to_x, to_y = given["to_m"]
    distance, part = float(np.hypot(to_x - x, to_y - y)), y / (y - to_y)
    shot = flat_fire(
        distance_m=distance,
        start_height_m=z,
        pace_ms=given["pace_ms"],
        topspin_rpm=given["topspin_rpm"],
        drag=FULL_COURT.flat_drag(),
    )
    return shot, part * distance, x + part * (to_x - x), abs(to_y)


def flat_shot(given: Given) -> list[float]:
    shot, *_ = _flat(given)
    return [float(shot.tangent), float(shot.time_s), float(shot.landing_slope)]


def flat_share(given: Given) -> float:
    shot, to_net, net_x, depth = _flat(given)
    scatter = scatter_of(given)
    spread = flat_spread(
        shot,
        to_net,
        np.radians(scatter.sd_elevation_deg),
        np.radians(scatter.sd_azimuth_deg),
        scatter.sd_speed,
    )
    share = flat_share_in(
        clearance_m=shot.height_m(to_net) - COURT.ball.radius_m - COURT.net_height_m(net_x),
        behind_m=COURT.half_length_m - depth,
        target_x_m=given["to_m"][0],
        half_width_m=COURT.half_width_m,
        spread=spread,
    )
    return float(share)


def _stand(given: Given) -> ReturnStand:
    server = Server(
        hand=Hand(given["hand"]),
        side=ServeSide(given["side"]),
        contact_height_m=given["contact_height_m"],
        pace_ms=given["flat_pace_kmh"] / 3.6,
    )
    found = return_stand(server, LEVELS[given["returner"]], given["behind_baseline_m"])
    assert isinstance(found, ReturnStand)
    return found


def return_stand_m(given: Given) -> list[float]:
    found = _stand(given)
    return [found.by_angle_x_m, found.by_time_x_m]


def serve_fan_m(given: Given) -> float:
    found = _stand(given)
    return abs(found.wide.x_m - found.centre.x_m)


def wide_serve_arrives_s(given: Given) -> float:
    return _stand(given).wide.time_s


def return_covers_m(given: Given) -> list[float]:
    found = _stand(given)
    return [found.covers_wide_m, found.covers_centre_m]


def _balls_at_the_volleyer(given: Given) -> tuple[Array, Array, Array]:
    """Whether each of a shot's many balls lands in, its sideways place and height at the plane."""
    shots = shots_of(given)
    balls = shots.scattered(mirrored_normals(10), spread_of([scatter_of(given)] * len(shots)))
    flown, box = fly(balls), COURT.box(Area.COURT)
    x, y, _ = flown.landing.position_m
    reach = FOOTPRINT.value
    lands_in = (clearance_m(flown.crossing, COURT) >= 0) & (y <= box.y_high_m + reach)
    lands_in &= (x >= box.x_low_m - reach) & (x <= box.x_high_m + reach)
    place = fly(balls, plane_y_m=given["opponent_m"][1]).crossing.position_m
    return lands_in, place[0], place[2]


def passes_the_volleyer_m(given: Given) -> Array:
    """How far beside the volleyer the aimed ball goes through his plane."""
    x, y = given["opponent_m"]
    return np.abs(fly(shots_of(given).launch(), plane_y_m=y).crossing.position_m[0] - x)


def at_the_volleyer(given: Given) -> list[float]:
    """The aimed ball in the volleyer's plane: its height (m) and when (s)."""
    there = fly(shots_of(given).launch(), plane_y_m=given["opponent_m"][1]).crossing
    return [float(there.position_m[2, 0]), float(there.time_s[0])]


def in_and_out_of_reach_pct(given: Given) -> float:
    """Balls that land in and pass the volleyer beyond his reach."""
    lands_in, x, _ = _balls_at_the_volleyer(given)
    return float(100 * np.mean(lands_in & (np.abs(x - given["opponent_m"][0]) > given["reach_m"])))


def in_and_met_low_pct(given: Given) -> float:
    """Balls that land in if let go, within the volleyer's reach, below the strap's height there."""
    lands_in, x, height = _balls_at_the_volleyer(given)
    near = np.abs(x - given["opponent_m"][0]) <= given["reach_m"]
    return float(100 * np.mean(lands_in & near & (height < COURT.strap_height_m)))


def point_pct(given: Given) -> float:
    """The estimate of one shot, or of the best among several heights."""
    return float(100 * np.nanmax(point_values(shots_of(given), moment_of(given)).chance))


def first_better_pct(given: Given) -> float:
    """Percent of draws in which the first of two shots is the better one."""
    first, second = ({**given, **given[name]} for name in ("first", "second"))
    shots = joined_shots([shots_of(first), shots_of(second)])
    found = compare_shots(list(drawn_values(shots, moment_of(given))), 0, 1)
    assert found is not None
    return 100 * found.share_first


MEASURES: dict[str, Callable[[Given], Any]] = {
    measure.__name__: measure
    for measure in (
        share_in_pct,
        best_share_in_pct,
        served_share_in_pct,
        misses_pct,
        landing_spread_m,
        height_over_net_m,
        inside_baseline_m,
        pace_kmh,
        opponent_hits_after_s,
        home_x_m,
        sideways_run_m,
        can_cover_m,
        run_times_s,
        bisector_x_m,
        flat_shot,
        flat_share,
        return_stand_m,
        serve_fan_m,
        wide_serve_arrives_s,
        return_covers_m,
        passes_the_volleyer_m,
        at_the_volleyer,
        in_and_out_of_reach_pct,
        in_and_met_low_pct,
        point_pct,
        first_better_pct,
    )
}
