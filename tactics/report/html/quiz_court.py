"""Court and side view of a question as shapes, lying down like on the terminal: you at the left.

Ten units a metre; along the court to the right, the hitter's right hand side downwards.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from tactics.report.court_picture import Picture, Spot
from tactics.report.quiz_ground import NET_M

_UNITS = 10
_ALONG_M, _ACROSS_M = 15.5, 6.4
"""What the sheet shows to each side of the net and of the middle line."""
_BODY_M, _SKY_M = 1.7, 0.35
_SIDE_UNITS = 30
_NET_X, _OFFER_STEP = 130, 12
_LETTER_DROP, _FIGURE_WIDE, _FIGURE_TALL = 5, 12, 13
"""Of a figure on the court: from its middle to the line it stands on, and its size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """Something at a place; text: what is written in it."""

    x: int
    y: int
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class QuizCourt:
    """Places on the court; way: points of the ball's way in; aims: the options' own places."""

    player: Dot | None
    opponent: Dot | None
    way: str
    bounce: Dot | None
    target: Dot | None
    aims: tuple[Dot, ...]
    is_doubles: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class QuizSide:
    """The ball against the net from the side, 30 units a metre, the ground at 0.

    net: how high the net is, in hundredths of that of the full court.
    """

    top: int
    ball_y: int
    offers: tuple[Dot, ...]
    net: int = 100


def quiz_court(asked: Picture, answered: Picture, aims: Sequence[Spot | None]) -> QuizCourt:
    """Return the shapes before the answer, and the target that is shown after it."""
    stops = [each for each in (asked.source, asked.bounce, asked.player) if each is not None]
    has_way = asked.source is not None and asked.player is not None
    return QuizCourt(
        player=_dot(asked.player),
        opponent=_dot(asked.opponent),
        way=",".join(f"{dot.x},{dot.y}" for dot in map(_placed, stops)) if has_way else "",
        bounce=_dot(asked.bounce),
        target=_dot(answered.target),
        aims=_apart(
            replace(dot := _placed(spot), y=dot.y + _LETTER_DROP, text=str(number))
            for number, spot in enumerate(aims, start=1)
            if spot is not None
        ),
        is_doubles=asked.is_doubles,
    )


def _apart(figures: Iterable[Dot]) -> tuple[Dot, ...]:
    """Return figures none of which stands on another: each a step nearer to the net, if need be."""
    found: list[Dot] = []
    for figure in figures:
        while any(_overlaps(figure, other) for other in found):
            figure = replace(figure, x=figure.x - _FIGURE_WIDE)
        found.append(figure)
    return tuple(found)


def _overlaps(one: Dot, other: Dot) -> bool:
    return abs(one.x - other.x) < _FIGURE_WIDE and abs(one.y - other.y) < _FIGURE_TALL


def quiz_side(
    contact_m: float | None, offers: Sequence[tuple[int, float]], net_m: float = NET_M
) -> QuizSide | None:
    """Return the side view: the ball, and the heights on offer (option, metres over the net)."""
    if contact_m is None:
        return None
    tallest = max([_BODY_M, contact_m, *(net_m + height for _, height in offers)])
    return QuizSide(
        top=-round((tallest + _SKY_M) * _SIDE_UNITS),
        ball_y=_up(contact_m),
        offers=tuple(
            Dot(x=_NET_X + _OFFER_STEP * place, y=_up(net_m + height), text=str(place + 1))
            for place, height in offers
        ),
        net=round(100 * net_m / NET_M),
    )


def _up(height_m: float) -> int:
    return -round(height_m * _SIDE_UNITS)


def _dot(spot: Spot | None) -> Dot | None:
    return None if spot is None else _placed(spot)


def _placed(spot: Spot) -> Dot:
    """Return a place on the sheet; whoever stands further out is drawn at its edge."""
    along = min(max(spot.y_m, 0.5 - _ALONG_M), _ALONG_M - 0.5)
    across = min(max(spot.x_m, 0.5 - _ACROSS_M), _ACROSS_M - 0.5)
    return Dot(x=round(along * _UNITS), y=round(across * _UNITS))
