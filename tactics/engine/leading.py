"""Height over the net, depth and pace: which two lead, and what the silent ones are taken to be."""

from tactics.engine.roads import usual_inside_m
from tactics.engine.strokes import usual_pace_pct, usual_serve_pct
from tactics.engine.wish import DEPTH, HEIGHT, INSIDE, PACE, Wish

Row = dict[str, float]
"""Part -> number (m, m/s): the two that lead, and how far inside the line."""

_TRIPLE = (HEIGHT, DEPTH, PACE)
_USUAL_HEIGHT_M, _USUAL_INSIDE_BASELINE_M, _SERVE_SHORT_M = 1.0, 2.5, 1.2
_DROP = {HEIGHT: 0.5, DEPTH: 2.3}
_LOB = {HEIGHT: 5.0, DEPTH: 9.9}
_ANGLE = {HEIGHT: 0.6, DEPTH: 6.2}


def rows_of(wish: Wish) -> tuple[list[Row], tuple[str, str]]:
    """Return the numbers of every shot to be flown, the one as meant first, and what leads."""
    given = {part: wish.values(part) for part in (*_TRIPLE, INSIDE)}
    leading = _leading(wish, {part for part in _TRIPLE if given[part]})
    parts = (*leading, INSIDE)
    filled = {part: given[part] or (_usual(wish, part),) for part in parts}
    meant = {part: filled[part][0] for part in parts}
    ends = [{**meant, part: end} for part in parts for end in filled[part][1:]]
    return [meant, *ends], leading


def is_lob(wish: Wish) -> bool:
    """Say whether the high one of two elevations is meant."""
    return _touch(wish) is _LOB


def _leading(wish: Wish, given: set[str]) -> tuple[str, str]:
    """Return the two that lead; of three, height and depth: a share of the own best is vaguer.

    A pace in km/h is as good as they are, and leads beside a number before a band.
    """
    if len(given) == 3:
        if wish.numbers.pace_ms is None:
            return HEIGHT, DEPTH
        is_height_sharper = wish.is_number(HEIGHT) or not wish.is_number(DEPTH)
        return (HEIGHT, PACE) if is_height_sharper else (DEPTH, PACE)
    if len(given) == 2:
        first, second = (part for part in _TRIPLE if part in given)
        return first, second
    if _touch(wish) is not None and PACE not in given:
        return HEIGHT, DEPTH
    return (HEIGHT, PACE) if HEIGHT in given else (DEPTH, PACE)


def _touch(wish: Wish) -> Row | None:
    """Return height and depth of a drop, a lob or a short angle: their pace follows."""
    if wish.intent == "drop" or wish.stroke == "drop shot":
        return _DROP
    if wish.intent == "lob" or wish.stroke == "lob":
        return _LOB
    return _ANGLE if wish.word("direction") == "sharp angle" else None


def _usual(wish: Wish, part: str) -> float:
    """Return what a silent part is taken to be, and note it."""
    if part == INSIDE:
        return usual_inside_m(wish)
    if part == PACE:
        return usual_pace_ms(wish)
    value = _usual_place(wish, part)
    where = "over the net" if part == HEIGHT else "from the net"
    wish.take(f"{part} not said: {value:.1f} m {where}")
    return value


def usual_pace_ms(wish: Wish) -> float:
    """Return the pace (m/s) of a choice that does not say it, and note it."""
    pct = round(_usual_pct(wish))
    wish.take(f"pace not said: {pct:g} % of the own best")
    return pct / 100.0 * wish.best_ms


def _usual_pct(wish: Wish) -> float:
    if wish.position.is_serve:
        return usual_serve_pct(wish.word("spin"), wish.serve_number)
    return usual_pace_pct(wish.intent, wish.stroke)


def _usual_place(wish: Wish, part: str) -> float:
    touch, along = _touch(wish), wish.venue.length_scale
    if touch is not None:
        return touch[part] * along
    if part == HEIGHT:
        return _USUAL_HEIGHT_M * along
    if wish.position.is_serve:
        return wish.position.moment.box.y_high_m - _SERVE_SHORT_M * along
    return wish.venue.court.half_length_m - _USUAL_INSIDE_BASELINE_M * along
