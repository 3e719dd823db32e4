"""Directions -> places: where on the line of the landing a ball is aimed."""

from tactics.engine.margins import sideways_scatter_m
from tactics.engine.wish import Wish
from tactics.flight.court import FULL_SINGLES

ACROSS = ("crosscourt", "inside-out", "sharp angle")
SAME_SIDE = ("straight", "inside-in")
USUAL_MULTIPLE = 1.4
"""How far inside the line a ball is aimed where nothing is said, in sideways scatters."""
_ANGLE_INSIDE_M = 0.8
_SERVE_INSIDE_M, _SERVE_FROM_CENTRE_M = 0.6, 0.5
_MIDDLE_M = 0.6  # a ball that lands nearer to the middle than this went through the middle


def target_x_m(wish: Wish, inside_m: float) -> float:
    """Return the x a ball is aimed at (m), in the hitter's frame."""
    if wish.position.is_serve:
        return _serve_x_m(wish, inside_m)
    side, road = wish.position.side, wish.road
    half = wish.venue.court.half_width_m
    reach = max(half - inside_m, 0.0)
    if inside_m > half and road in ACROSS + SAME_SIDE:
        wish.take(f"inside line: from {half:.1f} m on it is the middle of the court")
    if road in ACROSS:
        return -side * reach
    if road in SAME_SIDE:
        return side * reach
    return wish.position.moment.opponent_x_m if road in ("at body", "behind") else 0.0


def _serve_x_m(wish: Wish, inside_m: float) -> float:
    box = wish.position.moment.box
    outer = box.x_high_m if abs(box.x_high_m) > abs(box.x_low_m) else box.x_low_m
    sign = 1.0 if outer > 0 else -1.0
    if wish.road == "T":
        return sign * _SERVE_FROM_CENTRE_M * _box_scale(wish)
    return outer / 2 if wish.road == "at body" else outer - sign * inside_m


def _box_scale(wish: Wish) -> float:
    """Return the width of the service box over that of a full court: doubles have the same box."""
    return wish.venue.court.service_half_width_m / FULL_SINGLES.half_width_m


def usual_inside_m(wish: Wish) -> float:
    """Return how far inside the line a ball is aimed that does not say it."""
    if wish.position.is_serve:
        return _SERVE_INSIDE_M * _box_scale(wish)
    road = wish.road
    if road == "sharp angle":
        return _ANGLE_INSIDE_M * wish.venue.width_scale
    inside = USUAL_MULTIPLE * sideways_scatter_m(wish.position)
    if road in ACROSS + SAME_SIDE:
        wish.take(f"inside line not said: {inside:.1f} m, {USUAL_MULTIPLE} times the scatter")
    return inside


def road_of(x_m: float, y_m: float, wish: Wish) -> str:
    """Return the word for a place where a ball lands."""
    if wish.position.is_serve:
        share = abs(x_m) / wish.venue.court.service_half_width_m
        return "T" if share < 1 / 3 else "wide" if share > 2 / 3 else "at body"
    if abs(x_m) < _MIDDLE_M * wish.venue.width_scale:
        return "middle"
    if x_m * wish.position.side > 0:
        return "straight"
    is_short = 3.0 * wish.venue.length_scale < y_m < wish.venue.service_line_m
    return (
        "sharp angle"
        if is_short and abs(x_m) > 0.7 * wish.venue.court.half_width_m
        else ("crosscourt")
    )
