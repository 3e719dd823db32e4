"""The one changed fact that turns a written question: of all nearby balls, the clearest."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from tactics.engine.advisor import Advisor
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, KEPT, Grade
from tactics.quiz.nearby import Nearby, around
from tactics.quiz.play import Ball, Play
from tactics.quiz.telling import told

_NEAR_ENOUGH = 3
_FOLLOWS = frozenset(("incoming direction",))
"""Facts that the picture shows, and that nobody gave."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """A nearby ball with the grades of the three answers there; `sound` is right there."""

    near: Nearby
    situation: Situation
    grades: tuple[Grade, ...]
    sound: int


GradeThere = Callable[[Situation, Ball], Sequence[Grade]]


def turned(
    play: Play,
    before: tuple[Situation, Ball],
    right: int,
    facts: Iterable[str],
    grade: GradeThere,
) -> Turned | None:
    """Return the best change of one of `facts` that makes another answer right; None without one.

    before: the situation and its ball. right: the number of the answer that is sound there.
    """
    best: tuple[int, Turned] | None = None
    for found in _all(play, before, right, facts, grade):
        worth = _worth(found, right)
        if best is None or worth > best[0]:
            best = (worth, found)
        if worth == _NEAR_ENOUGH:
            break
    return None if best is None else best[1]


def _all(
    play: Play,
    before: tuple[Situation, Ball],
    right: int,
    facts: Iterable[str],
    grade: GradeThere,
) -> Iterator[Turned]:
    situation, ball = before
    for near in around(play, ball, facts):
        there = near.situation(situation)
        grades = tuple(grade(there, near.ball))
        kept = [n for n, each in enumerate(grades) if each in KEPT and n != right]
        if kept:
            best = next((n for n in kept if grades[n] is Grade.SOUND), kept[0])
            yield Turned(near=near, situation=there, grades=grades, sound=best)


def _worth(found: Turned, right: int) -> int:
    """Return how clear a change is: another answer sound, the old one wrong, the third as well."""
    is_sound = found.grades[found.sound] is Grade.SOUND
    others = [each for n, each in enumerate(found.grades) if n not in (right, found.sound)]
    return is_sound + (found.grades[right] in BROKEN) + all(each in BROKEN for each in others)


def said(
    change: str, text: str, grades: tuple[Grade, ...], right: int, *, is_new: bool = False
) -> str:
    """Return a change and what it does in one or two sentences. is_new: of a fourth answer."""
    if grades[right] in KEPT and is_new:
        return f"Change one thing: {change}. Then this is better: {text}."
    if grades[right] in KEPT:
        return f"Change one thing: {change}. Then this is fine as well: {text}."
    return f"Change one thing: {change}. Then it is: {text}."


def facts_told(
    advisor: Advisor,
    situation: Situation,
    given: Situation,
    asked: frozenset[str],
    turn: Turned | None,
) -> tuple[str, ...]:
    """Return the facts to tell: what was given, what the rule asks, what turns, the unusual."""
    more = frozenset(name for name, _ in given.facts) | asked
    if turn is not None:
        more |= {turn.near.fact}
    return tuple(
        fact for fact in told(advisor, situation, more) if fact in more or fact not in _FOLLOWS
    )
