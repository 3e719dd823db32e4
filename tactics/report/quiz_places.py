"""The facts and the picture of a question told in words."""

from collections.abc import Iterator
from dataclasses import replace

from tactics.model.facts import SERVING
from tactics.model.known import word
from tactics.model.scenario import Ask, Scenario
from tactics.model.vocabulary import Vocabulary
from tactics.report.court_picture import (
    BASELINE_M,
    SERVICE_LINE_M,
    SINGLES_HALF_M,
    Picture,
    Spot,
    picture_of,
)
from tactics.report.quiz_side import contact_of, height_words

_WITH_TARGET = frozenset({Ask.SHOT, Ask.AIM, Ask.HEIGHT, Ask.SERVE})
_ON_M, _MIDDLE_M, _IN_M = 0.25, 0.4, 0.1


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
    return tuple(_told(picture, contact_m))


def shown_picture(scenario: Scenario, *, is_answered: bool, words: Vocabulary) -> Picture:
    """Return the picture of a question; the advised target is in it once it is answered.

    What follows after the ball, or whether it is played on, has no target.
    """
    wanted = dict(scenario.aim) if is_answered and scenario.ask in _WITH_TARGET else {}
    picture = picture_of(scenario.situation, wanted, words)
    if picture.target is not None:
        picture = replace(picture, target=_inside(picture.target))
    # no ball comes in at a serve
    return replace(picture, source=None) if is_serve(scenario) else picture


def _inside(spot: Spot) -> Spot:
    """Return the nearest place that is well in: nobody aims at a line."""
    far_m, wide_m = BASELINE_M - _IN_M, SINGLES_HALF_M - _IN_M
    return Spot(x_m=min(max(spot.x_m, -wide_m), wide_m), y_m=min(spot.y_m, far_m))


def is_serve(scenario: Scenario) -> bool:
    """Say whether the player is the one who serves."""
    return scenario.situation.get("game situation") == word(SERVING)


def target_words(picture: Picture) -> str:
    """Return where the target of a picture lies, or nothing where there is none."""
    return f"The target is {spot_words(picture.target)}." if picture.target else ""


def _told(picture: Picture, contact_m: float | None) -> Iterator[str]:
    if picture.player is not None:
        yield f"You are {_stands(picture.player, 'the', picture.forehand_is_right)}."
    if picture.opponent is not None:
        theirs = picture.their_forehand_is_right
        yield f"The opponent is {_stands(_turned(picture.opponent), 'their', theirs)}."
    if picture.bounce is not None:
        yield f"The ball bounces {_metres(picture.bounce.y_m)} from the net on your side."
    if contact_m is not None:
        yield f"You meet it {height_words(contact_m)}."
    yield from (f"Taken as given: {note}." for note in picture.notes)


def spot_words(spot: Spot) -> str:
    """Return a place in the opponent's half as you look at it, from the lines near it."""
    inside_m = SINGLES_HALF_M - abs(spot.x_m)
    if abs(spot.x_m) < _MIDDLE_M:
        side = "in the middle"
    else:
        way = "inside" if inside_m >= 0 else "outside"
        hand = "right" if spot.x_m > 0 else "left"
        side = f"{abs(inside_m):.1f} m {way} the {hand} sideline"
    if spot.y_m < SERVICE_LINE_M:
        return f"{side}, {_metres(spot.y_m)} past the net"
    return f"{side}, {_metres(BASELINE_M - spot.y_m)} inside the baseline"


def _turned(spot: Spot) -> Spot:
    """Return a place as the other player sees it."""
    return Spot(x_m=-spot.x_m, y_m=-spot.y_m)


def _stands(spot: Spot, whose: str, forehand_is_right: bool) -> str:
    return f"{_depth(-spot.y_m, whose)}, {_width(spot.x_m, whose, forehand_is_right)}"


def _depth(distance_m: float, whose: str) -> str:
    behind_m = distance_m - BASELINE_M
    if abs(behind_m) < _ON_M:
        return f"on {whose} baseline"
    if behind_m > 0:
        return f"{behind_m:.1f} m behind {whose} baseline"
    if distance_m > SERVICE_LINE_M:
        return f"{-behind_m:.1f} m inside {whose} baseline"
    return f"{distance_m:.1f} m from the net"


def _width(x_m: float, whose: str, forehand_is_right: bool) -> str:
    if abs(x_m) < _MIDDLE_M:
        return "in the middle"
    side = "forehand" if (x_m > 0) is forehand_is_right else "backhand"
    owner = "your" if whose == "the" else "their"
    hand = "right" if x_m > 0 else "left"
    wide = ", outside the singles line" if abs(x_m) > SINGLES_HALF_M else ""
    return f"{abs(x_m):.1f} m to {owner} {side} side ({owner} {hand}){wide}"


def _metres(y_m: float) -> str:
    return f"{abs(y_m):.1f} m"
