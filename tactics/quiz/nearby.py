"""Situations that differ from another one in a single fact, by a step or by more."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from operator import itemgetter

from tactics.model.facts import RETURNING, SERVING
from tactics.model.known import Known
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Trait
from tactics.quiz.bearings import keep_bearings
from tactics.quiz.plain import Value, known_of
from tactics.quiz.play import GAME_SITUATION, MOVES_WITH, Ball, Play

_FOLLOWING = ("contact height", "incoming pace", "incoming depth", "hands", "wind strength")
_SOURCES = frozenset((*MOVES_WITH, "wind", "incoming depth"))
"""Facts from which others follow."""
_PLACING = frozenset(("court width", "opponent width", "serve side", "opponent hand"))
_PLACED = ("court width", "opponent width", "incoming direction", "serve side")
"""Facts that say who stands where, and those that have to agree with them."""
_AT_A_SERVE = frozenset(("court width", "opponent width", "incoming direction"))
"""What follows the side and the hands there, and is no second change."""


_NAME = itemgetter(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Nearby:
    """A ball with one fact changed. moved: the facts that are not as they were."""

    fact: str
    was: Known
    now: Known
    ball: Ball
    moved: tuple[str, ...]

    def situation(self, before: Situation) -> Situation:
        """Return the situation of the changed ball, from that of the ball before."""
        facts = list(before.facts)
        for fact in self.moved:
            place = bisect_left(
                facts, fact, key=_NAME
            )  # facts are kept in the order of their names
            if place < len(facts) and facts[place][0] == fact:
                facts[place] = fact, known_of(self.ball[fact])
        return Situation(tuple(facts))


def nearby(play: Play, ball: Ball, facts: Iterable[str]) -> Iterator[Nearby]:
    """Yield every allowed ball with one of these facts changed to a value that rules tell apart."""
    for fact in facts:
        if _may_change(ball, fact):
            yield from _changed(play, ball, fact, _others(play, play.traits[fact], ball[fact]))


def around(play: Play, ball: Ball, facts: Iterable[str]) -> Iterator[Nearby]:
    """Yield the balls next door, and those with a number in another of its named bands."""
    facts = tuple(facts)
    yield from nearby(play, ball, facts)
    for fact in facts:
        ruler = play.rulers.get(fact)
        if ruler is not None and _may_change(ball, fact):
            yield from _changed(play, ball, fact, ruler.middles)


def _may_change(ball: Ball, fact: str) -> bool:
    """Say whether a ball has a fact, and says it: a ball overhead says no other height."""
    is_hidden = fact == "body height" and ball.get("wing") == "overhead"
    return ball.get(fact) is not None and not is_hidden


def _changed(play: Play, ball: Ball, fact: str, values: Iterable[Value]) -> Iterator[Nearby]:
    follows = {fact, *MOVES_WITH.get(fact, ()), *_placed_by(fact, ball)}
    watched = (*_FOLLOWING, *(_PLACED if fact in _PLACING else ()))
    for value in values:
        now = {**ball, fact: value}
        if fact in _SOURCES:
            play.derive(now)
        if fact in _PLACING:
            keep_bearings(ball, now, fact)
        others = (name for name in watched if name != fact and now.get(name) != ball.get(name))
        moved = (fact, *others)
        if follows.issuperset(moved) and play.laws.allow_change(now, fact):
            yield Nearby(
                fact=fact, was=known_of(ball[fact]), now=known_of(value), ball=now, moved=moved
            )


def _placed_by(fact: str, ball: Ball) -> frozenset[str]:
    """Return the facts that follow a change of side or hand: players serve from set places."""
    is_serve = ball[GAME_SITUATION] in (SERVING, RETURNING)
    return _AT_A_SERVE if is_serve and fact in ("serve side", "opponent hand") else frozenset()


def _others(play: Play, trait: Trait, value: Value) -> Iterator[Value]:
    if trait.kind is Kind.NUMBER:
        if isinstance(value, float | int) and trait.folded in play.rulers:
            yield from (number for _, number in play.rulers[trait.folded].beside(float(value)))
        return
    yield from (word.name for word in trait.words if word.name != value)
