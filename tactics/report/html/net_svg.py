"""A piece of the net as the hitter sees it, to scale, and how high the ball passes over it."""

from dataclasses import dataclass
from math import inf

from tactics.report.court_picture import DOUBLES_HALF_M, SINGLES_HALF_M, Picture

UNITS_A_METRE = 30
_HALF_WIDTH_M, _BELOW_M = 8 / 3, 0.1
_LEAST_SKY_M, _MOST_SKY_M, _ABOVE_M, _OPEN_M, _BALL_M = 1.4, 3.6, 0.15, 0.9, 0.13
"""The sky ends a little above the ball; of "or more" so much is drawn, up to its end."""
_STRAP_M, _POST_M, _POST_BEYOND_M = 0.914, 1.07, 0.914
"""Net height at the middle and at the posts, and how far outside the sideline they stand (ITF)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NetDrawing:
    """Shapes, 30 units a metre, the ground at 0 and the ball's way in the middle.

    says: the height over the net in words. net: its outline as points. top, bottom: of what the
    ball passes through; the same for one height.
    """

    says: str
    box: str
    ground: float
    net: str
    top: float
    bottom: float


def draw_net(picture: Picture) -> NetDrawing | None:
    """Return the net with the ball's height over it; None where no height or no way is known."""
    if picture.over_net_m is None or picture.player is None or picture.target is None:
        return None
    low, high = picture.over_net_m
    half = DOUBLES_HALF_M if picture.is_doubles else SINGLES_HALF_M
    x_m = _crossing(picture)
    net_m = _net_height(x_m, half)
    most = low + _OPEN_M if high == inf else high + _BALL_M + _ABOVE_M
    sky = min(max(net_m + most, _LEAST_SKY_M), _MOST_SKY_M)
    size = (-_HALF_WIDTH_M, -sky, 2 * _HALF_WIDTH_M, sky + _BELOW_M)
    return NetDrawing(
        says=_says(low, high),
        box=" ".join(f"{_units(each):g}" for each in size),
        ground=_units(_HALF_WIDTH_M),
        net=_outline(x_m, half),
        top=_units(-min(net_m + high, sky)),
        bottom=_units(-min(net_m + low, sky - _BALL_M)),
    )


def _crossing(picture: Picture) -> float:
    """Return where the straight way from player to aim crosses the net, metres from the middle."""
    player, target = picture.player, picture.target
    assert player is not None
    assert target is not None
    length = target.y_m - player.y_m
    share = min(1.0, max(0.0, -player.y_m / length)) if length > 0 else 0.5
    return player.x_m + share * (target.x_m - player.x_m)


def _net_height(x_m: float, half_m: float) -> float:
    """Return the height of the net there: straight from the strap to the posts."""
    share = min(1.0, abs(x_m) / (half_m + _POST_BEYOND_M))
    return _STRAP_M + share * (_POST_M - _STRAP_M)


def _outline(x_m: float, half_m: float) -> str:
    """Return the piece of the net around the place where the ball crosses it."""
    post = half_m + _POST_BEYOND_M
    left, right = (min(max(x_m + side, -post), post) for side in (-_HALF_WIDTH_M, _HALF_WIDTH_M))
    tops = [left, *([0.0] if left < 0 < right else []), right]
    corners = [(left, 0.0), *((each, _net_height(each, half_m)) for each in tops), (right, 0.0)]
    return " ".join(f"{_units(x - x_m):g},{_units(-y):g}" for x, y in corners)


def _says(low: float, high: float) -> str:
    least, most = (f"{round(each, 2):g}" for each in (low, high))
    if high == inf:
        return f"{least} m or more over the net"
    return f"{least} m over the net" if least == most else f"{least} to {most} m over the net"


def _units(metres: float) -> float:
    return round(metres * UNITS_A_METRE, 1) + 0.0  # never -0
