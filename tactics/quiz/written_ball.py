"""The whole ball behind a written scenario: what a coach gives, and ordinary facts beside it."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from tactics.engine.coverage import as_covered
from tactics.engine.examples import ordinary_ball
from tactics.model.facts import SERVING
from tactics.model.known import NOT_APPLICABLE, NOT_SEEN, Absent, Known, OneOf, Within
from tactics.model.legality import Impossible
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Trait
from tactics.quiz.bearings import take_bearings
from tactics.quiz.lawful import Line
from tactics.quiz.plain import Value, is_in, known_of, situation_of
from tactics.quiz.plausible import PLAUSIBLE
from tactics.quiz.play import GAME_SITUATION, Ball, Play

_HEIGHTS = ("body height", "contact height")
_REPAIRS = 8
_DECIMALS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeBall:
    """A ball as it is drawn. known: the same as it is read, what was given in its full width.

    broken: what cannot happen about it, if anything.
    """

    ball: Ball
    situation: Situation
    known: Situation
    broken: Impossible | None = None


def whole_ball(play: Play, given: Situation, hand: str) -> WholeBall:
    """Return the ball of a scenario; facts left open are those of an ordinary ball.

    Facts left open give way where an ordinary one could not go with what was given.
    """
    facts = {"own hand": known_of(hand), **given.as_dict()}
    usual = ordinary_ball(play.advisor.rules, as_covered(play.advisor.rules, Situation.of(facts)))
    phase = str(_one(usual.get(GAME_SITUATION), play.traits[GAME_SITUATION], ""))
    ball: Ball = {
        trait.folded: _plain(play, trait, usual.get(trait.folded), phase) for trait in play.facts
    }
    if "stature" not in facts:
        ball["stature"] = play.everyday.personal["stature"]
    _take_height(ball, usual, facts)
    broken = _settled(play, ball, facts.keys())
    plain = situation_of(ball)
    return WholeBall(
        ball=ball,
        situation=plain,
        known=plain.with_facts(_as_read(facts)),
        broken=broken,
    )


def _as_read(given: dict[str, Known]) -> dict[str, Known]:
    """Return what was given; of the two heights, the one not given is open as far as it goes."""
    heights = [name for name in _HEIGHTS if name in given]
    other = {name: NOT_SEEN for name in _HEIGHTS if heights and name not in given}
    return {**other, **given}


def _plain(play: Play, trait: Trait, known: Known, phase: str) -> Value:
    if phase in trait.absent_in:
        return None
    match known:
        case OneOf():
            return _one(known, trait, phase)
        case Within():
            return _middle(play, trait, known)
        case Absent() if known is NOT_APPLICABLE:
            return None
        case _:
            return _one(OneOf(frozenset(word.name for word in trait.words)), trait, phase)


def _one(known: Known, trait: Trait, phase: str) -> Value:
    """Return the everyday word of several, else the first."""
    if not isinstance(known, OneOf):
        return None
    usual = trait.ordinary_value(phase)
    if isinstance(usual, OneOf) and usual.words <= known.words:
        return next(iter(usual.words))
    return next(word.name for word in trait.words if word.name in known.words)


def _middle(play: Play, trait: Trait, known: Within) -> float:
    """Return the middle of a set of numbers, inside what an ordinary quiz ball can have."""
    ruler = play.rulers.get(trait.folded)
    least, most = ruler.range if ruler else (trait.low, trait.high)
    low, high = known.intervals[0].low[0], known.intervals[-1].high[0]
    if low == high:
        return float(low)
    low, high = max(low, min(least, high)), min(high, max(most, low))
    return round((max(low, trait.low) + min(high, trait.high)) / 2, _DECIMALS)


def _take_height(ball: Ball, usual: Situation, given: Collection[str]) -> None:
    """Work the share of stature out where the height was given in metres."""
    metres = usual.get("contact height")
    stature = ball.get("stature")
    is_given = "contact height" in given and "body height" not in given
    if is_given and isinstance(metres, Within) and isinstance(stature, float):
        low, high = metres.intervals[0].low[0], metres.intervals[-1].high[0]
        ball["body height"] = round(min((low + high) / 2, 3.0) / stature, _DECIMALS)


def _settled(play: Play, ball: Ball, locked: Collection[str]) -> Impossible | None:
    """Change facts left open until the ball can happen; return what cannot, where that fails."""
    common = {line.id for line in PLAUSIBLE}
    broken: list[Line] = []
    for _ in range(_REPAIRS):
        if ball[GAME_SITUATION] != SERVING or "opponent width" not in locked:
            take_bearings(ball, locked)
        play.derive(ball)
        broken = [line for line in play.laws.lines if line.holds(ball)]
        if not any(_gives_way(play, line, ball, locked) for line in broken):
            break
    # what is only uncommon may be asked about: the coach has seen it
    return next((line.what for line in broken if line.what.id not in common), None)


def _gives_way(play: Play, line: Line, ball: Ball, locked: Collection[str]) -> bool:
    for fact in sorted(line.facts - set(locked) - {GAME_SITUATION}):
        if fact in play.traits and ball.get(fact) is not None:
            for value in _values(play, play.traits[fact]):
                trial = {**ball, fact: value}
                play.derive(trial)
                if not line.holds(trial) and play.laws.allow_change(trial, fact):
                    ball.update(trial)
                    return True
    return False


def _values(play: Play, trait: Trait) -> Iterator[Value]:
    for word in trait.words:
        if trait.kind is Kind.NUMBER:
            middle = _middle(play, trait, Within((word.interval,)))
            if is_in(middle, Within((word.interval,))):
                yield middle
        else:
            yield word.name
