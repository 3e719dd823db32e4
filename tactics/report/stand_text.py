"""A place to stand in words and as a scene: for a return, and after one's own shot."""

from tactics.engine.exchange import Flown
from tactics.engine.position import Position
from tactics.engine.stands import DEPTHS_M, StandFound
from tactics.flight.ranges import OutOfRange
from tactics.flight.stand import ReturnStand, ServeAtReturner
from tactics.report.court_scene import CourtScene, Mark, Way, What
from tactics.report.layout import Section, bullet, definitions, table, wrapped
from tactics.report.shot_text import Shown
from tactics.report.shot_words import (
    bare,
    depth_words,
    hitter_words,
    kmh,
    landing_words,
    number,
    off_middle,
)

CAUTION = (
    "An estimate from the flight of both serves and the usual speed of foot of the level. It "
    "halves what can be reached; whoever knows what is coming stands elsewhere."
)


def return_sections(found: StandFound) -> tuple[Section, ...]:
    """Return where to stand for a return, what it leaves open, and other depths."""
    taken = tuple(line for each in found.taken for line in bullet(each, "  "))
    return (
        Section(title="Serve", lines=wrapped(_serve_words(found), "  ")),
        Section(title="Taken as given", lines=taken),
        *_place_sections(found),
        Section(title="Further in or back", lines=_depth_table(found)),
        Section(title="", lines=wrapped(CAUTION)),
    )


def _serve_words(found: StandFound) -> str:
    server = found.server
    wide = "slice" if server.shapes[0].side_rpm >= 1500 else "kick"
    wide = "flat serve" if server.shapes[0].side_rpm < 1000 else wide
    return (
        f"{_a(server.hand)}-hander on the {server.side} side at {server.level.name} level, "
        f"{number(server.from_centre_m, 'm')} from the middle; the wide {wide} against the flat "
        f"one down the T, up to {kmh(server.flat_pace_ms)}"
    )


def _a(hand: str) -> str:
    return f"a {hand}"


def _place_sections(found: StandFound) -> tuple[Section, ...]:
    place = found.place
    title = f"Stand here, estimated for a returner at {found.returner.name} level"
    if place is None:
        text = (
            "no place: on this court a serve from here does not land in at any pace of the level, "
            "or is down twice before it gets there"
        )
        return (Section(title=title, lines=wrapped(text, "  ")),)
    if isinstance(place, OutOfRange):
        return (Section(title=title, lines=wrapped(place.sentence, "  ")),)
    court = found.venue.court
    pairs = [
        ("by time", f"{_inside_words(place.by_time_x_m, found)}, "
         f"{depth_words(place.depth_m, court)}"),
        ("by angle", _inside_words(place.by_angle_x_m, found)),
        ("wide", _ball_words(place.wide, place.to_wide_m, place.covers_wide_m, found)),
        ("down the T", _ball_words(place.centre, place.to_centre_m, place.covers_centre_m, found)),
    ]  # fmt: skip
    return (Section(title=title, lines=definitions(pairs)),)


def _inside_words(x_m: float, found: StandFound) -> str:
    inside = found.venue.court.service_half_width_m - abs(x_m)
    where = "inside" if inside >= 0 else "outside"
    side = "right" if x_m > 0 else "left"
    return f"{number(abs(inside), 'm')} {where} the singles sideline on your {side}"


def _ball_words(ball: ServeAtReturner, way_m: float, covers_m: float, found: StandFound) -> str:
    """Return one serve as it comes: which wing, how high, when, and whether it is in reach."""
    wing = "forehand" if (_turn(ball, found) > 0) == (found.right > 0) else "backhand"
    reach = "in reach" if covers_m >= way_m else "out of reach without a guess"
    return (
        f"to the {wing}, {number(way_m, 'm')} away after {ball.time_s:.2f} s, "
        f"{number(ball.height_m, 'm')} high, still {kmh(ball.speed_ms)}; "
        f"{number(covers_m, 'm')} can be covered: {reach}"
    )


def _turn(ball: ServeAtReturner, found: StandFound) -> float:
    """Return on which side of the place a serve passes: positive to the returner's right."""
    assert isinstance(found.place, ReturnStand)
    return ball.x_m - found.place.by_time_x_m


def _depth_table(found: StandFound) -> tuple[str, ...]:
    rows = []
    for behind, place in zip(DEPTHS_M, found.by_depth, strict=True):
        if not isinstance(place, ReturnStand):
            continue
        rows.append(
            (
                depth_words(found.venue.court.half_length_m + behind, found.venue.court),
                number(place.inside_line_m, "m"),
                f"{place.wide.time_s:.2f} s",
                f"{bare(place.to_wide_m, 'm')} ({bare(place.covers_wide_m, 'm')}) m",
                f"{bare(place.to_centre_m, 'm')} ({bare(place.covers_centre_m, 'm')}) m",
            )
        )
    header = ("", "inside line", "wide after", "to it", "to the T")
    legend = wrapped("in brackets: how much of that way can be covered in time", "  ")
    return (*table(header, rows, frozenset({1, 2, 3, 4})), *(legend if rows else ()))


def return_scene(found: StandFound) -> CourtScene | None:
    """Return the place with the server and both serves; the returner is the player, at y < 0."""
    place = found.place
    if not isinstance(place, ReturnStand):
        return None
    # seen by the returner, a server on the deuce side stands to the left
    sign = -1.0 if found.server.side == "deuce" else 1.0
    server = (sign * found.server.from_centre_m, found.venue.court.half_length_m)
    serves = (place.wide, place.centre)
    return CourtScene(
        court=found.venue.court,
        marks=(
            *(Mark(what=What.SERVE, x_m=ball.x_m, y_m=-place.depth_m) for ball in serves),
            Mark(what=What.SERVER, x_m=server[0], y_m=server[1]),
            Mark(what=What.STAND, x_m=place.by_time_x_m, y_m=-place.depth_m),
        ),
        ways=tuple(Way(start=server, end=(ball.x_m, -place.depth_m)) for ball in serves),
        forehand_is_right=found.right > 0,
        their_forehand_is_right=found.server.hand != "left",
    )


def recovery_sections(shown: Shown, flown: Flown, position: Position) -> tuple[Section, ...]:
    """Return where to go after one's own shot, and whether there is time."""
    done = flown.exchanges
    moment, home_x = flown.candidate.moment, float(done.home_x_m[0])
    where = f"{off_middle(home_x)}, {depth_words(moment.home_depth_m, moment.venue.court)}"
    pairs = [
        ("place", where),
        ("because", "it halves the angle between their two widest replies from where they meet it"),
        ("the shot", f"{landing_words(flown)}; they hit after "
         f"{number(float(done.contact_time_s[0]), 's')}, "
         f"{off_middle(float(done.contact_x_m[0]))} as you look"),
        ("the way", hitter_words(flown)),
    ]  # fmt: skip
    title = f"After {shown.label}, estimated at {position.moment.hitter.name} level"
    return (Section(title="Go here", lines=(*wrapped(title, "  "), *definitions(pairs))),)
