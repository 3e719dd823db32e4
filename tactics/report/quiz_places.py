"""The facts and the picture of a question told in words."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from tactics.model.facts import SERVING
from tactics.model.known import Allowed, OneOf, Within, number, word
from tactics.model.scenario import Ask, Scenario
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.report.court_picture import (
    BASELINE_M,
    SERVICE_LINE_M,
    SINGLES_HALF_M,
    Picture,
    Spot,
    middle_of,
    picture_of,
)
from tactics.report.quiz_ground import FULL, Ground, ground_of
from tactics.report.quiz_side import contact_of, height_words

_WITH_TARGET = frozenset({Ask.SHOT, Ask.AIM, Ask.HEIGHT, Ask.SERVE})
_ON_M, _MIDDLE_M, _IN_M = 0.25, 0.4, 0.1
_ON_LINE = "on the baseline"
_USUAL_INSIDE_M = 1.2
_FROM_CENTRE_M = 1.4
"""A serve is told from the centre line up to here, and from the sideline beyond."""
_LANDS_M: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {"lob": (9.1, 10.9, 20.0), "drop": (0.0, 2.0, 3.9), "dip at the feet": (0.0, 4.5, 6.4)}
)
"""Where a ball of this intent may land, metres from the net: at least, usually, at most."""


def clauses(facts: str) -> tuple[str, ...]:
    """Return the clauses of a sentence of facts, each with a capital letter."""
    parts = (part.strip(" .") for part in facts.replace(". ", "; ").split("; "))
    return tuple(capital(part) for part in parts if part)


def capital(text: str) -> str:
    """Return a text that begins with a capital letter."""
    return f"{text[:1].upper()}{text[1:]}"


def picture_words(
    scenario: Scenario, picture: Picture, words: Vocabulary, *, with_height: bool = True
) -> tuple[str, ...]:
    """Return what the picture shows, a sentence for each thing in it.

    with_height: whether the height of the ball is among them, where no side view says it.
    """
    contact_m = contact_of(scenario, words) if with_height else None
    return tuple(_told(scenario, picture, contact_m))


def shown_picture(scenario: Scenario, *, is_answered: bool, words: Vocabulary) -> Picture:
    """Return the picture of a question; the advised target is in it once it is answered.

    What follows after the ball, or whether it is played on, has no target.
    """
    wanted = aim_to_draw(scenario, words) if is_answered and scenario.ask in _WITH_TARGET else {}
    picture = picture_of(scenario.situation, wanted, words)
    ground = ground_of(scenario.situation)
    if is_serve(scenario):  # no ball comes in
        target = picture.target and _served(picture.target, wanted, ground, words)
        return replace(picture, source=None, target=target)
    if picture.target is None:
        return picture
    return replace(picture, target=_inside(picture.target, ground.half_m))


def _served(spot: Spot, wanted: Mapping[str, Allowed], ground: Ground, words: Vocabulary) -> Spot:
    """Return the target of a serve as far inside the line it is near as was asked for."""
    road, known = wanted.get("direction"), wanted.get("inside line")
    inside_m = middle_of(known, words.trait("inside line")) if isinstance(known, Within) else None
    if inside_m is None or not isinstance(road, OneOf) or len(road.words) != 1:
        return spot
    drawn_m = min(max(inside_m / ground.width, _IN_M), SINGLES_HALF_M / 2)
    from_centre_m = {"T": drawn_m, "wide": SINGLES_HALF_M - drawn_m}.get(next(iter(road.words)))
    if from_centre_m is None:
        return spot
    return replace(spot, x_m=from_centre_m if spot.x_m > 0 else -from_centre_m)


def aim_to_draw(scenario: Scenario, words: Vocabulary) -> Mapping[str, Allowed]:
    """Return the advised target as the court is drawn.

    What was advised beside another intent says nothing about how deep this one lands.
    """
    wanted: dict[str, Allowed] = dict(scenario.aim)
    said = {part for part, _ in (*scenario.context.parts, *scenario.options[scenario.sound].aim)}
    intent = wanted.get("intent")
    name = next(iter(intent.words)) if isinstance(intent, OneOf) and len(intent.words) == 1 else ""
    if name in _LANDS_M and "depth" not in said:
        least_m, usual_m, most_m = _LANDS_M[name]
        depth_m = middle_of(wanted.get("depth", number(usual_m)), words.trait("depth"))
        if depth_m is None or not least_m <= depth_m <= most_m:
            wanted["depth"] = number(usual_m)
    return wanted if is_serve(scenario) else drawn_on(wanted, scenario.situation, words)


def drawn_on(
    wanted: Mapping[str, Allowed], situation: Situation, words: Vocabulary
) -> dict[str, Allowed]:
    """Return an aim whose margin counts from the sideline that is drawn for singles."""
    ground = ground_of(situation)
    known = wanted.get("inside line")
    inside_m = middle_of(known, words.trait("inside line")) if isinstance(known, Within) else None
    if ground.half_m == SINGLES_HALF_M and (inside_m is None or ground.width == 1.0):
        return dict(wanted)
    inside_m = _USUAL_INSIDE_M * ground.width if inside_m is None else inside_m
    return {**wanted, "inside line": number(ground.drawn_inside_m(inside_m))}


def _inside(spot: Spot, half_m: float) -> Spot:
    """Return the nearest place that is well in: nobody aims at a line."""
    far_m, wide_m = BASELINE_M - _IN_M, half_m - _IN_M
    return Spot(x_m=min(max(spot.x_m, -wide_m), wide_m), y_m=min(spot.y_m, far_m))


def is_serve(scenario: Scenario) -> bool:
    """Say whether the player is the one who serves."""
    return scenario.situation.get("game situation") == word(SERVING)


def target_words(scenario: Scenario, picture: Picture) -> str:
    """Return where the target of a picture lies, or nothing where there is none."""
    if picture.target is None:
        return ""
    ground = ground_of(scenario.situation)
    said = _box_words if is_serve(scenario) else spot_words
    return f"The target is {said(picture.target, ground)}."


def _told(scenario: Scenario, picture: Picture, contact_m: float | None) -> Iterator[str]:
    ground = ground_of(scenario.situation)
    if picture.player is not None:
        theirs = picture.forehand_is_right
        on_line = _is_on_line(scenario, "You are ")
        yield f"You are {_stands(picture.player, 'the', theirs, ground, on_line=on_line)}."
    if picture.opponent is not None:
        theirs, spot = picture.their_forehand_is_right, _turned(picture.opponent)
        on_line = _is_on_line(scenario, "The opponent is ")
        yield f"The opponent is {_stands(spot, 'their', theirs, ground, on_line=on_line)}."
    if picture.bounce is not None:
        from_net = _metres(picture.bounce.y_m, ground)
        yield f"The ball bounces {from_net} from the net on your side."
    if contact_m is not None:
        yield f"You meet it {height_words(contact_m, ground.net_m)}."
    yield from (f"Taken as given: {note}." for note in picture.notes)


def _is_on_line(scenario: Scenario, who: str) -> bool:
    """Say whether the facts place somebody on the baseline: then the picture says no more."""
    return any(
        each.startswith(who) and _ON_LINE in each.removeprefix(who).split(", ")
        for each in clauses(scenario.facts)
    )


def spot_words(spot: Spot, ground: Ground = FULL) -> str:
    """Return a place in the opponent's half as you look at it, from the lines near it."""
    inside_m = ground.inside_m(spot.x_m)
    if abs(spot.x_m) < _MIDDLE_M:
        side = "in the middle"
    else:
        way = "inside" if inside_m >= 0 else "outside"
        side = f"{abs(inside_m):.1f} m {way} the {_hand(spot)} sideline"
    if spot.y_m < SERVICE_LINE_M:
        return f"{side}, {_metres(spot.y_m, ground)} past the net"
    return f"{side}, {_metres(BASELINE_M - spot.y_m, ground)} inside the baseline"


def _box_words(spot: Spot, ground: Ground) -> str:
    """Return the place that a serve is aimed at, from the nearest line of its box."""
    side = f"{ground.aside_m(abs(spot.x_m)):.1f} m from the centre line"
    if abs(spot.x_m) > _FROM_CENTRE_M:
        inside_m = ground.aside_m(SINGLES_HALF_M - abs(spot.x_m))
        side = f"{inside_m:.1f} m inside the sideline"
    return f"in the {_hand(spot)} box, {side}, {_metres(spot.y_m, ground)} past the net"


def _hand(spot: Spot) -> str:
    return "right" if spot.x_m > 0 else "left"


def _turned(spot: Spot) -> Spot:
    """Return a place as the other player sees it."""
    return Spot(x_m=-spot.x_m, y_m=-spot.y_m)


def _stands(
    spot: Spot, whose: str, forehand_is_right: bool, ground: Ground, *, on_line: bool
) -> str:
    depth = f"on {whose} baseline" if on_line else _depth(-spot.y_m, whose, ground)
    return f"{depth}, {_width(spot.x_m, whose, forehand_is_right, ground)}"


def _depth(distance_m: float, whose: str, ground: Ground) -> str:
    behind_m = distance_m - BASELINE_M
    if abs(behind_m) < _ON_M:
        return f"on {whose} baseline"
    if behind_m > 0:
        return f"{_metres(behind_m, ground)} behind {whose} baseline"
    if distance_m > SERVICE_LINE_M:
        return f"{_metres(behind_m, ground)} inside {whose} baseline"
    return f"{_metres(distance_m, ground)} from the net"


def _width(x_m: float, whose: str, forehand_is_right: bool, ground: Ground) -> str:
    if abs(x_m) < _MIDDLE_M:
        return "in the middle"
    side = "forehand" if (x_m > 0) is forehand_is_right else "backhand"
    owner = "your" if whose == "the" else "their"
    hand = "right" if x_m > 0 else "left"
    wide = ", outside the singles line" if abs(x_m) > SINGLES_HALF_M else ""
    return f"{ground.aside_m(abs(x_m)):.1f} m to {owner} {side} side ({owner} {hand}){wide}"


def _metres(y_m: float, ground: Ground) -> str:
    return f"{ground.along_m(abs(y_m)):.1f} m"
