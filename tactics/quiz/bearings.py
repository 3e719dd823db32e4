"""Facts that go with where both players stand: the road of the ball, the places at a serve.

Frame of the player: x to the right, metres. The opponent looks the other way.
"""

from collections.abc import Collection

from tactics.model.facts import RETURNING, SERVING
from tactics.quiz.plain import Value

Ball = dict[str, Value]
_SIGN = {"right": 1.0, "left": -1.0}
_SERVER_M, _RECEIVER_M = 0.9, 3.2
_SERVER_DEPTH_M = 12.1
"""A server stands a foot behind the baseline."""
_WIDE_M, _T_M = 2.9, 1.6
_MIDDLE_M = 1.37
_KMH_EACH_MS = 5.0
"""Pace off the racket in km/h for each m/s of mean speed: a ball loses about 28 % on its way."""


def take_bearings(ball: Ball, locked: Collection[str]) -> None:
    """Write the facts that follow from the places of the players, unless a rule asked for them."""
    if ball["game situation"] == SERVING:
        _set(ball, locked, "court depth", _SERVER_DEPTH_M)
        _set(ball, locked, "court width", _SERVER_M * _side(ball, "own hand"))
        _set(ball, locked, "opponent width", _RECEIVER_M * _side(ball, "opponent hand"))
    elif ball["game situation"] == RETURNING:
        _set(ball, locked, "opponent width", _SERVER_M * _side(ball, "opponent hand"))
        _return(ball, locked)
    else:
        _set(ball, locked, "incoming direction", _road(ball))


def keep_bearings(before: Ball, now: Ball, fact: str) -> None:
    """Let what followed from the places before one fact changed follow from them again."""
    again = dict(before)
    take_bearings(again, ())
    own = {name for name, value in again.items() if value != before[name]}
    take_bearings(now, own | {fact})


def _set(ball: Ball, locked: Collection[str], fact: str, value: Value) -> None:
    if fact not in locked and value is not None:
        ball[fact] = value


def _side(ball: Ball, hand: str) -> float:
    """Return +1 where the serve side lies on that player's forehand side, else -1."""
    return _SIGN[str(ball[hand])] * (1.0 if ball["serve side"] == "deuce" else -1.0)


def _return(ball: Ball, locked: Collection[str]) -> None:
    width_m = ball["court width"]
    if not isinstance(width_m, float):
        return
    out_m = width_m * _side(ball, "own hand")
    if out_m < -_T_M and "serve side" not in locked:
        ball["serve side"] = "ad" if ball["serve side"] == "deuce" else "deuce"
        out_m = -out_m
        _set(ball, locked, "opponent width", _SERVER_M * _side(ball, "opponent hand"))
    road = "wide" if out_m >= _WIDE_M else "T" if out_m < _T_M else "at body"
    _set(ball, locked, "incoming direction", road)


def _road(ball: Ball) -> str | None:
    own_m, their_m = ball["court width"], ball["opponent width"]
    if ball.get("incoming direction") in ("sharp angle", "at body"):
        return None
    if not isinstance(own_m, float) or not isinstance(their_m, float):
        return None
    own_x_m = own_m * _SIGN[str(ball["own hand"])]
    their_x_m = -their_m * _SIGN[str(ball["opponent hand"])]
    if abs(own_x_m) < _MIDDLE_M:
        return "middle"
    return "crosscourt" if own_x_m * their_x_m < 0 else "straight"


def pace_kmh(ball: Ball) -> float | None:
    """Return the pace off the racket that goes with the way and the time of the ball."""
    own_m, their_m = ball.get("court depth"), ball.get("opponent depth")
    time_s = ball.get("incoming time")
    if not (isinstance(own_m, float) and isinstance(their_m, float) and isinstance(time_s, float)):
        return None
    return float(round((own_m + their_m) / time_s * _KMH_EACH_MS))
