"""Facts that follow from other facts, before any rule is asked.

Nothing is assumed here: a derived set holds every value that the facts it rests on allow.
"""

from collections.abc import Callable
from itertools import product
from math import inf

from tactics.model.choice import Choice
from tactics.model.known import NOT_SEEN, Absent, Interval, Known, OneOf, Within, merged, word
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary

_SWING_TO_SWING_M = 24.0
_MEAN_OF_LAUNCH = 0.72
_KMH_PER_MS = 3.6
_BACK_COURT_M = 9.1


def complete(situation: Situation, words: Vocabulary) -> Situation:
    """Return the situation with hands, heights, incoming time and unset marks filled in."""
    facts = situation.as_dict()
    for trait in words.facts:
        if trait.unset and facts.get(trait.folded, NOT_SEEN) is NOT_SEEN:
            facts[trait.folded] = word(trait.unset)
    for fact, _, derive in DERIVED:
        if facts.get(fact, NOT_SEEN) is NOT_SEEN:
            found = derive(facts)
            if found is not None:
                facts[fact] = found
    return Situation.of(facts)


def _hands(facts: dict[str, Known]) -> Known | None:
    own, other = _words(facts, "own hand"), _words(facts, "opponent hand")
    if not own or not other:
        return None
    return OneOf(frozenset("same" if a == b else "opposite" for a, b in product(own, other)))


def _body_height(facts: dict[str, Known]) -> Known | None:
    height, stature = facts.get("contact height"), facts.get("stature")
    if not isinstance(height, Within) or not isinstance(stature, Within):
        return None
    return _combined(height, stature, lambda h, s: h / s)


def _contact_height(facts: dict[str, Known]) -> Known | None:
    share, stature = facts.get("body height"), facts.get("stature")
    if not isinstance(share, Within) or not isinstance(stature, Within):
        return None
    return _combined(share, stature, lambda h, s: h * s)


def _incoming_time(facts: dict[str, Known]) -> Known | None:
    """Work the time out from the pace where both players are back; else leave it open.

    Mean speed over the 24 m from racket to racket is taken as 0.72 of the launch: an estimate.
    """
    pace = facts.get("incoming pace")
    if not isinstance(pace, Within) or not all(
        _is_back(facts, depth) for depth in ("court depth", "opponent depth")
    ):
        return None
    return Within(merged(_time_for(interval) for interval in pace.intervals))


def _time_for(pace_kmh: Interval) -> Interval:
    def seconds(kmh: float) -> float:
        mean_ms = kmh / _KMH_PER_MS * _MEAN_OF_LAUNCH
        return round(_SWING_TO_SWING_M / mean_ms, 6) if 0 < mean_ms < inf else inf

    low, high = pace_kmh.high, pace_kmh.low
    fastest = 0.0 if low[0] == inf else seconds(low[0])
    slowest = inf if high[0] <= 0 else seconds(high[0])
    return Interval((fastest, 1 - low[1]), (slowest, 1 - high[1]))


def _is_back(facts: dict[str, Known], fact: str) -> bool:
    depth = facts.get(fact)
    return isinstance(depth, Within) and depth.intervals[0].low >= (_BACK_COURT_M, 0)


DERIVED: tuple[tuple[str, tuple[str, ...], Callable[[dict[str, Known]], Known | None]], ...] = (
    ("hands", ("own hand", "opponent hand"), _hands),
    ("body height", ("contact height", "stature"), _body_height),
    ("contact height", ("body height", "stature"), _contact_height),
    ("incoming time", ("incoming pace", "court depth", "opponent depth"), _incoming_time),
)
"""Fact, the facts it rests on, and how it follows. Only facts that were not seen are derived."""

FINDS_RESTS_ON = ("serve side", "opponent hand", "own hand", "hands", "court width", "wing")
"""The facts that decide which wing a direction finds."""


def _combined(top: Within, low: Within, formula: Callable[[float, float], float]) -> Known:
    """Return the range of a formula that rises in its first and runs one way in its second."""
    a, b = top.intervals[0].low[0], top.intervals[-1].high[0]
    c, d = low.intervals[0].low[0], low.intervals[-1].high[0]
    corners = [formula(x, y) for x, y in product((max(a, 0.0), min(b, 4.0)), (c, d))]
    if a == b and c == d:
        return Within((Interval((round(corners[0], 6), 0), (round(corners[0], 6), 1)),))
    # an end that the charted set leaves out stays out: two bands that meet must not overlap
    closed = 1 if top.intervals[-1].high[1] else 0
    return Within((Interval((round(min(corners), 6), 0), (round(max(corners), 6), closed)),))


def _words(facts: dict[str, Known], fact: str) -> frozenset[str]:
    known = facts.get(fact)
    return known.words if isinstance(known, OneOf) else frozenset()


_BOTH_WINGS = frozenset(("forehand", "backhand"))
_OTHER_WING = {"forehand": "backhand", "backhand": "forehand"}
_CROSS = frozenset(("crosscourt", "inside-out", "sharp angle"))
_SAME_SIDE = frozenset(("straight", "inside-in"))
_AROUND = frozenset(("inside-out", "inside-in"))


def finds(choice: Choice, situation: Situation) -> Known:
    """Return the wings of the opponent that the charted direction can find.

    NOT_SEEN where no direction was charted. A serve's place counts from the returner's side
    of the box; a rally ball's from the side of the court it is struck on.
    """
    charted = choice.get("finds")
    direction = choice.get("direction")
    if not isinstance(charted, Absent):
        return charted
    if not isinstance(direction, OneOf):
        return NOT_SEEN
    found: set[str] = set()
    for name in direction.words:
        found |= _wings(name, situation.as_dict())
    return OneOf(frozenset(found))


def _wings(direction: str, facts: dict[str, Known]) -> frozenset[str]:
    if direction in ("at body", "middle"):
        return frozenset(("body",))
    if direction in ("wide", "T"):
        return _served_wings(direction, facts)
    if direction in _CROSS or direction in _SAME_SIDE:
        return _rallied_wings(direction, facts)
    return _BOTH_WINGS


def _served_wings(direction: str, facts: dict[str, Known]) -> frozenset[str]:
    """On the deuce side a wide serve goes to the returner's right, a T serve to the left."""
    sides, hands = _words(facts, "serve side"), _words(facts, "opponent hand")
    if not sides or not hands:
        return _BOTH_WINGS
    found = set()
    for side, hand in product(sides, hands):
        goes_right = (side == "deuce") == (direction == "wide")
        found.add("forehand" if goes_right == (hand == "right") else "backhand")
    return frozenset(found)


def _rallied_wings(direction: str, facts: dict[str, Known]) -> frozenset[str]:
    """Same hands: across the court the ball meets the wing of the side it was struck on."""
    hands = _words(facts, "hands") or _words({"hands": _hands(facts) or NOT_SEEN}, "hands")
    sides = frozenset(("backhand",)) if direction in _AROUND else _court_sides(facts)
    if not hands:
        return _BOTH_WINGS
    found = set()
    for hand, side in product(hands, sides):
        meets_same_wing = (hand == "same") == (direction in _CROSS)
        found.add(side if meets_same_wing else _OTHER_WING[side])
    return frozenset(found)


def _court_sides(facts: dict[str, Known]) -> frozenset[str]:
    """Return the sides the ball can have been struck on; in the middle the wing tells."""
    side = side_of(facts.get("court width", NOT_SEEN))
    wing = _words(facts, "wing")
    return side or (wing if wing and wing <= _BOTH_WINGS else _BOTH_WINGS)


def side_of(width: Known) -> frozenset[str]:
    """Return the side of the court a width lies on, nothing where it may be the middle."""
    if isinstance(width, Within):
        if width.intervals[0].low >= (1.37, 0):
            return frozenset(("forehand",))
        if width.intervals[-1].high <= (-1.37, 0):
            return frozenset(("backhand",))
    return frozenset()


def unseen_behind(choice: Choice, situation: Situation) -> dict[str, tuple[str, ...]]:
    """Return derived fact -> the facts behind it that were not seen: what to name as missing."""
    served = isinstance(known := choice.get("direction"), OneOf) and known.words <= {"wide", "T"}
    rests_on = {
        "hands": ("own hand", "opponent hand"),
        "finds": ("serve side", "opponent hand")
        if served
        else ("own hand", "opponent hand", "court width", "wing"),
    }
    missing = {
        fact: tuple(name for name in names if situation.get(name) is NOT_SEEN)
        for fact, names in rests_on.items()
    }
    return {fact: names for fact, names in missing.items() if names}
