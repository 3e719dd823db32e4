"""Where the opponent stands, and how much time they have lost already."""

from tactics.engine.contact import NET_PLAYER_M
from tactics.engine.told import Told
from tactics.flight.levels import Level
from tactics.flight.stand import FROM_CENTRE_M, Hand, ReturnStand, Server, return_stand
from tactics.flight.venue import Venue
from tactics.model.facts import FACING_NET, RETURNING, SERVING

_LATE_S = {
    "recovering": 0.15, "running wide": 0.15, "coming in": 0.15, "backing up": 0.15,
    "unbalanced": 0.3,
}  # fmt: skip
"""What an opponent on the move has lost already, in seconds: an assumption."""


def opponent_of(
    told: Told, venue: Venue, level: Level, their_right: int
) -> tuple[float, float | None, bool]:
    """Return the opponent's x, depth (None: the neutral place) and whether both were told."""
    depth = told.place_m("opponent depth", venue.length_scale)
    width = told.place_m("opponent width", venue.width_scale)
    is_told = depth is not None and width is not None
    if depth is None and told.phase == FACING_NET:
        depth = NET_PLAYER_M * venue.length_scale
        told.taken.append(f"opponent depth not given: {depth:.1f} m from the net")
    if width is not None:
        return their_right * width, depth, is_told
    x = _usual_x_m(told, venue, level)
    told.taken.append(f"opponent width not given: {_opponent_words(x)}")
    return x, depth, is_told


def _usual_x_m(told: Told, venue: Venue, level: Level) -> float:
    """Return the usual x: behind their serve, where a serve is returned best, or the middle."""
    side = told.word("serve side")
    if told.phase == RETURNING and side:
        return (-1.0 if side == "deuce" else 1.0) * FROM_CENTRE_M * venue.width_scale
    if told.phase != SERVING:
        return 0.0
    hand = Hand.LEFT if told.word("own hand") == "left" else Hand.RIGHT
    server = Server(
        hand=hand,
        side=told.serve_side(),
        level=level,
        from_centre_m=FROM_CENTRE_M * venue.width_scale,
    )
    found = return_stand(server, level, venue=venue)
    return -found.by_time_x_m if isinstance(found, ReturnStand) else 0.0


def late_s(told: Told) -> float:
    """Return the seconds that an opponent on the move has lost."""
    movement = told.word("opponent movement")
    lost = _LATE_S.get(movement, 0.0)
    if lost:
        told.taken.append(f"an opponent who is {movement} has lost {lost:g} s")
    return lost


def _opponent_words(x_m: float) -> str:
    if x_m == 0.0:
        return "in the middle"
    return f"{abs(x_m):.1f} m to the {'right' if x_m > 0 else 'left'}, as you look"
