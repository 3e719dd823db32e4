"""Court and side view of shots as one SVG that stands alone."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.flight.court import Court
from tactics.report.court_scene import CourtScene, Flight, What
from tactics.report.html.render import render

_UNITS = 20  # a metre, seen from above
_SIDE_UNITS = 36  # a metre of height: drawn larger than lengths, as flights are flat
_EDGE_M = 1.5
_BEHIND_M, _BESIDE_M = 5.0, 3.0
_DASHES = ("", "9 4", "2 4", "9 3 2 3", "14 5", "5 5")
_NUMBER_STEP = 7
_KEY = "filled dot: player; ring: opponent; numbers: where each shot lands"
_HEADROOM_M, _GAP_M = 0.8, 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line between two places; kind names its style, dashes tell shots apart without colour."""

    kind: str
    x1: float
    y1: float
    x2: float
    y2: float
    dashes: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Something at a place, with a number or nothing in it."""

    kind: str
    x: float
    y: float
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A ball from the side as the points of a line, and where its number stands."""

    points: str
    dashes: str
    text: str
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Everything the template places. says: the picture in words."""

    says: str
    width: float
    height: float
    lines: tuple[Line, ...]
    spots: tuple[Spot, ...]
    curves: tuple[Curve, ...]
    names: tuple[Spot, ...]
    entries: tuple[tuple[float, str], ...]


def shot_svg(scene: CourtScene, flights: Sequence[Flight], labels: Sequence[str]) -> str:
    """Return the SVG: the court lying on its side, the player on the left, the side view below."""
    return render("shot_svg", _Layout(scene, flights, labels).drawing())


class _Layout:
    """Turns metres into places on the sheet; the court lies, so y runs to the right."""

    def __init__(self, scene: CourtScene, flights: Sequence[Flight], labels: Sequence[str]) -> None:
        self.scene, self.flights, self.labels = scene, flights, labels
        court = scene.court
        self.reach = court.half_length_m + _BEHIND_M
        self.aside = court.half_width_m + _BESIDE_M
        highest = [height for flight in flights for _, height in flight.places]
        self.top = max(highest, default=0.0) + _HEADROOM_M
        self.court_height = 2 * self.aside * _UNITS
        side = self.top * _SIDE_UNITS + _GAP_M * _UNITS
        self.ground = self.court_height + (side if flights else 0.0)

    def drawing(self) -> Drawing:
        """Return all shapes."""
        width = 2 * self.reach * _UNITS
        return Drawing(
            says="; ".join(self.labels) + ": court seen from above and balls from the side",
            width=width,
            height=round(self.ground + (2.3 + 1.1 * len(self.labels)) * _UNITS, 1),
            lines=(*_court_lines(self.scene.court, self), *self._ways(), *self._side_lines()),
            spots=self._spots(),
            curves=tuple(map(self._curve, self.flights)),
            names=self._names(),
            entries=self._entries(),
        )

    def _entries(self) -> tuple[tuple[float, str], ...]:
        """Return the key and the names of the shots, each with its height on the sheet."""
        named = [f"{place}  {label}" for place, label in enumerate(self.labels, start=1)]
        return tuple(
            (round(self.ground + (1.6 + 1.1 * place) * _UNITS, 1), text)
            for place, text in enumerate([_KEY, *named])
        )

    def above(self, x_m: float, y_m: float) -> tuple[float, float]:
        """Return a place of the court on the sheet."""
        y_m = min(max(y_m, -self.reach + 0.5), self.reach - 0.5)
        x_m = min(max(x_m, -self.aside + 0.5), self.aside - 0.5)
        return round((y_m + self.reach) * _UNITS, 1), round((x_m + self.aside) * _UNITS, 1)

    def aside_of(self, along_m: float, height_m: float) -> tuple[float, float]:
        """Return a place of the side view on the sheet."""
        across = (along_m + self.reach) * _UNITS
        return round(across, 1), round(self.ground - max(height_m, 0.0) * _SIDE_UNITS, 1)

    def _ways(self) -> list[Line]:
        return [
            _line("shot", self.above(*way.start), self.above(*way.end), _dashes(way.number))
            for way in self.scene.ways
        ]

    def _side_lines(self) -> list[Line]:
        if not self.flights:
            return []
        court = self.scene.court
        ground = _line("line", self.aside_of(-self.reach, 0), self.aside_of(self.reach, 0))
        net = _line("net", self.aside_of(0, 0), self.aside_of(0, court.strap_height_m))
        baselines = [
            _line("line", self.aside_of(sign * court.half_length_m, 0.0),
                  self.aside_of(sign * court.half_length_m, 0.25))
            for sign in (-1, 1)
        ]  # fmt: skip
        return [ground, net, *baselines]

    def _spots(self) -> tuple[Spot, ...]:
        return tuple(
            Spot(kind=_kind(mark.what), x=place[0], y=place[1], text=mark.text)
            for mark in self.scene.marks
            for place in [self.above(mark.x_m, mark.y_m)]
        )

    def _curve(self, flight: Flight) -> Curve:
        places = [self.aside_of(*place) for place in flight.places]
        # each number at another place, so that flights that run together can be told apart
        x, y = places[min(_NUMBER_STEP * flight.number, len(places) - 1)]
        return Curve(
            points=" ".join(f"{across},{up}" for across, up in places),
            dashes=_dashes(flight.number),
            text=str(flight.number),
            x=x,
            y=round(y - 5, 1),
        )

    def _names(self) -> tuple[Spot, ...]:
        own = ("backhand side", "forehand side")
        theirs = ("their forehand side", "their backhand side")
        own = own if self.scene.forehand_is_right else own[::-1]
        theirs = theirs if self.scene.their_forehand_is_right else theirs[::-1]
        left, right = 0.25 * 2 * self.reach * _UNITS, 0.75 * 2 * self.reach * _UNITS
        top, bottom = 0.8 * _UNITS, self.court_height - 0.4 * _UNITS
        return tuple(
            Spot(kind="name", x=round(x, 1), y=round(y, 1), text=text)
            for x, names in ((left, own), (right, theirs))
            for y, text in zip((top, bottom), names, strict=True)
        )


def _court_lines(court: Court, layout: _Layout) -> list[Line]:
    far, half, inner = court.half_length_m, court.half_width_m, court.service_half_width_m
    line = court.service_line_m
    places = [(x, -far, x, far) for x in sorted({half, -half, inner, -inner})]
    places += [(-half, y, half, y) for y in (-far, far)]
    if line is not None:
        places += [(0.0, -line, 0.0, line), *((-inner, y, inner, y) for y in (-line, line))]
    lines = [_line("line", layout.above(a, b), layout.above(c, d)) for a, b, c, d in places]
    post = court.support_x_m
    return [*lines, _line("net", layout.above(-post, 0.0), layout.above(post, 0.0))]


def _line(
    kind: str, start: tuple[float, float], end: tuple[float, float], dashes: str = ""
) -> Line:
    return Line(kind=kind, x1=start[0], y1=start[1], x2=end[0], y2=end[1], dashes=dashes)


def _dashes(number: int) -> str:
    return _DASHES[(number - 1) % len(_DASHES)]


def _kind(what: What) -> str:
    return what.name.lower()
