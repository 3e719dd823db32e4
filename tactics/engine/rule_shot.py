"""The shot that rules want, made ready to fly: its depth and pace lead, its height is an aim."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from tactics.engine.candidate import Candidate, candidate_of, choice_from
from tactics.engine.margins import sideways_scatter_m
from tactics.engine.position import Position
from tactics.engine.scatter_rules import all_metres
from tactics.engine.typical import typical
from tactics.engine.wish import DEPTH, HEIGHT, INSIDE, PACE
from tactics.flight.trajectory import clearance_m, fly
from tactics.model.choice import Choice
from tactics.model.known import Allowed
from tactics.model.vocabulary import Vocabulary

FLOWN = frozenset(
    {"intent", "stroke", "direction", DEPTH, HEIGHT, INSIDE, PACE, "spin", "afterwards"}
)
"""The parts of an answer that the flight knows something about."""
TELLING = frozenset({"direction", DEPTH, HEIGHT, PACE})
_LOWER_M = 0.2
"""A ball that follows this much lower than the rules' aim is not the ball they mean."""


def flown_parts(wanted: Mapping[str, Allowed], position: Position) -> dict[str, Allowed]:
    """Return the parts that can be flown, multiples of scatter in the player's metres."""
    parts = {part: values for part, values in wanted.items() if part in FLOWN}
    return all_metres(parts, sideways_scatter_m(position))


def rule_shot(wanted: Mapping[str, Allowed], position: Position, words: Vocabulary) -> Candidate:
    """Return the shot of wanted parts.

    Where a rule states depth, pace and height, the first two are what the ball is to do, and it
    may go higher than the aim; where it would go lower, height and depth lead, and where those two
    are more than the player has, height and pace.
    """
    whole = candidate_of(choice_from(wanted), position, words)
    aimed = typical(whole.choice.get(HEIGHT), words.trait(HEIGHT))
    if aimed is None or not {DEPTH, PACE} <= set(wanted):
        return whole
    freer = candidate_of(_without(HEIGHT, whole.choice), position, words)
    if freer.exists and _height_m(freer) >= aimed - _LOWER_M:
        followed = f"height over net follows from depth and pace; the aim is {aimed:.1f} m"
        return replace(freer, taken=(*freer.taken, followed))
    if whole.exists:
        return whole
    shorter = candidate_of(_without(DEPTH, whole.choice), position, words)
    followed = "depth follows from height over net and pace: there is no such ball as deep as asked"
    return replace(shorter, taken=(*shorter.taken, followed)) if shorter.exists else whole


def _without(part: str, choice: Choice) -> Choice:
    return Choice.of({name: known for name, known in choice.parts if name != part})


def _height_m(candidate: Candidate) -> float:
    venue = candidate.moment.venue
    flight = fly(candidate.first().launch(), ball=venue.ball, air=venue.air)
    return float(np.nan_to_num(clearance_m(flight.crossing, venue.court)[0], nan=-1.0))
