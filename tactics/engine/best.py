"""The best handful of shots for a position, out of a grid of several hundred."""

from dataclasses import dataclass

import numpy as np

from tactics.engine.candidate import Candidate
from tactics.engine.exchange import contest
from tactics.engine.position import Position
from tactics.engine.roads import road_of
from tactics.engine.strokes import best_pace_ms, serve_spin_word, spin_word
from tactics.engine.typical import only_word
from tactics.engine.wish import DEPTH, HEIGHT, INSIDE, PACE, Wish
from tactics.flight.candidates import SHORTLIST, Grid, candidate_grid, fly_grid, shortlist
from tactics.flight.exchange import Exchanges
from tactics.flight.normal import Index
from tactics.model.choice import Choice
from tactics.model.known import Known, Within, number, word
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary

HANDFUL = 5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BestFound:
    """The best shots, the best first, and how many could be played."""

    candidates: tuple[Candidate, ...]
    playable: int


def best_shots(position: Position, words: Vocabulary, count: int = HANDFUL) -> BestFound:
    """Return shots that differ in direction, depth or height, by the estimate of the point."""
    moment = position.moment
    grid = candidate_grid(moment, server_curves_left=position.right > 0)
    if not len(grid.shots):
        return BestFound(candidates=(), playable=0)
    flown = fly_grid(grid, moment)
    ranked = shortlist(grid, flown, moment, count=len(grid.shots))
    few = _unlike(ranked, grid, flown, position, words)
    asked = contest(few, position, words)
    best = [few[place] for place in asked.order().numbers[:count]]
    return BestFound(candidates=tuple(best), playable=len(grid.shots))


def _unlike(
    ranked: Index,
    grid: Grid,
    flown: Exchanges,
    position: Position,
    words: Vocabulary,
) -> list[Candidate]:
    """Return the most promising shots, of those that go by the same words only the first."""
    found: dict[tuple[str, ...], Candidate] = {}
    for place in ranked:
        candidate = _candidate(int(place), grid, flown, position, words)
        found.setdefault(_in_bands(candidate.choice, words), candidate)
        if len(found) == SHORTLIST:
            break
    return list(found.values())


def _candidate(
    place: int, grid: Grid, flown: Exchanges, position: Position, words: Vocabulary
) -> Candidate:
    """Return one shot of the grid as a choice in words and numbers."""
    shots = grid.shots.only(np.array([place]))
    moment, pace = position.moment, float(shots.pace_ms[0])
    x, y = float(grid.target_x_m[place]), float(grid.target_y_m[place])
    wish = Wish(choice=Choice(), position=position, words=words)
    percent = 100.0 * pace / best_pace_ms(moment, wish.stroke)
    topspin, side = float(shots.topspin_rpm[0]), float(shots.sidespin_rpm[0])
    spin = serve_spin_word(topspin, side) if moment.is_serve else spin_word(topspin, moment.hitter)
    parts: dict[str, Known] = {
        "direction": word(road_of(x, y, wish)),
        DEPTH: number(round(y, 1)),
        HEIGHT: number(round(float(flown.height_over_net_m[place]), 1)),
        PACE: number(float(round(percent))),
        "spin": word(spin),
    }
    if only_word(parts["direction"]) not in ("middle", "at body", "T"):
        court = moment.venue.court
        half = court.service_half_width_m if moment.is_serve else court.half_width_m
        parts[INSIDE] = number(round(half - abs(x), 1))
    return Candidate(
        choice=Choice.of(parts),
        moment=moment,
        shots=shots,
        no_shot=None,
        pace_ms=pace,
        pace_pct=percent,
    )


def _in_bands(choice: Choice, words: Vocabulary) -> tuple[str, ...]:
    """Return the words a choice goes by: direction, bands of depth and height, slice or not."""
    road, spin = only_word(choice.get("direction")), only_word(choice.get("spin"))
    bands = [_band(choice.get(name), words.trait(name)) for name in (DEPTH, HEIGHT)]
    return (road, *bands, "slice" if spin == "slice" else "")


def _band(known: Known, trait: Trait) -> str:
    if not isinstance(known, Within):
        return ""
    found = (each.name for each in trait.words if each.interval.meets(known.intervals[0]))
    return next(found, "")
