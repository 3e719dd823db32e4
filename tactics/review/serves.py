"""Where the serves went and what they won: by place, side, number and hands.

A server loses nothing to a good returner when every road that is used wins about as often as the
others. Whether yours do can be tested with enough serves; by how much to move between them cannot
be read off win rates alone, so that part is an estimate and says what it assumes.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import erfc, exp, sqrt

from tactics.model.ball import Ball
from tactics.model.known import OneOf
from tactics.review.comparing import CHANCE, holm
from tactics.review.exact import exact_interval
from tactics.review.rates import SMALLEST_N, Rate, Standing
from tactics.review.tallies import session_of

PLACES = ("wide", "at body", "T")
NOT_NOTED = "not noted"
LEANS = (0.25, 0.5, 1.0)
"""Points of win rate that a road loses for each point more of the serves it gets: low, middle,
high. An assumption (returners lean towards what they see often); nobody has measured it here."""


class ServeSays(StrEnum):
    """What may be said about the win rates of the roads."""

    NOT_ENOUGH = "not enough serves yet"
    EVEN = "no difference beyond chance"
    UNEVEN = "they differ beyond chance"


@dataclass(frozen=True, slots=True, kw_only=True)
class ServePlace:
    """One road. used: of all serves of the group; won: points won, of those whose winner is known.

    even_share: (low, middle, high) share at which win rates would be equal, an estimate; empty
    where there are not enough serves or nothing to move.
    """

    name: str
    used: Rate
    won: Rate
    even_share: tuple[float, ...] = ()

    @property
    def used_interval(self) -> tuple[float, float]:
        """Return the exact 95 % interval of the share of serves."""
        return exact_interval(self.used.count, self.used.n)

    @property
    def won_interval(self) -> tuple[float, float]:
        """Return the exact 95 % interval of the share of points won."""
        return exact_interval(self.won.count, self.won.n)


@dataclass(frozen=True, slots=True, kw_only=True)
class ServeGroup:
    """Serves of one kind: (fact, word) that tell them apart, the roads used, what may be said."""

    split: tuple[tuple[str, str], ...]
    places: tuple[ServePlace, ...]
    n: int
    says: ServeSays
    chance: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Serves:
    """Groups with enough serves to be shown; small: groups with fewer than ten; no_place: serves
    whose road was not charted."""

    groups: tuple[ServeGroup, ...]
    small: int = 0
    no_place: int = 0


def serves(balls: Sequence[Ball]) -> Serves:
    """Return the serves by number, then by number, side and hands."""
    served = [ball for ball in balls if _word(ball, "game situation") == "serving"]
    placed = [ball for ball in served if _road(ball) in PLACES]
    split: dict[tuple[tuple[str, str], ...], list[Ball]] = {}
    for ball in placed:
        number = ("serve number", _word(ball, "serve number") or NOT_NOTED)
        side = ("serve side", _word(ball, "serve side") or NOT_NOTED)
        split.setdefault((number,), []).append(ball)
        split.setdefault((number, side, ("hands", _hands(ball))), []).append(ball)
    enough = {key: some for key, some in split.items() if len(some) >= SMALLEST_N}
    ordered = sorted(enough, key=lambda key: (key[0], len(key), key))
    return Serves(
        groups=_judged([_group(key, enough[key]) for key in ordered]),
        small=len(split) - len(enough),
        no_place=len(served) - len(placed),
    )


def _group(split: tuple[tuple[str, str], ...], balls: Sequence[Ball]) -> ServeGroup:
    found = [[ball for ball in balls if _road(ball) == name] for name in PLACES]
    lessons = _lessons(balls)
    places = tuple(
        ServePlace(
            name=name,
            used=Rate(count=len(some), n=len(balls), lessons=lessons),
            won=_won(some),
        )
        for name, some in zip(PLACES, found, strict=True)
    )
    used = [place for place in places if place.used.count]
    is_enough = len(used) > 1 and all(p.won.standing is Standing.PATTERN for p in used)
    return ServeGroup(
        split=split,
        places=places,
        n=len(balls),
        says=ServeSays.EVEN if is_enough else ServeSays.NOT_ENOUGH,
        chance=_chance([place.won for place in used]) if is_enough else 1.0,
    )


def _judged(groups: Sequence[ServeGroup]) -> tuple[ServeGroup, ...]:
    """Return the groups with what may be said once all of them were looked at."""
    tested = [place for place, group in enumerate(groups) if group.says is ServeSays.EVEN]
    adjusted = dict(zip(tested, holm([groups[t].chance for t in tested]), strict=True))
    return tuple(
        _uneven(group, adjusted[place])
        if adjusted.get(place, 1.0) < CHANCE
        else replace(group, chance=adjusted.get(place, 1.0))
        for place, group in enumerate(groups)
    )


def _uneven(group: ServeGroup, chance: float) -> ServeGroup:
    used = [place for place in group.places if place.used.count]
    mixes = [even_mix([(p.used.share, p.won.share) for p in used], lean) for lean in LEANS]
    shares = {p.name: tuple(mix[i] for mix in mixes) for i, p in enumerate(used)}
    return replace(
        group,
        says=ServeSays.UNEVEN,
        chance=chance,
        places=tuple(replace(p, even_share=shares.get(p.name, ())) for p in group.places),
    )


def even_mix(seen: Sequence[tuple[float, float]], lean: float) -> tuple[float, ...]:
    """Return the shares at which every road would win equally often.

    seen: (share of the serves, share of points won) by road. lean: how much of its win rate a
    road loses for each point more of the serves. Roads that would have to fall below nothing get
    nothing.
    """
    worth = [won + lean * share for share, won in seen]
    kept = sorted(range(len(seen)), key=lambda place: -worth[place])
    while True:
        level = (sum(worth[place] for place in kept) - lean) / len(kept)
        if worth[kept[-1]] >= level:
            break
        kept.pop()
    shares = [(each - level) / lean for each in worth]
    return tuple(shares[p] if p in kept else 0.0 for p in range(len(seen)))


def _chance(rates: Sequence[Rate]) -> float:
    """Return how often chance alone sets two or three win rates so far apart (chi-square)."""
    n = sum(rate.n for rate in rates)
    share = sum(rate.count for rate in rates) / n
    if share in (0.0, 1.0):
        return 1.0
    apart = sum((r.count - r.n * share) ** 2 / (r.n * share * (1 - share)) for r in rates)
    return erfc(sqrt(apart / 2)) if len(rates) == 2 else exp(-apart / 2)


def _won(balls: Iterable[Ball]) -> Rate:
    noted = [ball for ball in balls if ball.outcome.point_won in ("yes", "no")]
    won = sum(ball.outcome.point_won == "yes" for ball in noted)
    return Rate(count=won, n=len(noted), lessons=_lessons(noted))


def _lessons(balls: Iterable[Ball]) -> int:
    return len({session_of(ball) for ball in balls})


def _hands(ball: Ball) -> str:
    own, other = _word(ball, "own hand"), _word(ball, "opponent hand")
    if not own or not other:
        return NOT_NOTED
    return "same" if own == other else "opposite"


def _road(ball: Ball) -> str:
    known = ball.choice.get("direction")
    return next(iter(known.words)) if isinstance(known, OneOf) and len(known.words) == 1 else ""


def _word(ball: Ball, fact: str) -> str:
    known = ball.situation.get(fact)
    return next(iter(known.words)) if isinstance(known, OneOf) and len(known.words) == 1 else ""
