"""Court and side view of a question as shapes, lying down like on the terminal: you at the left.

Ten units a metre; along the court to the right, the hitter's right hand side downwards.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.report.court_picture import Picture, Spot

_UNITS = 10
_ALONG_M, _ACROSS_M = 15.5, 6.4
"""What the sheet shows to each side of the net and of the middle line."""
_NET_M, _BODY_M, _SKY_M = 0.914, 1.7, 0.35
_SIDE_UNITS = 30
_BALL_X, _BODY_X, _NET_X, _SIDE_WIDTH = 24.0, 12.0, 130.0, 170.0
_OFFER_STEP = 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """Something at a place; text: what is written in it."""

    x: float
    y: float
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
    """The ball against the net from the side, 30 units a metre, the ground at 0."""

    top: float
    ball: Dot
    offers: tuple[Dot, ...]


def quiz_court(asked: Picture, answered: Picture, aims: Sequence[Spot | None]) -> QuizCourt:
    """Return the shapes before the answer, and the target that is shown after it."""
    stops = [each for each in (asked.source, asked.bounce, asked.player) if each is not None]
    has_way = asked.source is not None and asked.player is not None
    return QuizCourt(
        player=_dot(asked.player),
        opponent=_dot(asked.opponent),
        way=" ".join(f"{dot.x:g},{dot.y:g}" for dot in map(_placed, stops)) if has_way else "",
        bounce=_dot(asked.bounce),
        target=_dot(answered.target),
        aims=tuple(
            _placed(spot, str(number))
            for number, spot in enumerate(aims, start=1)
            if spot is not None
        ),
        is_doubles=asked.is_doubles,
    )


def quiz_side(contact_m: float | None, offers: Sequence[tuple[int, float]]) -> QuizSide | None:
    """Return the side view: the ball, and the heights on offer (option, metres over the net)."""
    if contact_m is None:
        return None
    tallest = max([_BODY_M, contact_m, *(_NET_M + height for _, height in offers)])
    return QuizSide(
        top=-round((tallest + _SKY_M) * _SIDE_UNITS, 1),
        ball=Dot(x=_BALL_X, y=_up(contact_m)),
        offers=tuple(
            Dot(x=_NET_X + _OFFER_STEP * place, y=_up(_NET_M + height), text=str(place + 1))
            for place, height in offers
        ),
    )


def _up(height_m: float) -> float:
    return -round(height_m * _SIDE_UNITS, 1)


def _dot(spot: Spot | None) -> Dot | None:
    return None if spot is None else _placed(spot)


def _placed(spot: Spot, text: str = "") -> Dot:
    """Return a place on the sheet; whoever stands further out is drawn at its edge."""
    along = min(max(spot.y_m, 0.5 - _ALONG_M), _ALONG_M - 0.5)
    across = min(max(spot.x_m, 0.5 - _ACROSS_M), _ACROSS_M - 0.5)
    return Dot(x=round(along * _UNITS, 1), y=round(across * _UNITS, 1), text=text)
