"""The court picture as shapes to scale, for the template that draws it: 10 units a metre.

Seen from above in the hitter's own view: the hitter below the net, so y grows downwards.
"""

from dataclasses import dataclass

from tactics.report.court_picture import (
    BASELINE_M,
    DOUBLES_HALF_M,
    SERVICE_LINE_M,
    SINGLES_HALF_M,
    Picture,
    Spot,
)
from tactics.report.html.net_svg import NetDrawing, draw_net

UNITS_A_METRE = 10
_HALF_WIDTH_M, _FAR_M, _NEAR_M = 8.0, 13.8, 16.2
_POST_BEYOND_M = 0.914
"""The posts (or singles sticks) stand this far outside the sideline (ITF Rules of Tennis)."""
_NAMES_SIDE_M, _NAMES_ALONG_M = 7.0, 6.4
_NET_NAME_SINGLES_M, _NET_NAME_DOUBLES_M = (6.5, -0.4), (6.8, -1.5)
"""Beside the net in singles; the wider net of doubles has its name below it."""
_STAY_INSIDE_M = 0.8
_STAY_SIDE_M = 6.2
"""Nobody stands further out than this in the picture: the names of the sides come there."""
_ARROW_M, _ARROW_HALF_M = 1.0, 0.4
_CENTRE_MARK_M = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A straight line from one place to another; kind: line, net, way in or shot."""

    kind: str
    x1: float
    y1: float
    x2: float
    y2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Somebody or something at a place; kind: player, opponent, bounce, aim or post."""

    kind: str
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """A word on the picture, centred on its place and turned by so many degrees."""

    text: str
    x: float
    y: float
    turn: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class CourtDrawing:
    """Everything there is to draw. says: the picture in words, for who cannot see it.

    box: the view box. ground: x, y, width and height of the court. arrow: the points of the
    shot's head ("" without a shot). net: the height over it, seen from behind.
    """

    says: str
    box: str
    ground: tuple[float, float, float, float]
    strokes: tuple[Stroke, ...]
    arrow: str
    marks: tuple[Mark, ...]
    names: tuple[Name, ...]
    net: NetDrawing | None


def draw_court(picture: Picture, says: str) -> CourtDrawing:
    """Return the shapes of a picture."""
    half = DOUBLES_HALF_M if picture.is_doubles else SINGLES_HALF_M
    width, height = 2 * _HALF_WIDTH_M, _FAR_M + _NEAR_M
    way_in, shot, net = _way_in(picture), _shot(picture), draw_net(picture)
    return CourtDrawing(
        says=f"{says} {_told(picture)}{f' {net.says}.' if net else ''}".strip(),
        box=" ".join(f"{_units(each):g}" for each in (-_HALF_WIDTH_M, -_FAR_M, width, height)),
        ground=(
            _units(-half), _units(-BASELINE_M), _units(2 * half), _units(2 * BASELINE_M),
        ),
        strokes=(*_court_lines(picture.is_doubles), *way_in, *shot),
        arrow=_head(shot[0]) if shot else "",
        marks=(*_posts(half), *_marks(picture)),
        names=_names(picture),
        net=net,
    )  # fmt: skip


def _told(picture: Picture) -> str:
    """Return what has to be said about the picture beside the situation."""
    aim = "The aim is marked." if picture.target else ""
    notes = f"Taken as given: {'; '.join(picture.notes)}." if picture.notes else ""
    return f"Court seen from above, net in the middle. {aim} {notes}".strip()


def _units(metres: float) -> float:
    return round(metres * UNITS_A_METRE, 1)


def _stroke(kind: str, start: Spot, end: Spot) -> Stroke:
    return Stroke(
        kind=kind,
        x1=_units(start.x_m),
        y1=_units(-start.y_m),
        x2=_units(end.x_m),
        y2=_units(-end.y_m),
    )


def _across(kind: str, half_m: float, y_m: float) -> Stroke:
    return _stroke(kind, Spot(x_m=-half_m, y_m=y_m), Spot(x_m=half_m, y_m=y_m))


def _along(x_m: float, reach_m: float) -> Stroke:
    return _stroke("line", Spot(x_m=x_m, y_m=-reach_m), Spot(x_m=x_m, y_m=reach_m))


def _court_lines(is_doubles: bool) -> tuple[Stroke, ...]:
    half = DOUBLES_HALF_M if is_doubles else SINGLES_HALF_M
    sides = (SINGLES_HALF_M, DOUBLES_HALF_M) if is_doubles else (SINGLES_HALF_M,)
    return (
        *(_along(sign * side, BASELINE_M) for side in sides for sign in (-1, 1)),
        _along(0.0, SERVICE_LINE_M),
        *(_across("line", half, sign * BASELINE_M) for sign in (-1, 1)),
        *(_across("line", SINGLES_HALF_M, sign * SERVICE_LINE_M) for sign in (-1, 1)),
        *(_centre_mark(sign) for sign in (-1, 1)),
        _across("net", half + _POST_BEYOND_M, 0.0),
    )


def _centre_mark(sign: int) -> Stroke:
    outer, inner = sign * BASELINE_M, sign * (BASELINE_M - _CENTRE_MARK_M)
    return _stroke("line", Spot(x_m=0.0, y_m=outer), Spot(x_m=0.0, y_m=inner))


def _posts(half_m: float) -> tuple[Mark, ...]:
    beyond = half_m + _POST_BEYOND_M
    return tuple(Mark(kind="post", x=_units(sign * beyond), y=0.0) for sign in (-1, 1))


def _way_in(picture: Picture) -> tuple[Stroke, ...]:
    if picture.source is None or picture.player is None:
        return ()
    return (_stroke("way-in", _inside(picture.source), _inside(picture.player)),)


def _shot(picture: Picture) -> tuple[Stroke, ...]:
    if picture.target is None or picture.player is None:
        return ()
    return (_stroke("shot", _inside(picture.player), _inside(picture.target)),)


def _inside(spot: Spot) -> Spot:
    """Return a place on the sheet: whoever stands further out is drawn at its edge."""
    far, near = _FAR_M - _STAY_INSIDE_M, _NEAR_M - _STAY_INSIDE_M
    return Spot(
        x_m=min(max(spot.x_m, -_STAY_SIDE_M), _STAY_SIDE_M), y_m=min(max(spot.y_m, -near), far)
    )


def _head(shot: Stroke) -> str:
    """Return the points of the arrow head at the end of a shot."""
    length = ((shot.x2 - shot.x1) ** 2 + (shot.y2 - shot.y1) ** 2) ** 0.5 or 1.0
    along = ((shot.x2 - shot.x1) / length, (shot.y2 - shot.y1) / length)
    back, side = _units(_ARROW_M), _units(_ARROW_HALF_M)
    foot = (shot.x2 - back * along[0], shot.y2 - back * along[1])
    points = (
        (shot.x2, shot.y2),
        (foot[0] - side * along[1], foot[1] + side * along[0]),
        (foot[0] + side * along[1], foot[1] - side * along[0]),
    )
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)


def _marks(picture: Picture) -> tuple[Mark, ...]:
    spots = (
        ("bounce", picture.bounce),
        ("aim", picture.target),
        ("opponent", picture.opponent),
        ("player", picture.player),
    )
    return tuple(
        Mark(kind=kind, x=_units(_inside(spot).x_m), y=_units(-_inside(spot).y_m))
        for kind, spot in spots
        if spot is not None
    )


def _names(picture: Picture) -> tuple[Name, ...]:
    """Return the names of the sides, both players' own, along the court; and of the net."""
    near = ("backhand side", "forehand side")
    far = ("their forehand", "their backhand")
    near = near if picture.forehand_is_right else near[::-1]
    far = far if picture.their_forehand_is_right else far[::-1]
    halves = ((far, _NAMES_ALONG_M), (near, -_NAMES_ALONG_M))
    sides = tuple(
        Name(text=pair[place], x=_units(sign * _NAMES_SIDE_M), y=_units(-y_m), turn=90 * sign)
        for pair, y_m in halves
        for place, sign in enumerate((-1, 1))
    )
    x_m, up_m = _NET_NAME_DOUBLES_M if picture.is_doubles else _NET_NAME_SINGLES_M
    return (*sides, Name(text="net", x=_units(x_m), y=_units(-up_m)))
