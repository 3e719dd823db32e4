"""What a case file under cases/flights can ask to be measured: names to functions of its `given`.

Keys of `given` carry their units. Numbers may be lists; the answer then is one too.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from tactics.flight.bounce import bounce, meet, pace_rating
from tactics.flight.constants import (
    AIR_DENSITY,
    GREEN,
    HARD,
    ORANGE,
    RED_FELT,
    RED_FOAM,
    SURFACES,
    VACUUM,
    YELLOW,
    Air,
    BallKind,
    Surface,
    SurfaceName,
    air_density_kg_m3,
)
from tactics.flight.court import FULL_SINGLES, Area, Court
from tactics.flight.launch import Aim, aim
from tactics.flight.motion import Motion, launches
from tactics.flight.path import trace
from tactics.flight.strike import Branch, Strike
from tactics.flight.trajectory import Flight, clearance_m, fly
from tactics.flight.window import closing_pace_ms, lateral_window, vertical_window

MS_PER_MPH = 0.44704
M_PER_INCH = 0.0254
Given = Mapping[str, Any]


STAGE_BALLS = {
    "yellow": YELLOW, "green": GREEN, "orange": ORANGE, "red felt": RED_FELT, "red foam": RED_FOAM,
}  # fmt: skip


def ball_of(given: Given) -> BallKind:
    if "ball" in given:
        return STAGE_BALLS[given["ball"]]
    names = ("mass_kg", "radius_m", "inertia_share", "drag", "lift_share")
    return replace(YELLOW, **{name: given[name] for name in names if name in given})


def air_of(given: Given) -> Air:
    density = air_density_kg_m3(given.get("altitude_m", 0.0), given.get("temperature_c", 20.0))
    is_default = "altitude_m" not in given and "temperature_c" not in given
    return Air(
        density_kg_m3=given.get("density_kg_m3", AIR_DENSITY.value if is_default else density),
        wind_across_ms=given.get("wind_across_ms", 0.0),
        wind_along_ms=given.get("wind_along_ms", 0.0),
    )


def court_of(given: Given) -> Court:
    return replace(FULL_SINGLES, ball=ball_of(given))


def surface_of(given: Given) -> Surface:
    if "surface" in given:
        return SURFACES[SurfaceName(given["surface"])]
    return replace(
        HARD, **{name: given[name] for name in ("restitution", "friction") if name in given}
    )


def pace_of(given: Given) -> Any:
    if "pace_mph" in given:
        return np.multiply(given["pace_mph"], MS_PER_MPH)
    if "pace_kmh" in given:
        return np.divide(given["pace_kmh"], 3.6)
    return given.get("pace_ms")


def launch_of(given: Given) -> Motion:
    x, y, z = given["from_m"]
    ball = ball_of(given)
    return launches(
        x_m=x,
        y_m=y,
        z_m=z + (ball.radius_m if given.get("height_is_of_the_underside") else 0.0),
        pace_ms=pace_of(given),
        elevation_deg=given.get("elevation_deg", 0.0),
        azimuth_deg=given.get("azimuth_deg", 0.0),
        topspin_rpm=given.get("topspin_rpm", 0.0),
        sidespin_rpm=given.get("sidespin_rpm", 0.0),
    )


def flight_of(given: Given, plane_y_m: float = 0.0) -> Flight:
    return fly(launch_of(given), ball=ball_of(given), air=air_of(given), plane_y_m=plane_y_m)


def strike_of(given: Given) -> Strike:
    x, y, z = given["from_m"]
    return Strike(
        x_m=x,
        y_m=y,
        z_m=z,
        topspin_rpm=given.get("topspin_rpm", 0.0),
        sidespin_rpm=given.get("sidespin_rpm", 0.0),
    )


def aim_of(given: Given) -> Aim:
    return aim(
        strike_of(given),
        target_x_m=given["to_x_m"],
        landing_y_m=given.get("to_y_m"),
        height_over_net_m=given.get("height_over_net_m"),
        pace_ms=pace_of(given),
        branch=Branch(given.get("branch", "drive")),
        court=court_of(given),
        air=air_of(given),
    )


def after_of(given: Given) -> Motion:
    """The aimed shot just after its bounce."""
    return bounce(aim_of(given).flight.landing, surface=surface_of(given), ball=ball_of(given))


def receiver_of(given: Given) -> Motion:
    """The aimed and bounced ball as it passes a plane behind the baseline."""
    plane = FULL_SINGLES.half_length_m + given["behind_baseline_m"]
    flight = fly(after_of(given), ball=ball_of(given), air=air_of(given), plane_y_m=plane)
    return flight.crossing


def landing(given: Given) -> Any:
    return flight_of(given).landing.position_m[:2, 0]


def landing_time_s(given: Given) -> Any:
    return flight_of(given).landing.time_s


def landing_velocity_ms(given: Given) -> Any:
    return flight_of(given).landing.velocity_ms[:, 0]


def distance_m(given: Given) -> Any:
    return flight_of(given).landing.position_m[1] - given["from_m"][1]


def net_place_m(given: Given) -> Any:
    return flight_of(given).crossing.position_m[[0, 2], 0]


def inside_baseline_m(given: Given) -> Any:
    return FULL_SINGLES.half_length_m - flight_of(given).landing.position_m[1]


def bounced(given: Given) -> Motion:
    return bounce(flight_of(given).landing, surface=surface_of(given), ball=ball_of(given))


def velocity_after_bounce_ms(given: Given) -> Any:
    return bounced(given).velocity_ms[:, 0]


def spin_after_bounce_rad_s(given: Given) -> Any:
    return bounced(given).spin_rad_s[:, 0]


def second_bounce(given: Given) -> Any:
    second = fly(bounced(given), ball=ball_of(given), air=air_of(given)).landing
    return [*second.position_m[:2, 0], second.time_s[0]]


def pace_that_passes_a_height_ms(given: Given) -> Any:
    """Level launch that meets a height at a distance."""
    paces = np.linspace(10.0, 50.0, 4001)
    flight = fly(launch_of({**given, "pace_ms": paces}), ball=ball_of(given), air=air_of(given))
    return np.interp(given["height_m"], flight.crossing.position_m[2], paces)


def one_degree_sideways_in(given: Given) -> Any:
    straight = aim_of(given)
    turned = launches(
        x_m=given["from_m"][0],
        y_m=given["from_m"][1],
        z_m=given["from_m"][2],
        pace_ms=straight.pace_ms,
        elevation_deg=straight.elevation_deg,
        azimuth_deg=straight.azimuth_deg + 1.0,
    )
    moved = fly(turned, ball=ball_of(given), air=air_of(given)).landing.position_m[0]
    return (moved - straight.flight.landing.position_m[0]) / M_PER_INCH


def aimed_elevation_deg(given: Given) -> Any:
    return aim_of(given).elevation_deg


def aimed_azimuth_deg(given: Given) -> Any:
    return aim_of(given).azimuth_deg


def aimed_pace_kmh(given: Given) -> Any:
    return aim_of(given).pace_ms * 3.6


def aimed_height_over_net_m(given: Given) -> Any:
    return aim_of(given).height_over_net_m


def aimed_depth_m(given: Given) -> Any:
    return aim_of(given).flight.landing.position_m[1]


def depth_gained_m(given: Given) -> Any:
    """How much deeper a shot lands under changed conditions than it was aimed."""
    usual = {key: given[key] for key in ("from_m", "to_x_m", "to_y_m", "pace_ms", "topspin_rpm")}
    shot = aim_of(usual)
    spun = launches(
        x_m=given["from_m"][0],
        y_m=given["from_m"][1],
        z_m=given["from_m"][2],
        pace_ms=shot.pace_ms,
        elevation_deg=shot.elevation_deg,
        azimuth_deg=shot.azimuth_deg,
        topspin_rpm=given["topspin_rpm"] * given.get("spin_times", 1.0),
    )
    changed = fly(spun, ball=ball_of(given), air=air_of(given)).landing.position_m
    usual_place = shot.flight.landing.position_m
    if given.get("sideways"):
        return changed[0] - usual_place[0]
    return changed[1] - usual_place[1]


def speed_at_bounce_mph(given: Given) -> Any:
    return aim_of(given).flight.landing.speed_ms / MS_PER_MPH


def speed_after_bounce_mph(given: Given) -> Any:
    return after_of(given).speed_ms / MS_PER_MPH


def speed_at_receiver_mph(given: Given) -> Any:
    return receiver_of(given).speed_ms / MS_PER_MPH


def speed_at_receiver_kmh(given: Given) -> Any:
    return receiver_of(given).speed_ms * 3.6


def time_to_receiver_s(given: Given) -> Any:
    return receiver_of(given).time_s


def place_at_receiver_m(given: Given) -> Any:
    return receiver_of(given).position_m[[0, 2], 0]


def time_to_opponent_s(given: Given) -> Any:
    court = court_of(given)
    return meet(after_of(given), court, air=air_of(given)).time_s


def elevation_edges_deg(given: Given) -> Any:
    window = _vertical(given)
    return [window.needed_deg[0], window.allowed_deg[0]]


def elevation_window_deg(given: Given) -> Any:
    """Width, or how far the edges overlap (negative) when it is closed."""
    window = _vertical(given)
    return window.allowed_deg - window.needed_deg


def open_windows(given: Given) -> Any:
    return _vertical(given).is_open.astype(float)


def aimed_elevation_window_deg(given: Given) -> Any:
    return elevation_window_deg({**given, "azimuth_deg": aim_of(given).azimuth_deg})


def nearer_sideline_deg(given: Given) -> Any:
    shot = aim_of(given)
    window = _lateral(given, shot)
    return np.minimum(shot.azimuth_deg - window.needed_deg, window.allowed_deg - shot.azimuth_deg)


def whole_court_deg(given: Given) -> Any:
    return _lateral(given, aim_of(given)).width_deg


def window_gain_pct(given: Given) -> Any:
    spun = _vertical(given).width_deg
    flat = _vertical({**given, "topspin_rpm": 0.0}).width_deg
    return 100 * (spun / flat - 1)


def closing_speed_ms(given: Given) -> Any:
    return closing_pace_ms(
        strike_of(given),
        azimuth_deg=given.get("azimuth_deg", 0.0),
        area=Area(given.get("area", "court")),
        court=court_of(given),
        air=air_of(given),
    )


def net_cord_at_crossing_m(given: Given) -> Any:
    crossing = aim_of(given).flight.crossing
    return FULL_SINGLES.net_height_m(crossing.position_m[0])


def clearance_of_launch_m(given: Given) -> Any:
    return clearance_m(flight_of(given).crossing, court_of(given))


def straight_line_over_strap_in(given: Given) -> Any:
    """Straight from a height at the baseline to the service line, above the strap."""
    court = FULL_SINGLES
    service = court.service_line_m or 0.0
    at_net = given["height_m"] * service / (court.half_length_m + service)
    return (at_net - court.strap_height_m) / M_PER_INCH


def lowest_straight_contact_m(given: Given) -> Any:
    court = FULL_SINGLES
    service = court.service_line_m or 0.0
    return court.strap_height_m * (court.half_length_m + service) / service


def speed_lost_pct(given: Given) -> Any:
    before = _incoming(given)
    after = bounce(before, surface=surface_of(given), ball=ball_of(given))
    return 100 * (1 - after.speed_ms / before.speed_ms)


def forward_speed_kept(given: Given) -> Any:
    before = _incoming(given)
    surface = replace(surface_of(given), grip_restitution=0.0)
    after = bounce(before, surface=surface, ball=ball_of(given))
    return after.velocity_ms[1] / before.velocity_ms[1]


def grip_angle_deg(given: Given) -> Any:
    """Steepness from which a spinless shell rolls off: less speed is kept below it."""
    angles = np.linspace(15.0, 30.0, 15001)
    kept = forward_speed_kept({**given, "speed_ms": 20.0, "angle_deg": angles})
    return angles[np.flatnonzero(kept <= kept.min() + 1e-9)[0]]


def court_pace_rating(given: Given) -> Any:
    return pace_rating(surface_of(given))


def restitution_of_drop(given: Given) -> Any:
    """Speed up over speed down of a ball dropped and rebounding to given heights."""
    ball, air = ball_of(given), air_of(given)
    down = fly(
        launches(
            x_m=0, y_m=-5, z_m=given["drop_m"] + ball.radius_m, pace_ms=0.0, elevation_deg=-90
        ),
        ball=ball,
        air=air,
    ).landing.speed_ms
    up = np.linspace(2.0, 8.0, 6001)
    rise = launches(x_m=0, y_m=-5, z_m=ball.radius_m, pace_ms=up, elevation_deg=90)
    tops = trace(rise, ball=ball, air=air).apex().position_m[2] - ball.radius_m
    return np.interp(given["rebound_m"], tops, up) / down


def fastest_fall_ms(given: Given) -> Any:
    """Speed at the ground after a fall so long that the ball gets no faster."""
    drop = launches(x_m=0, y_m=-5, z_m=200.0, pace_ms=0.0, elevation_deg=-90)
    return fly(drop, ball=ball_of(given), air=air_of(given)).landing.speed_ms


def speed_kept_pct(given: Given) -> Any:
    """Share of its speed that a fast level ball keeps over a distance."""
    shot = launches(x_m=0, y_m=0, z_m=100.0, pace_ms=60.0, elevation_deg=0.0)
    flight = fly(shot, ball=ball_of(given), air=air_of(given), plane_y_m=given["distance_m"])
    return 100.0 * flight.crossing.speed_ms / 60.0


def vacuum_rebound_share(given: Given) -> Any:
    """Height that a ball rebounds to against the yellow one, without air."""
    drop = launches(x_m=0, y_m=-5, z_m=2.54, pace_ms=0.0, elevation_deg=-90)
    up = [
        bounce(fly(drop, ball=ball, air=VACUUM).landing, ball=ball).velocity_ms[2]
        for ball in (ball_of(given), YELLOW)
    ]
    return (up[0] / up[1]) ** 2


def _incoming(given: Given) -> Motion:
    angle = np.radians(np.atleast_1d(given["angle_deg"]))
    zero = np.zeros_like(angle)
    return Motion(
        time_s=zero,
        position_m=np.zeros((3, angle.size)),
        velocity_ms=given["speed_ms"] * np.stack([zero, np.cos(angle), -np.sin(angle)]),
        spin_rad_s=np.zeros((3, angle.size)),
    )


def _vertical(given: Given) -> Any:
    return vertical_window(
        strike_of(given),
        pace_ms=pace_of(given),
        azimuth_deg=given.get("azimuth_deg", 0.0),
        area=Area(given.get("area", "court")),
        court=court_of(given),
        air=air_of(given),
    )


def _lateral(given: Given, shot: Aim) -> Any:
    return lateral_window(
        strike_of(given),
        pace_ms=shot.pace_ms,
        elevation_deg=shot.elevation_deg,
        azimuth_deg=shot.azimuth_deg,
        area=Area(given.get("area", "court")),
        court=court_of(given),
        air=air_of(given),
    )


MEASURES: dict[str, Callable[[Given], Any]] = {
    measure.__name__: measure
    for measure in (
        landing,
        landing_time_s,
        landing_velocity_ms,
        distance_m,
        net_place_m,
        inside_baseline_m,
        velocity_after_bounce_ms,
        spin_after_bounce_rad_s,
        second_bounce,
        pace_that_passes_a_height_ms,
        one_degree_sideways_in,
        aimed_elevation_deg,
        aimed_azimuth_deg,
        aimed_pace_kmh,
        aimed_height_over_net_m,
        aimed_depth_m,
        depth_gained_m,
        speed_at_bounce_mph,
        speed_after_bounce_mph,
        speed_at_receiver_mph,
        speed_at_receiver_kmh,
        time_to_receiver_s,
        place_at_receiver_m,
        time_to_opponent_s,
        elevation_edges_deg,
        elevation_window_deg,
        open_windows,
        aimed_elevation_window_deg,
        nearer_sideline_deg,
        whole_court_deg,
        window_gain_pct,
        closing_speed_ms,
        clearance_of_launch_m,
        net_cord_at_crossing_m,
        straight_line_over_strap_in,
        lowest_straight_contact_m,
        speed_lost_pct,
        forward_speed_kept,
        grip_angle_deg,
        court_pace_rating,
        restitution_of_drop,
        fastest_fall_ms,
        speed_kept_pct,
        vacuum_rebound_share,
    )
}
