"""Where the player stood, against the middle of what the other side could play from there.

Returns are held against the middle of the angle between the server's two widest serves, other
balls against the middle of the angle that the opponent has from where they struck. Both middles
come from the flight model; balls without a charted place are not counted.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tactics.engine.coverage import is_covered
from tactics.engine.position import position_of
from tactics.engine.stands import ServeAsked, return_place
from tactics.engine.typical import only_word, typical
from tactics.flight.recovery import recovery_x_m
from tactics.flight.stand import ReturnStand
from tactics.flight.venue import Venue
from tactics.model.ball import Ball
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.review.rates import Rate
from tactics.review.tallies import session_of

STAND_WIDTH, STAND_DEPTH = "stand width", "stand depth"
FROM_WIDTH, FROM_DEPTH = "struck from width", "struck from depth"
CLOSE_M = 0.5
"""As near to the middle as a coach can ask for: less than a step."""
_SERVED = ("serve side", "own hand", "opponent hand")
_PLAYED = ("game situation", "level", "stage", "format")
_THIRD_M = 1.37
_STEP_M = 0.1
"""Depths of returns are taken in such steps, so that few serves have to be flown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceGroup:
    """Balls of one kind: (fact, word) that tell them apart, and how far off the middle.

    off_m: one number a ball, metres from the middle, positive towards the forehand side.
    close: within `CLOSE_M` of it.
    """

    kind: str
    split: tuple[tuple[str, str], ...]
    off_m: tuple[float, ...]
    close: Rate

    @property
    def median_m(self) -> float:
        """Return the median distance, positive towards the forehand side."""
        return float(np.median(self.off_m))

    @property
    def middle_half_m(self) -> tuple[float, float]:
        """Return the distances between which the middle half of the balls lies."""
        low, high = np.quantile(self.off_m, (0.25, 0.75))
        return float(low), float(high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """The groups met; incomplete: balls with a place that lacked a fact needed to judge it."""

    groups: tuple[PlaceGroup, ...]
    incomplete: int = 0


_Split = tuple[tuple[str, str], ...]
_Found = tuple[str, _Split, float]


def places(rules: RuleSet, balls: Sequence[Ball]) -> Places:
    """Return where the player stood on the balls of a chart whose columns tell it."""
    words = rules.vocabulary
    if any(words.find(name) is None for name in (STAND_WIDTH, STAND_DEPTH)):
        return Places(groups=())
    court = _Court(words)
    groups: dict[tuple[str, _Split], list[tuple[Ball, float]]] = {}
    incomplete = 0
    for ball in balls:
        width = court.number(ball.situation, STAND_WIDTH)
        if width is None or not is_covered(rules, ball.situation):
            continue
        found = court.found(ball.situation, width)
        if found is None:
            incomplete += 1
        else:
            kind, split, off = found
            groups.setdefault((kind, split), []).append((ball, off))
    ordered = sorted(groups.items(), key=lambda item: (item[0][0] != "return", item[0]))
    return Places(
        groups=tuple(_group(kind, split, some) for (kind, split), some in ordered),
        incomplete=incomplete,
    )


def _group(kind: str, split: _Split, some: Sequence[tuple[Ball, float]]) -> PlaceGroup:
    off = sorted(each for _, each in some)
    return PlaceGroup(
        kind=kind,
        split=split,
        off_m=tuple(off),
        close=Rate(
            count=sum(abs(each) <= CLOSE_M for each in off),
            n=len(off),
            lessons=len({session_of(ball) for ball, _ in some}),
        ),
    )


class _Court:
    """Middles of a chart; serves alike are flown once. Places count towards the forehand side."""

    def __init__(self, words: Vocabulary) -> None:
        self._words = words
        self._flown: dict[tuple[Situation, int], float | None] = {}
        self._venues: dict[Situation, Venue] = {}

    def number(self, situation: Situation, fact: str) -> float | None:
        """Return a place that was charted, m."""
        trait = self._words.find(fact)
        return None if trait is None else typical(situation.get(fact), trait)

    def found(self, situation: Situation, width: float) -> _Found | None:
        """Return the kind of ball and how far off the middle, or None where a fact is missing."""
        depth = self.number(situation, STAND_DEPTH)
        phase = only_word(situation.get("game situation"))
        if depth is None or phase in ("", "serving"):
            return None
        if phase == "returning":
            return self._return(situation, width, depth)
        return self._recovery(situation, width, depth)

    def _return(self, situation: Situation, width: float, depth: float) -> _Found | None:
        asked = Situation.of({fact: situation.get(fact) for fact in (*_SERVED, *_PLAYED)})
        if not all(only_word(asked.get(fact)) for fact in _SERVED):
            return None
        key = (asked, round(depth / _STEP_M))
        if key not in self._flown:
            self._flown[key] = self._between_serves(*key)
        middle = self._flown[key]
        side, hand = only_word(asked.get("serve side")), only_word(asked.get("opponent hand"))
        split = (("serve side", side), ("server's hand", hand))
        return None if middle is None else ("return", split, width - middle)

    def _between_serves(self, situation: Situation, steps: int) -> float | None:
        position = position_of(situation, self._words)
        behind = steps * _STEP_M - position.venue.court.half_length_m
        place = return_place(position, ServeAsked(behind_baseline_m=behind))
        return position.right * place.by_angle_x_m if isinstance(place, ReturnStand) else None

    def _recovery(self, situation: Situation, width: float, depth: float) -> _Found | None:
        across, away = (self.number(situation, name) for name in (FROM_WIDTH, FROM_DEPTH))
        if across is None or away is None or away <= 0:
            return None
        venue = self._venue(Situation.of({fact: situation.get(fact) for fact in _PLAYED}))
        # the court is the same either way, so the forehand side may be taken as the right
        middle = float(recovery_x_m(across, away, depth, venue))
        return "recovery", (("struck from", _third(across)),), width - middle

    def _venue(self, situation: Situation) -> Venue:
        if situation not in self._venues:
            self._venues[situation] = position_of(situation, self._words).venue
        return self._venues[situation]


def _third(across_m: float) -> str:
    if abs(across_m) <= _THIRD_M:
        return "their middle"
    return "your forehand side" if across_m > 0 else "your backhand side"
