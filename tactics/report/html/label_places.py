"""Where numbers stand in a drawing, so that none hides another: places on the sheet, in units."""

from collections.abc import Sequence
from math import hypot, inf

Place = tuple[float, float]

_ASIDE = ((0, -1), (0, 1), (1, 0), (-1, 0), (1, -1), (1, 1), (-1, -1), (-1, 1))
_FURTHEST = 3  # widths of a number
_ABOVE = 13.0  # from a curve to the middle of its number
_STEP = 3  # points of a curve from one candidate to the next


def free_place(wanted: Place, taken: Sequence[Place], width: float) -> Place:
    """Return the wanted place, or the nearest around it that is a width away from all taken."""
    if _room(wanted, taken) >= width:
        return wanted
    around = [
        (round(wanted[0] + x * far * width, 1), round(wanted[1] + y * far * width, 1))
        for far in range(1, _FURTHEST + 1)
        for x, y in _ASIDE
    ]
    return next((place for place in around if _room(place, taken) >= width), wanted)


def label_at(
    curve: Sequence[Place],
    others: Sequence[Sequence[Place]],
    taken: Sequence[Place],
    lowest: float,
) -> Place:
    """Return a place beside a curve and above `lowest`, far from other curves and numbers."""
    crowd = [place for other in others for place in other[::_STEP]]
    beside = [
        (x, round(y + side, 1))
        for x, y in curve[_STEP : -_STEP or None : _STEP]
        for side in (-_ABOVE, _ABOVE)
        if y + side <= lowest
    ]
    if not beside:
        return curve[0]
    return max(beside, key=lambda place: min(_room(place, crowd), _room(place, taken), 40.0))


def _room(place: Place, taken: Sequence[Place]) -> float:
    return min((hypot(place[0] - x, place[1] - y) for x, y in taken), default=inf)
