"""Facts that follow from other facts, as clauses: two hands, two heights, time and pace, wings.

Each relation is switched on by a literal of its own, so that it can be named as a reason.
"""

from collections.abc import Callable, Iterable, Iterator
from itertools import product
from math import inf

from tactics.checks.clauses import Clauses
from tactics.checks.scale import Scale
from tactics.model.known import Allowed, Interval, OneOf, Within, at_least, less_than
from tactics.model.legality import FOLLOWING, Follows

Scales = dict[str, Scale]
Needed = dict[str, tuple[Allowed, ...]]

_STATURES = (1.2, 1.4, 1.6, 1.8, 2.0)
_BACK_COURT_M = 9.1
_KMH_TIMES_SECONDS = 120.0
_PACE_TOLERANCE = 1.5
_MIDDLE_M = 1.37

_FINDS: Needed = {
    "direction": (),
    "serve side": (),
    "own hand": (),
    "opponent hand": (),
    "hands": (),
    "wing": (),
    "court width": (Within((less_than(-_MIDDLE_M),)), Within((at_least(_MIDDLE_M),))),
}


def needed(mentioned: Iterable[str]) -> Needed:
    """Return what has to be known besides, where these facts and parts are mentioned."""
    names, more = frozenset(mentioned), dict[str, tuple[Allowed, ...]]()
    if "finds" in names:
        more |= _FINDS
    if "hands" in names:
        more |= {"own hand": (), "opponent hand": ()}
    if {"contact height", "body height"} <= names:
        more["stature"] = tuple(Within((less_than(metres),)) for metres in _STATURES)
    if {"incoming pace", "incoming time"} <= names:
        far = (Within((at_least(_BACK_COURT_M),)),)
        more |= {"court depth": far, "opponent depth": far}
    return more


def relations(scales: Scales, clauses: Clauses) -> Iterator[tuple[Follows, int]]:
    """Yield each relation between facts that are all there, with its literal."""
    for relation in FOLLOWING:
        if all(name in scales for name in (relation.fact, *relation.from_)):
            holds = clauses.fresh()
            _WRITERS[relation.id](scales, clauses, holds)
            yield relation, holds


def _word(scale: Scale, clauses: Clauses, *names: str) -> int:
    return scale.literal(scale.cells_of(OneOf(frozenset(names))), clauses)


def _hands(scales: Scales, clauses: Clauses, holds: int) -> None:
    for own, other in product(("right", "left"), repeat=2):
        seen = "same" if own == other else "opposite"
        clauses.add(
            -holds,
            -_word(scales["own hand"], clauses, own),
            -_word(scales["opponent hand"], clauses, other),
            _word(scales["hands"], clauses, seen),
        )


def _heights(scales: Scales, clauses: Clauses, holds: int) -> None:
    """Contact height is body height times stature."""
    _product(scales, ("body height", "stature", "contact height"), clauses, (holds,), _times)


def _times(share: Interval, stature_m: Interval) -> Interval:
    return Interval((share.low[0] * stature_m.low[0], 0), (share.high[0] * stature_m.high[0], 1))


def _pace_and_time(scales: Scales, clauses: Clauses, holds: int) -> None:
    """Between two players at the back, time goes with pace, within a factor of one and a half."""
    back = [
        scales[name].literal(scales[name].cells_of(Within((at_least(_BACK_COURT_M),))), clauses)
        for name in ("court depth", "opponent depth")
    ]
    pace, time = scales["incoming pace"], scales["incoming time"]
    for cell in range(pace.size):
        low, high = pace.cuts[cell][0], pace.cuts[cell + 1][0]
        fastest = _KMH_TIMES_SECONDS / high / _PACE_TOLERANCE if high < inf else 0.0
        slowest = _KMH_TIMES_SECONDS / low * _PACE_TOLERANCE if low > 0 else inf
        allowed = Within((Interval((fastest, 0), (slowest, 1)),))
        clauses.add(
            -holds,
            *(-each for each in back),
            -pace.literal(frozenset((cell,)), clauses),
            time.literal(time.cells_of(allowed), clauses),
        )


def _product(
    scales: Scales,
    names: tuple[str, str, str],
    clauses: Clauses,
    unless: tuple[int, ...],
    range_of: Callable[[Interval, Interval], Interval],
) -> None:
    """Say of each pair of cells in which cells the third number then lies."""
    one, other, third = (scales[name] for name in names)
    for first, second in product(range(one.size), range(other.size)):
        reached = range_of(
            Interval(one.cuts[first], one.cuts[first + 1]),
            Interval(other.cuts[second], other.cuts[second + 1]),
        )
        clauses.add(
            *(-each for each in unless),
            -one.literal(frozenset((first,)), clauses),
            -other.literal(frozenset((second,)), clauses),
            third.absent,
            third.literal(third.cells_of(Within((reached,))), clauses),
        )


def _finds(scales: Scales, clauses: Clauses, holds: int) -> None:
    """The wing a ball finds follows from its direction, the place it is struck and both hands."""
    finds, direction = scales["finds"], scales["direction"]
    body = _word(direction, clauses, "middle", "at body")
    clauses.add(-holds, -body, _word(finds, clauses, "body"))
    clauses.add(-holds, body, -_word(finds, clauses, "body"))
    for side, road, hand in product(("deuce", "ad"), ("wide", "T"), ("right", "left")):
        to_the_right = (side == "deuce") == (road == "wide")
        met = "forehand" if to_the_right == (hand == "right") else "backhand"
        clauses.add(
            -holds,
            -_word(scales["serve side"], clauses, side),
            -_word(direction, clauses, road),
            -_word(scales["opponent hand"], clauses, hand),
            _word(finds, clauses, met),
        )
    for struck_on, hands in product(("forehand", "backhand"), ("same", "opposite")):
        _rally_wing(scales, clauses, holds, struck_on, hands)


def _rally_wing(scales: Scales, clauses: Clauses, holds: int, side: str, hands: str) -> None:
    other = {"forehand": "backhand", "backhand": "forehand"}[side]
    across, along = (side, other) if hands == "same" else (other, side)
    direction, finds = scales["direction"], scales["finds"]
    hands_are = -_word(scales["hands"], clauses, hands)
    struck = -_struck_on(scales, clauses, side)
    for roads, met in ((("crosscourt", "sharp angle"), across), (("straight",), along)):
        clauses.add(
            -holds, hands_are, struck, -_word(direction, clauses, *roads),
            _word(finds, clauses, met),
        )  # fmt: skip
    if side == "backhand":  # run around: struck from that side whatever the place
        for roads, met in ((("inside-out",), across), (("inside-in",), along)):
            clauses.add(
                -holds, hands_are, -_word(direction, clauses, *roads), _word(finds, clauses, met)
            )


def _struck_on(scales: Scales, clauses: Clauses, side: str) -> int:
    """Return the literal that a ball is struck on a side of the court; in the middle wing tells."""
    width = scales["court width"]
    forehand = width.literal(width.cells_of(Within((at_least(_MIDDLE_M),))), clauses)
    backhand = width.literal(width.cells_of(Within((less_than(-_MIDDLE_M),))), clauses)
    there, elsewhere = (forehand, backhand) if side == "forehand" else (backhand, forehand)
    by_wing = clauses.every((-elsewhere, _word(scales["wing"], clauses, side)))
    return clauses.some((there, by_wing))


_WRITERS: dict[str, Callable[[Scales, Clauses, int], None]] = {
    "hands-follow": _hands,
    "heights-follow": _heights,
    "time-goes-with-pace": _pace_and_time,
    "wing-found-follows": _finds,
}
