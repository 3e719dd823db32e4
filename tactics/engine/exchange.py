"""Choices -> exchanges: what each ball does, what it leaves both players, and how they compare.

The bridge between words and flight: trade words come in, SI goes on, and every estimate is an
order first and a range later.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from tactics.engine.candidate import Candidate, candidate_of
from tactics.engine.position import Position
from tactics.flight.assumptions import MIDDLE, Assumptions, drawn_assumptions
from tactics.flight.estimate import FINE_POWER, Values, point_values, shot_spread
from tactics.flight.exchange import Exchanges, Reply, exchanges, fan_of_replies
from tactics.flight.interception import SAMPLE_S
from tactics.flight.moment import Moment
from tactics.flight.motion import Array
from tactics.flight.point import (
    RANGE_POWER,
    RANGE_SAMPLE_S,
    Comparison,
    PointOrder,
    PointRange,
    compare_shots,
    order_of,
    point_ranges,
    serve_chance,
)
from tactics.flight.shares import shares_of_balls
from tactics.flight.shots import Shots, joined_shots
from tactics.model.choice import Choice
from tactics.model.known import word
from tactics.model.vocabulary import Vocabulary

_SCATTER_RANGE = (1.3, 0.7)
"""The range of the scatter of a level, as a factor: what a share of balls in is good to."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Flown:
    """A candidate with its exchange. Number 0 is the choice as meant, then the ends of its bands.

    in_low, in_high: the share of balls in over the range of the player's scatter.
    """

    candidate: Candidate
    exchanges: Exchanges
    in_low: float
    in_high: float
    replies: tuple[Reply, ...]


def exchange(candidate: Candidate) -> Flown | None:
    """Return the exchange of one candidate, or None where there is no shot."""
    if not candidate.exists or not len(candidate.shots):
        return None
    done = exchanges(candidate.shots, candidate.moment)
    low, high = (_share_in(candidate, factor) for factor in _SCATTER_RANGE)
    return Flown(
        candidate=candidate,
        exchanges=done,
        in_low=low,
        in_high=high,
        replies=fan_of_replies(done, 0, candidate.moment),
    )


def _share_in(candidate: Candidate, scatter: float) -> float:
    first = candidate.first()
    moment = candidate.moment
    spread = shot_spread(first, moment, Assumptions(hitter_scatter=scatter))
    return float(shares_of_balls(first, spread, moment.venue, moment.box).into_court[0])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Contest:
    """Candidates to be put in order; for a first serve also the second one that may follow.

    Candidates without a shot count as nan throughout.
    """

    candidates: tuple[Candidate, ...]
    second_serve: Candidate | None = None

    def order(self) -> PointOrder:
        """Return the order by the middle assumptions."""
        return order_of(self._chances(MIDDLE, FINE_POWER, SAMPLE_S))

    def draws(self) -> Iterator[Array]:
        """Yield the chances of all candidates under each set of assumptions, one at a time."""
        for assumed in drawn_assumptions():
            yield self._chances(assumed, RANGE_POWER, RANGE_SAMPLE_S)

    def _chances(self, assumed: Assumptions, power: int, sample_s: float) -> Array:
        def values(shots_of: Sequence[Candidate]) -> Values:
            firsts = _firsts(shots_of)
            moment = shots_of[0].moment
            return point_values(firsts, moment, assumed, power=power, sample_s=sample_s)

        chances = np.full(len(self.candidates), np.nan)
        for places in self._groups():
            found = values([self.candidates[place] for place in places])
            chance = found.chance
            if self.second_serve is not None:
                chance = serve_chance(chance, found.share_in, values([self.second_serve]).chance)
            chances[places] = chance
        return chances

    def _groups(self) -> list[list[int]]:
        """Return the numbers of the candidates that share a moment (they differ in where to go)."""
        groups: dict[Moment, list[int]] = {}
        for place, candidate in enumerate(self.candidates):
            if candidate.exists:
                groups.setdefault(candidate.moment, []).append(place)
        return list(groups.values())


def _firsts(candidates: Sequence[Candidate]) -> Shots:
    return joined_shots([each.first() for each in candidates])


def contest(candidates: Sequence[Candidate], position: Position, words: Vocabulary) -> Contest:
    """Return the contest between candidates of one position."""
    second = None
    if position.is_serve and _serves_first(position):
        second = usual_second_serve(position, words)
    return Contest(candidates=tuple(candidates), second_serve=second)


def _serves_first(position: Position) -> bool:
    return position.situation.get("serve number") != word("second")


def usual_second_serve(position: Position, words: Vocabulary) -> Candidate | None:
    """Return the serve that follows a fault: a kick at the body."""
    situation = position.situation.with_facts({"serve number": word("second")})
    served = candidate_of(
        Choice.of({"direction": word("at body"), "spin": word("kick")}),
        replace(position, situation=situation),
        words,
    )
    return served if served.exists else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimates:
    """Ranges and the draws they come from; `tried` sets of assumptions of `of_all`."""

    ranges: tuple[PointRange | None, ...]
    draws: tuple[Array, ...]
    of_all: int

    @property
    def tried(self) -> int:
        """Return how many sets of assumptions were tried."""
        return len(self.draws)

    def compare(self, first: int, second: int) -> Comparison | None:
        """Return how the order of two candidates holds over the draws."""
        return compare_shots(self.draws, first, second)


def estimated(
    asked: Contest, said: Callable[[int], None] = lambda _: None, least: int = 10
) -> Estimates | None:
    """Return the ranges of a contest; `said` hears how many sets of assumptions are done.

    Whoever is stopped by Ctrl-C keeps what is there, if it is at least `least` sets.
    """
    draws: list[Array] = []
    try:
        for number, drawn in enumerate(asked.draws(), start=1):
            draws.append(drawn)
            said(number)
    except KeyboardInterrupt:
        if len(draws) < least:
            raise
    moment = asked.candidates[0].moment
    return Estimates(
        ranges=point_ranges(draws, moment), draws=tuple(draws), of_all=len(drawn_assumptions())
    )
