"""Where and how a player meets the ball: place, height, and what makes it harder."""

from tactics.engine.told import Told
from tactics.flight.court import Area
from tactics.flight.scatter import Balance, Strain
from tactics.flight.shots import Contact
from tactics.flight.stand import CONTACT_TO_STATURE, FROM_CENTRE_M, ServeSide
from tactics.flight.venue import Venue
from tactics.model.facts import AT_NET, RETURNING, SERVING
from tactics.model.known import Within

NET_HOME_M = 3.0
_WAIST = 0.54  # of stature: the middle of the strike zone
_BEHIND_LINE_M = 0.3
NET_PLAYER_M = 3.0
_RETURNER_X_M = 3.2
_VERY_FAST_S = 0.9  # from hit to hit: little time for anybody
_KNEE, _SHOULDER = 0.285, 0.80  # of stature: contacts below and above are awkward


def contact_of(told: Told, venue: Venue, right: int) -> Contact:
    """Return where the ball is met; right: the sign of x on the forehand side."""
    if told.asked.contact is not None:
        return told.asked.contact
    if told.phase == SERVING:
        return _serve_contact(told, venue)
    depth = told.place_m("court depth", venue.length_scale)
    width = told.place_m("court width", venue.width_scale)
    height = told.number("contact height")
    if depth is None:
        depth = _usual_depth_m(told, venue)
        told.taken.append(f"court depth not given: met {depth:.1f} m from the net")
    if width is None:
        width = _usual_width_m(told, venue) * right
        told.taken.append(f"court width not given: met {_side_words(width * right)}")
    if height is None:
        height = round(_WAIST * told.stature_m, 2)
        told.taken.append(f"contact height not given: met {height:g} m high, at the waist")
    return Contact(x_m=right * width, depth_m=depth, height_m=height)


def _usual_depth_m(told: Told, venue: Venue) -> float:
    if told.phase == AT_NET:
        return NET_PLAYER_M * venue.length_scale
    return venue.court.half_length_m + _BEHIND_LINE_M * venue.length_scale


def _usual_width_m(told: Told, venue: Venue) -> float:
    """Return the usual x: the middle, or for a returner the side of the serve."""
    side = told.word("serve side")
    if told.phase == RETURNING and side:
        return (1.0 if side == "deuce" else -1.0) * _RETURNER_X_M * venue.width_scale
    return 0.0


def _serve_contact(told: Told, venue: Venue) -> Contact:
    """Return where a serve is struck: from the baseline, as high as body and racket reach."""
    side = 1.0 if told.serve_side() is ServeSide.DEUCE else -1.0
    height = told.number("contact height") or CONTACT_TO_STATURE * told.stature_m
    return Contact(
        x_m=side * FROM_CENTRE_M * venue.width_scale,
        depth_m=venue.court.half_length_m,
        height_m=round(height, 3),
    )


def area_of(told: Told) -> Area:
    """Return where the ball has to land: the court, or the service box."""
    if told.phase != SERVING:
        return Area.COURT
    return Area.FROM_RIGHT if told.serve_side() is ServeSide.DEUCE else Area.FROM_LEFT


def home_m(told: Told, contact: Contact, venue: Venue) -> float | None:
    """Return the depth of the place to recover to: a net player stays at the net."""
    if told.phase != AT_NET:
        return None
    return min(contact.depth_m, NET_HOME_M * venue.length_scale)


def strain_of(told: Told) -> Strain:
    """Return what makes a contact harder than one met set, in time and at the waist."""
    time = told.word("time")
    share = told.facts.get("body height")
    incoming = told.facts.get("incoming time")
    balance = told.word("balance")
    if not balance:
        told.taken.append("balance not given: met set")
    return Strain(
        balance=Balance(balance or "set"),
        is_late=time in ("late", "emergency"),
        is_awkward_height=_lies_below(share, _KNEE) or _lies_above(share, _SHOULDER),
        has_little_time=time == "emergency" or _lies_below(incoming, _VERY_FAST_S),
        is_serve=told.phase == SERVING,
    )


def _lies_below(known: object, limit: float) -> bool:
    return isinstance(known, Within) and known.intervals[-1].high <= (limit, 0)


def _lies_above(known: object, limit: float) -> bool:
    return isinstance(known, Within) and known.intervals[0].low >= (limit, 0)


def _side_words(to_forehand_m: float) -> str:
    if to_forehand_m == 0.0:
        return "in the middle"
    side = "forehand" if to_forehand_m > 0 else "backhand"
    return f"{abs(to_forehand_m):.1f} m to the {side} side"
