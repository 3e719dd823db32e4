"""One number for a set of numbers: the one that a coach most likely means by it."""

from math import inf

from tactics.model.known import Allowed, Known, OneOf, Within
from tactics.model.trait import Trait

# how far inside an open end (`at least 1.3 m`, the outermost band) the typical value lies
_INSET = {
    "contact height": 0.15,
    "court depth": 1.0,
    "court width": 1.0,
    "opponent depth": 1.0,
    "opponent width": 1.0,
    "wind strength": 5.0,
    "depth": 0.4,
    "height over net": 0.3,
    "inside line": 0.2,
    "pace": 5.0,
}


def bounds(known: Known | Allowed, trait: Trait) -> tuple[float, float] | None:
    """Return the ends of the first range of a set, infinite where it is open; None without one."""
    if not isinstance(known, Within):
        return None
    first = known.intervals[0]
    if first.low[0] == first.high[0]:
        return first.low[0], first.low[0]
    low = -inf if first.low[0] <= trait.low else first.low[0]
    high = inf if first.high[0] >= trait.high else first.high[0]
    return low, high


def typical(known: Known | Allowed, trait: Trait) -> float | None:
    """Return the middle of a range, or a little inside the end of an open one; None for words."""
    ends = bounds(known, trait)
    if ends is None or ends == (-inf, inf):
        return None
    low, high = ends
    inset = _INSET.get(trait.folded, 0.0)
    if low == -inf:
        return max(high - inset, min(0.0, trait.low))
    return low + inset if high == inf else (low + high) / 2


def is_point(known: Known | Allowed, trait: Trait) -> bool:
    """Say whether a set is one number and no range."""
    ends = bounds(known, trait)
    return ends is not None and ends[0] == ends[1]


def spread_of_values(known: Known | Allowed, trait: Trait) -> tuple[float, ...]:
    """Return the typical value of a set, then the ends of its range where it is one.

    An open end is taken as far out again as the typical value lies inside the other end.
    """
    middle, ends = typical(known, trait), bounds(known, trait)
    if middle is None or ends is None or ends[0] == ends[1]:
        return () if middle is None else (middle,)
    low, high = ends
    return (
        middle,
        low if low > -inf else 2 * middle - high,
        high if high < inf else 2 * middle - low,
    )


def only_word(known: Known | Allowed) -> str:
    """Return the word that is known, or nothing where it may be several."""
    return next(iter(known.words)) if isinstance(known, OneOf) and len(known.words) == 1 else ""
