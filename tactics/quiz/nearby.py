"""Situations that differ from another one in a single fact."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tactics.model.known import Known
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Trait
from tactics.quiz.plain import Value, known_of
from tactics.quiz.play import MOVES_WITH, Ball, Play

_FOLLOWING = ("contact height", "incoming pace", "incoming depth", "hands", "wind strength")


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
        now = {fact: known_of(self.ball[fact]) for fact in self.moved}
        return Situation(tuple((name, now.get(name, known)) for name, known in before.facts))


def nearby(play: Play, ball: Ball, facts: Iterable[str]) -> Iterator[Nearby]:
    """Yield every allowed ball with one of these facts changed to a value that rules tell apart."""
    for fact in facts:
        if ball.get(fact) is None:
            continue
        for value in _others(play, play.traits[fact], ball[fact]):
            changed = {**ball, fact: value}
            play.derive(changed)
            moved = (fact, *(name for name in _FOLLOWING if changed.get(name) != ball.get(name)))
            if set(moved) <= {fact, *MOVES_WITH.get(fact, ())} and play.laws.allow_change(
                changed, fact
            ):
                yield Nearby(
                    fact=fact,
                    was=known_of(ball[fact]),
                    now=known_of(value),
                    ball=changed,
                    moved=moved,
                )


def _others(play: Play, trait: Trait, value: Value) -> Iterator[Value]:
    if trait.kind is Kind.NUMBER:
        if isinstance(value, float | int) and trait.folded in play.rulers:
            yield from (number for _, number in play.rulers[trait.folded].beside(float(value)))
        return
    yield from (word.name for word in trait.words if word.name != value)
