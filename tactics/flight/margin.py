"""How far inside the line and how high over the net to aim, for a wanted share of balls in."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from tactics.flight.constants import FOOTPRINT
from tactics.flight.court import Area, Box
from tactics.flight.launch import aim
from tactics.flight.motion import Array
from tactics.flight.ranges import OutOfRange, out_of_range
from tactics.flight.scatter import Scatter
from tactics.flight.shares import error_surface, mirrored_normals
from tactics.flight.shots import Contact, Shots, spread_of
from tactics.flight.strike import Strike
from tactics.flight.venue import FULL_COURT, Venue

WANTED: Final = (0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95)
LEAST_WANTED: Final = 0.3
MOST_WANTED: Final = 0.99
RALLY_DISTANCE_M: Final = 21.6  # from a step behind the baseline to 3 m inside the other one
_HEIGHTS_M: Final = np.concatenate([np.arange(0.0, 2.0, 0.1), np.arange(2.0, 5.1, 0.25)])
_FIRST_INSIDE_M: Final = 1.5
_POWER: Final = 10
_ALLOWED: Final = np.geomspace(0.35, 0.0018, 61)  # share of net errors, and as much wide
_MIDDLE: Final = 0.0019  # who allows less aims through the middle
_INSIDE: Final = 4  # row of an aim: metres inside the line


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """What a margin is asked for: contact, pace, spin, and the line it is played towards.

    `line` is 1 for the right-hand edge of the area (as the hitter looks) and -1 for the left-hand
    one. For a serve `area` is a service box: its edges are the sideline and the centre line.
    """

    contact: Contact
    pace_ms: float
    topspin_rpm: float
    line: int = 1
    area: Area = Area.COURT
    sidespin_rpm: float = 0.0

    def box(self, venue: Venue) -> Box:
        """The rectangle to land in; asking for a box on a court without service line is a bug."""
        box = venue.court.box(self.area)
        if box is None:
            raise ValueError("this court has no service line: give it one before serving on it")
        return box


@dataclass(frozen=True, slots=True, kw_only=True)
class Margin:
    """The boldest aim that gives a wanted share of balls in, net and wide errors being equal.

    What goes long follows from pace, spin and height; an aim so high that it costs more long balls
    than it saves from the net is not taken, and then fewer balls are wide than in the net. Where
    no aim gives the wanted share at this pace, `is_enough` is false and this is the one that gives
    the most: only less pace or more topspin helps. `inside_line_scatter` is `inside_line_m` in
    units of the sideways scatter; `short_of_line_m` is the way from the landing place to the line
    behind it, which is the baseline or, for a serve, the service line.
    """

    wanted_share: float
    inside_line_m: float
    inside_line_scatter: float
    height_over_net_m: float
    short_of_line_m: float
    share_in: float
    share_net: float
    share_long: float
    share_wide: float

    @property
    def is_enough(self) -> bool:
        """Whether the aim gives the wanted share, to half a point."""
        return self.share_in >= self.wanted_share - 0.005


def margin_for(
    stroke: Stroke, scatter: Scatter, wanted_share: float, venue: Venue = FULL_COURT
) -> Margin | OutOfRange | None:
    """The margin for one wanted share; None where the stroke cannot be played at all."""
    return margin_curve(stroke, scatter, (wanted_share,), venue)[0]


def margin_curve(
    stroke: Stroke,
    scatter: Scatter,
    wanted_shares: tuple[float, ...] = WANTED,
    venue: Venue = FULL_COURT,
) -> tuple[Margin | OutOfRange | None, ...]:
    """Margins for each wanted share: the curve. Scatter is that of the stroke, strain included."""
    box = stroke.box(venue)
    middle = (box.x_high_m - box.x_low_m) / 2
    near = _FIRST_INSIDE_M * venue.width_scale * min(1.0, middle / venue.court.half_width_m)
    spreads = [_Spread.of(stroke, scatter, venue, inside) for inside in (near, middle)]
    playable = all(each.heights_m.size > 1 for each in spreads)
    aims = _aims(*spreads) if playable else np.empty((8, 0))
    return tuple(_margin(aims, wanted) for wanted in wanted_shares)


def most_pace_ms(
    stroke: Stroke, scatter: Scatter, wanted_share: float, venue: Venue = FULL_COURT
) -> float | None:
    """The highest pace up to the stroke's (m/s) whose margin is enough; None below a third of it.

    Found in steps of a fortieth of the stroke's pace.
    """
    for share in np.arange(1.0, 0.33, -0.025):
        slower = replace(stroke, pace_ms=stroke.pace_ms * float(share))
        found = margin_for(slower, scatter, wanted_share, venue)
        if isinstance(found, Margin) and found.is_enough:
            return slower.pace_ms
    return None


def sideways_sd_m(scatter: Scatter, distance_m: float = RALLY_DISTANCE_M) -> float:
    """Sideways scatter at landing (m) of a ball that flies that far."""
    return float(np.radians(scatter.sd_azimuth_deg)) * distance_m


def inside_line_m(multiple: float, scatter: Scatter, distance_m: float = RALLY_DISTANCE_M) -> float:
    """An `inside line` given in units of sideways scatter, in metres for this player."""
    return multiple * sideways_sd_m(scatter, distance_m)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Spread:
    """For each height over the net (h,): sideways errors of m balls (m, h), sorted, and shares.

    `inside_m` is how far inside the line they were aimed.
    """

    inside_m: float
    heights_m: Array
    sideways_m: Array
    landing_y_m: Array
    net_shares: Array
    long_shares: Array
    width_m: float
    far_m: float

    @classmethod
    def of(cls, stroke: Stroke, scatter: Scatter, venue: Venue, inside_m: float) -> "_Spread":
        """Fly the stroke at every height that it can have."""
        heights = _HEIGHTS_M * venue.length_scale
        box, contact = stroke.box(venue), stroke.contact
        edge = box.x_high_m if stroke.line > 0 else box.x_low_m
        done = aim(
            Strike(
                x_m=contact.x_m,
                y_m=-contact.depth_m,
                z_m=contact.height_m,
                topspin_rpm=stroke.topspin_rpm,
                sidespin_rpm=stroke.sidespin_rpm,
            ),
            target_x_m=edge - stroke.line * inside_m,
            pace_ms=stroke.pace_ms,
            height_over_net_m=heights,
            court=venue.court,
            air=venue.air,
        )
        found = np.flatnonzero(done.is_possible)
        shots = Shots(
            contact=contact,
            pace_ms=done.pace_ms[found],
            elevation_deg=done.elevation_deg[found],
            azimuth_deg=done.azimuth_deg[found],
            topspin_rpm=np.full(found.size, stroke.topspin_rpm),
            sidespin_rpm=np.full(found.size, stroke.sidespin_rpm),
        )
        surface = error_surface(shots, spread_of([scatter] * found.size), venue)
        x, y, clearance = surface.at(mirrored_normals(_POWER)).astype(np.float64)
        far = box.y_high_m + FOOTPRINT.value
        aimed_x, aimed_y, _ = done.flight.landing.position_m[:, found]
        return cls(
            inside_m=inside_m,
            heights_m=heights[found],
            sideways_m=np.sort(stroke.line * (x - aimed_x), axis=0),
            landing_y_m=aimed_y,
            net_shares=(clearance < 0.0).mean(axis=0),
            long_shares=((clearance >= 0.0) & (y > far)).mean(axis=0),
            width_m=box.x_high_m - box.x_low_m,
            far_m=box.y_high_m,
        )

    def towards(self, middle: "_Spread", inside_m: float) -> "_Spread":
        """The spread of an aim that far inside, between this one and one through the middle."""
        way = middle.inside_m - self.inside_m
        share = float(np.clip((inside_m - self.inside_m) / way, 0.0, 1.0)) if way > 0.0 else 0.0
        common = min(self.heights_m.size, middle.heights_m.size)
        net, long, depth = (
            a[:common] + share * (b[:common] - a[:common])
            for a, b in (
                (self.net_shares, middle.net_shares),
                (self.long_shares, middle.long_shares),
                (self.landing_y_m, middle.landing_y_m),
            )
        )
        return replace(self, net_shares=net, long_shares=long, landing_y_m=depth)


def _margin(aims: Array, wanted: float) -> Margin | OutOfRange | None:
    problem = out_of_range("wanted share of balls in", wanted, LEAST_WANTED, MOST_WANTED)
    if problem is not None or not aims.size:
        return problem
    share_in = aims[0]
    enough = share_in >= wanted
    first = int(enough.argmax()) if enough.any() else int(share_in.argmax())
    row = aims[:, first]
    if enough.any() and first > 0:
        step = (wanted - share_in[first - 1]) / (share_in[first] - share_in[first - 1])
        row = aims[:, first - 1] + step * (aims[:, first] - aims[:, first - 1])
    share, net, long, wide, inside, multiple, height, short = (float(v) for v in row)
    return Margin(
        wanted_share=wanted,
        inside_line_m=inside,
        inside_line_scatter=multiple,
        height_over_net_m=height,
        short_of_line_m=short,
        share_in=share,
        share_net=net,
        share_long=long,
        share_wide=wide,
    )


def _aims(spread: _Spread, middle: _Spread) -> Array:
    """Aims from bold to careful (8, k): shares in, net, long, wide, then the margins.

    Towards the middle the cord is lower, so that the same height over it goes less deep: the
    shares lie between those of the two spreads. No careful aim is lower than a bolder one.
    """
    aims, inside, lowest = [], spread.inside_m, 0.0
    for allowed in _ALLOWED:
        here = spread.towards(middle, inside if allowed > _MIDDLE else middle.inside_m)
        lowest = max(lowest, min(_lowest(here.net_shares, allowed), _surest(here)))
        aims.append(_aim(here, allowed, lowest))
        inside = aims[-1][_INSIDE]
    return np.array(aims).T


def _aim(spread: _Spread, allowed: float, place: float) -> tuple[float, ...]:
    """The aim at that number of a height at which that share of the balls over the net is wide.

    The last aims go through the middle.
    """
    errors = _at(spread.sideways_m.T, place)
    foot, width = FOOTPRINT.value, spread.width_m
    inside = float(np.quantile(errors, 1.0 - allowed)) - foot
    inside = float(np.clip(inside, 0.0, width / 2)) if allowed > _MIDDLE else width / 2
    is_wide = (errors > inside + foot) | (errors < inside - width - foot)
    net, long = float(_at(spread.net_shares, place)), float(_at(spread.long_shares, place))
    wide = (1.0 - net - long) * float(np.mean(is_wide))  # wide and long count once, as long
    return (
        1.0 - net - long - wide,
        net,
        long,
        wide,
        inside,
        inside / float(np.std(errors)),
        float(_at(spread.heights_m, place)),
        spread.far_m - float(_at(spread.landing_y_m, place)),
    )


def _lowest(shares: Array, most: float) -> float:
    """Where between the heights the falling share gets down to `most`; else the last."""
    enough = shares <= most
    index = int(enough.argmax()) if enough.any() else len(shares) - 1
    if index == 0:
        return 0.0
    before, after = shares[index - 1], shares[index]
    return index - 1 + float(np.clip((before - most) / max(before - after, 1e-12), 0.0, 1.0))


def _surest(spread: _Spread) -> float:
    """The number of the height from which on more balls go long than are saved from the net."""
    return float((spread.net_shares + spread.long_shares).argmin())


def _at(rows: Array, place: float) -> Array:
    """Between two rows, linearly."""
    low = min(int(place), len(rows) - 1)
    high = min(low + 1, len(rows) - 1)
    between: Array = rows[low] + (place - low) * (rows[high] - rows[low])
    return between
