"""The shot that the rules want in a situation, part by part in plain values."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf, radians, tan
from random import Random

from tactics.engine.advise import Advice
from tactics.engine.derive import finds as found_by
from tactics.flight.levels import LEVELS
from tactics.model.choice import Choice
from tactics.model.facts import AT_NET, FACING_NET, RALLY, RETURNING, SERVING
from tactics.model.known import Absent, Allowed, Interval, OneOf, ScatterWithin, Within
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary
from tactics.quiz.ladders import LADDERS
from tactics.quiz.plain import Plain, Value, is_in, known_of
from tactics.quiz.sensible import Sense
from tactics.report.targets import wanted_shot

_SCATTER_AT_M = 17.0
"""Length of a rally ball over which a sideways scatter in metres is reckoned: an estimate."""
_OVERHEAD = 0.98
_ROOM = {"height over net": 0.2, "inside line": 0.2, "pace": 4.0, "depth": 0.6}
_DECIMALS = {"pace": 0}

_USUAL: Mapping[str, Mapping[str, Value]] = {
    SERVING: {"intent": "force", "direction": "T", "spin": "slice", "pace": 80.0,
              "height over net": 0.5, "inside line": 0.6, "depth": 5.4},
    RETURNING: {"intent": "neutralise", "direction": "crosscourt", "spin": "top", "pace": 70.0,
                "height over net": 1.0, "inside line": 1.4, "depth": 10.0},
    RALLY: {"intent": "build", "direction": "crosscourt", "spin": "top", "pace": 70.0,
            "height over net": 1.0, "inside line": 1.4, "depth": 10.0},
    AT_NET: {"intent": "build", "direction": "straight", "spin": "slice", "pace": 60.0,
             "height over net": 0.5, "inside line": 1.2, "depth": 10.0},
    FACING_NET: {"intent": "pass", "direction": "straight", "spin": "top", "pace": 70.0,
                 "height over net": 0.4, "inside line": 0.8, "depth": 7.7},
}  # fmt: skip
_ALWAYS: Mapping[str, Value] = {"afterwards": "recover", "stance": "split", "response": "played"}


def choice_of(values: Mapping[str, Value]) -> Choice:
    """Return the choice with these parts."""
    return Choice(tuple((part, known_of(values[part])) for part in sorted(values)))


def natural_stroke(ball: Plain) -> str:
    """Return the stroke that a ball asks for by itself."""
    phase, bounce, height = ball["game situation"], ball.get("bounce"), ball.get("body height")
    if phase in (SERVING, RETURNING):
        return "serve" if phase == SERVING else "return"
    if isinstance(height, float) and height >= _OVERHEAD and ball.get("wing") == "overhead":
        return "smash"
    if bounce in ("volley", "half volley"):
        return str(bounce)
    if ball.get("wing") == "backhand":
        return f"{ball.get('backhand grip') or 'two-handed'} backhand"
    return "forehand"


@dataclass(frozen=True)
class Wanted:
    """What is wanted in one situation. aim: part -> advised values, scatter in metres."""

    aim: Mapping[str, Allowed]
    advice: Advice
    ball: Plain
    sense: Sense

    def value(self, part: str, rng: Random) -> Value:
        """Return one value of a part: the aim, else inside the standard, else an everyday one."""
        allowed = self.aim.get(part)
        trait = self.advice.advisor.vocabulary.trait(part)
        usual = self._usual(part)
        if allowed is None:
            return usual
        if isinstance(allowed, OneOf):
            if usual in allowed.words:
                return usual
            every = [each.name for each in trait.words if each.name in allowed.words]
            usable = self.sense.words(self.advice.advisor.vocabulary, part)
            return rng.choice([name for name in every if name in usable] or every)
        return _number(allowed, trait, usual)

    def is_left(self, part: str, asked: Allowed) -> bool:
        """Say whether the rules leave something of what is asked of a part."""
        standard = self.advice.standards.get(part)
        grid = self.advice.advisor.program.grid
        return standard is None or bool(standard.allowed & grid.mask(part, asked))

    def _usual(self, part: str) -> Value:
        if part == "stroke":
            return natural_stroke(self.ball)
        if part in _ALWAYS:
            return _ALWAYS[part]
        if part == "intent" and natural_stroke(self.ball) == "smash":
            return "finish"
        usual = _USUAL[str(self.ball["game situation"])].get(part)
        if part == "spin" and self.ball.get("serve number") == "second":
            return "kick"
        return usual


def wanted_in(advice: Advice, ball: Plain, sense: Sense | None = None) -> Wanted:
    """Return what is wanted in a situation; sense: of words, where a rule is in question."""
    words = advice.advisor.vocabulary
    one_scatter_m = scatter_m(str(ball.get("level") or "club"))
    aim = {
        part: in_metres(allowed, one_scatter_m, words.trait(part))
        for part, allowed in wanted_shot(advice).items()
    }
    finds = aim.pop("finds", None)
    if isinstance(finds, OneOf):
        roads = frozenset(_roads_that_find(finds, advice, words))
        asked = aim.get("direction")
        both = roads & asked.words if isinstance(asked, OneOf) else roads
        if both:
            aim["direction"] = OneOf(both)
    return Wanted(aim=aim, advice=advice, ball=ball, sense=sense or Sense(ball, {}))


def _roads_that_find(finds: OneOf, advice: Advice, words: Vocabulary) -> list[str]:
    """Return the directions after which the ball finds one of these wings."""
    phase = advice.situation.get("game situation")
    is_serve = isinstance(phase, OneOf) and SERVING in phase.words
    names = [word.name for word in words.trait("direction").words]
    roads = [name for name in names if (name in ("wide", "T", "at body")) is is_serve]
    return [
        name for name in roads
        if _one(found_by(choice_of({"direction": name}), advice.situation)) in finds.words
    ]  # fmt: skip


def _one(known: object) -> str:
    return next(iter(known.words)) if isinstance(known, OneOf) and len(known.words) == 1 else ""


def scatter_m(level: str) -> float:
    """Return one sideways scatter of a player's rally ball in metres: an estimate by level."""
    found = LEVELS.get(level, LEVELS["club"])
    return _SCATTER_AT_M * tan(radians(found.sd_azimuth_deg))


def in_metres(allowed: Allowed, one_scatter_m: float, trait: Trait) -> Allowed:
    """Return a margin in scatter as metres; anything else as it is."""
    if not isinstance(allowed, ScatterWithin):
        return allowed
    return Within(
        tuple(
            Interval(
                (min(max(each.low[0] * one_scatter_m, trait.low), trait.high), each.low[1]),
                (min(max(each.high[0] * one_scatter_m, trait.low), trait.high), each.high[1]),
            )
            for each in allowed.intervals
        )
    )


def aim_with(
    aim: Mapping[str, Allowed], own: Mapping[str, Value]
) -> tuple[tuple[str, Allowed], ...]:
    """Return what is aimed at with an answer: its own parts, over those of the advised aim.

    Where the answer is another shot than the advised one, only its own parts count: the height of
    a lob says nothing about a pass.
    """
    is_other = any(
        isinstance(asked := aim.get(part), OneOf) and own.get(part) not in {None, *asked.words}
        for part in ("stroke", "intent")
    )
    found: dict[str, Allowed] = {} if is_other else dict(aim)
    found.update((p, k) for p, k in choice_of(own).parts if not isinstance(k, Absent))
    return tuple(sorted(found.items(), key=lambda pair: pair[0]))


def _number(allowed: Allowed, trait: Trait, usual: Value) -> float:
    """Return a number of a set: the everyday one where it lies well inside, else one that does."""
    assert isinstance(allowed, Within)
    room, decimals = _ROOM.get(trait.folded, 0.0), _DECIMALS.get(trait.folded, 1)
    low, high = allowed.intervals[0].low[0], allowed.intervals[0].high[0]
    low, high = max(low, trait.low), min(high, trait.high)
    if low == high:
        return round(low, decimals)
    inside = [
        each for each in (usual, *LADDERS.get(trait.folded, ()))
        if isinstance(each, float) and is_in(each, allowed)
        and (each - low >= room or low == trait.low) and (high - each >= room or high == trait.high)
    ]  # fmt: skip
    if inside:
        target = usual if isinstance(usual, float) else inside[0]
        return min(inside, key=lambda each: abs(each - target))
    middle = (max(low, -1000.0) + min(high, 1000.0)) / 2
    return round(middle if middle < inf else low, decimals)
