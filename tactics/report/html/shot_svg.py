"""Court and side view of shots as one SVG that stands alone."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor
from textwrap import wrap

from tactics.flight.court import Court
from tactics.report.court_scene import CourtScene, Flight, Mark, What
from tactics.report.html.label_places import free_place, label_at
from tactics.report.html.render import render

_WIDTH = 720.0  # the sheet; a metre is as wide as the court allows
_HEIGHT_TIMES = 1.8  # heights are drawn so much larger than lengths, as flights are flat
_BEHIND_SHARE, _BESIDE_SHARE = 5.0 / 11.885, 3.0 / 11.885
_DASHES = ("", "9 4", "2 4", "9 3 2 3", "14 5", "5 5")
_MARGIN, _LINE = 20.0, 20.0  # of the words below, in units of the sheet
_LETTERS = 92  # of 13 units that fit on a line
_HEADROOM_M, _GAP = 0.8, 40.0
_DOT = 9.0
_NET_POINTS = 11  # a tenth of a metre apart
_KEYS = {
    What.PLAYER: "filled dot: player",
    What.OPPONENT: "ring: opponent",
    What.LANDING: "numbers: where each shot lands",
    What.HOME: "square: right place afterwards",
    What.REPLY: "diamonds: where a reply may land",
}


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
    entries: tuple[Spot, ...]


def shot_svg(scene: CourtScene, flights: Sequence[Flight], labels: Sequence[str]) -> str:
    """Return the SVG: the court lying on its side, the player on the left, the side view below."""
    return render("shot_svg", _Layout(scene, flights, labels).drawing())


class _Layout:
    """Turns metres into places on the sheet; the court lies, so y runs to the right."""

    def __init__(self, scene: CourtScene, flights: Sequence[Flight], labels: Sequence[str]) -> None:
        self.scene, self.flights, self.labels = scene, flights, labels
        court = scene.court
        self.reach = court.half_length_m * (1.0 + _BEHIND_SHARE)
        self.aside = court.half_width_m + court.half_length_m * _BESIDE_SHARE
        self.metre = _WIDTH / (2 * self.reach)
        highest = [height for flight in flights for _, height in flight.places]
        self.top = max(highest, default=0.0) + _HEADROOM_M
        self.court_height = 2 * self.aside * self.metre
        side = self.top * self.metre * _HEIGHT_TIMES + _GAP
        self.ground = self.court_height + (side if flights else 0.0)

    def drawing(self) -> Drawing:
        """Return all shapes."""
        spots, leaders = self._spots()
        entries = self._entries()
        return Drawing(
            says="; ".join(self.labels) + ": court seen from above and balls from the side",
            width=_WIDTH,
            height=round(entries[-1].y + _LINE, 1),
            lines=(
                *_court_lines(self.scene.court, self),
                *self._ways(),
                *leaders,
                *self._side_lines(),
            ),
            spots=spots,
            curves=self._curves(),
            names=(*self._names(), *self._heights()),
            entries=entries,
        )

    def _entries(self) -> tuple[Spot, ...]:
        """Return the key and the names of the shots, line by line."""
        shown = {mark.what for mark in self.scene.marks}
        key = "; ".join(words for what, words in _KEYS.items() if what in shown)
        if self.flights:
            key += f"; below from the side, heights {_HEIGHT_TIMES:g} times as large as lengths"
        lines = [(_MARGIN, text) for text in wrap(key, _LETTERS)]
        drawn = {flight.number for flight in self.flights}
        for number, label in enumerate(self.labels, start=1):
            missing = "" if number in drawn else " (no shot)"
            text, *more = wrap(f"{number}  {label}{missing}", _LETTERS)
            lines += [(_MARGIN, text), *((2 * _MARGIN, each) for each in more)]
        first = self.ground + 1.6 * _LINE
        return tuple(
            Spot(kind="entry", x=x, y=round(first + _LINE * place, 1), text=text)
            for place, (x, text) in enumerate(lines)
        )

    def above(self, x_m: float, y_m: float) -> tuple[float, float]:
        """Return a place of the court on the sheet."""
        edge = 0.5 * self.reach / 16.885
        y_m = min(max(y_m, -self.reach + edge), self.reach - edge)
        x_m = min(max(x_m, -self.aside + edge), self.aside - edge)
        return round((y_m + self.reach) * self.metre, 1), round((x_m + self.aside) * self.metre, 1)

    def aside_of(self, along_m: float, height_m: float) -> tuple[float, float]:
        """Return a place of the side view on the sheet."""
        across = (along_m + self.reach) * self.metre
        up = max(height_m, 0.0) * self.metre * _HEIGHT_TIMES
        return round(across, 1), round(self.ground - up, 1)

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
        ticks = [
            _line("line", (0.0, self.aside_of(0, metres)[1]), (8.0, self.aside_of(0, metres)[1]))
            for metres in self._metres()
        ]
        return [ground, net, *baselines, *ticks]

    def _metres(self) -> range:
        """Return the heights that are marked at the left edge of the side view."""
        highest = floor(self.top - 0.3)
        return range(1, highest + 1, 1 if highest <= 6 else 2)

    def _heights(self) -> tuple[Spot, ...]:
        if not self.flights:
            return ()
        return tuple(
            Spot(kind="name", x=24.0, y=round(self.aside_of(0, metres)[1] + 4.5, 1),
                 text=f"{metres} m")
            for metres in self._metres()
        )  # fmt: skip

    def _spots(self) -> tuple[tuple[Spot, ...], list[Line]]:
        """Return the marks; a number that would hide another stands aside, with a line to it."""
        spots, leaders, taken = [], [], list[tuple[float, float]]()
        for mark in sorted(self.scene.marks, key=_after_the_rest):
            place = self.above(mark.x_m, mark.y_m)
            shown = free_place(place, taken, 2 * _DOT + 1.0) if mark.text else place
            if shown != place:
                leaders.append(_line("leader", place, shown))
            if mark.text or mark.what in (What.PLAYER, What.OPPONENT):
                taken.append(shown)
            spots.append(Spot(kind=_kind(mark.what), x=shown[0], y=shown[1], text=mark.text))
        return tuple(spots), leaders

    def _curves(self) -> tuple[Curve, ...]:
        drawn = [[self.aside_of(*place) for place in flight.places] for flight in self.flights]
        net = [self.aside_of(0.0, 0.1 * step) for step in range(_NET_POINTS)]
        curves, taken = [], list[tuple[float, float]]()
        for number, (flight, places) in enumerate(zip(self.flights, drawn, strict=True)):
            others = [each for other, each in enumerate(drawn) if other != number]
            x, y = label_at(places, [*others, net], taken, self.ground - _DOT)
            taken.append((x, y))
            curves.append(
                Curve(
                    points=" ".join(f"{across},{up}" for across, up in places),
                    dashes=_dashes(flight.number),
                    text=str(flight.number),
                    x=x,
                    y=round(y + 4.5, 1),
                )
            )
        return tuple(curves)

    def _names(self) -> tuple[Spot, ...]:
        own = ("backhand side", "forehand side")
        theirs = ("their forehand side", "their backhand side")
        own = own if self.scene.forehand_is_right else own[::-1]
        theirs = theirs if self.scene.their_forehand_is_right else theirs[::-1]
        left, right = 0.25 * _WIDTH, 0.75 * _WIDTH
        top, bottom = 16.0, self.court_height - 8.0
        return tuple(
            Spot(kind="name", x=round(x, 1), y=round(y, 1), text=text)
            for x, names in ((left, own), (right, theirs))
            for y, text in zip((top, bottom), names, strict=True)
        )


def _after_the_rest(mark: Mark) -> tuple[bool, str]:
    """Return a key that places numbers last and in their order."""
    return bool(mark.text), mark.text


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
