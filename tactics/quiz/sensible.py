"""Which answers make sense on a court: words that suit a ball, and parts that go together.

A wrong option has to be one that somebody might really play, so what contradicts itself
("buy time, as hard as you can") is never offered.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tactics.model.facts import AT_NET, FACING_NET, RALLY, RETURNING, SERVING
from tactics.model.known import Allowed, Interval, OneOf, at_least, at_most, less_than
from tactics.model.rule import Rule
from tactics.model.vocabulary import Vocabulary
from tactics.quiz.plain import Plain, Value

_INTENTS: Mapping[str, tuple[str, ...]] = {
    SERVING: ("keep in play", "build", "force", "finish"),
    RETURNING: ("keep in play", "neutralise", "build", "force", "finish"),
    RALLY: ("keep in play", "buy time", "neutralise", "build", "change direction", "force",
            "finish"),
    AT_NET: ("keep in play", "neutralise", "build", "force", "finish"),
    FACING_NET: ("pass", "dip at the feet", "lob", "keep in play", "finish"),
}  # fmt: skip
_SERVE_ROADS = ("wide", "at body", "T")
_ROADS = ("crosscourt", "straight", "middle")
_SPINS = ("heavy top", "top", "flat", "slice")
_SERVE_SPINS = ("top", "flat", "slice", "kick")
_MOST_NAMED = 3
"""A rule that allows more words than this rather says what it does not want."""
_INSIDE_M, _MIDDLE_M = 11.4, 1.37

_GO_WITH: Mapping[tuple[str, str], Mapping[str, Interval]] = {
    ("intent", "lob"): {"height over net": at_least(2.5), "pace": at_most(70.0)},
    ("intent", "drop"): {"pace": at_most(55.0), "depth": less_than(6.4)},
    ("intent", "buy time"): {"height over net": at_least(0.3), "pace": at_most(80.0)},
    ("intent", "keep in play"): {"pace": at_most(80.0)},
    ("intent", "neutralise"): {"pace": at_most(90.0)},
    ("intent", "force"): {"pace": at_least(65.0), "height over net": at_most(2.0)},
    ("intent", "finish"): {"pace": at_least(65.0), "height over net": at_most(1.6)},
    ("intent", "change direction"): {"height over net": at_most(2.0)},
    ("intent", "dip at the feet"): {"height over net": at_most(1.0), "depth": less_than(9.1)},
    ("intent", "pass"): {"height over net": at_most(1.6)},
    ("direction", "middle"): {"inside line": at_least(3.0)},
    ("direction", "at body"): {"inside line": at_least(3.0)},
    ("direction", "wide"): {"pace": at_least(55.0)},
    ("direction", "T"): {"pace": at_least(55.0)},
    ("stroke", "drop shot"): {"pace": at_most(55.0), "depth": less_than(6.4)},
}
"""A word of a part -> what it asks of the other parts, where they are said as well."""

_NEVER_WITH: Mapping[tuple[str, str], Mapping[str, tuple[str, ...]]] = {
    ("intent", "keep in play"): {"direction": ("sharp angle", "inside-in")},
    ("intent", "buy time"): {"direction": ("sharp angle", "inside-in", "at body")},
    ("intent", "neutralise"): {"direction": ("sharp angle",)},
    ("intent", "change direction"): {"direction": ("middle", "at body")},
    ("intent", "lob"): {"direction": ("sharp angle", "inside-in", "at body", "behind")},
    ("stroke", "drop shot"): {"intent": tuple({i for each in _INTENTS.values() for i in each})},
    ("stroke", "smash"): {"intent": ("keep in play", "buy time", "drop", "lob")},
    ("intent", "drop"): {"spin": ("top", "heavy top", "flat")},
}


_NOT_OVERHEAD = ("drop", "dip at the feet", "buy time")

_MODEST: Mapping[str, tuple[str, ...]] = {
    "intent": ("keep in play", "neutralise", "build", "force", "pass", "dip at the feet"),
    "direction": ("crosscourt", "straight", "middle", "wide", "T"),
    "spin": ("top", "slice"),
    "afterwards": ("recover",),
    "stance": ("split",),
}


@dataclass(frozen=True, slots=True)
class Sense:
    """What makes sense for one ball. named: part -> words that the rule itself speaks of."""

    ball: Plain
    named: Mapping[str, frozenset[str]]

    def words(self, words: Vocabulary, part: str) -> list[str]:
        """Return the words of a part that a player might think of here, in their order."""
        usual = self._usual(part)
        names = [word.name for word in words.trait(part).words]
        also = self.named.get(part, frozenset())
        return [
            name for name in names
            if (usual is None or name in usual or name in also) and self._is_possible(part, name)
        ]  # fmt: skip

    def is_modest(self, values: Mapping[str, Value], advised: Mapping[str, Value]) -> bool:
        """Say whether an answer that happens to be sound is one that a coach would name.

        Rules forbid what is wrong; much that they leave is hardly what they mean.
        """
        return all(
            value == advised.get(part) or value in self.named.get(part, ()) or value in usual
            for part, usual in _MODEST.items()
            if (value := values.get(part)) is not None
        )

    def allows(self, values: Mapping[str, Value]) -> bool:
        """Say whether the parts of an answer go together, for this ball."""
        return all(
            self._goes(part, value, values)
            for part, value in values.items()
            if isinstance(value, str)
        )

    def _usual(self, part: str) -> tuple[str, ...] | None:
        phase = str(self.ball["game situation"])
        match part:
            case "intent":
                return _INTENTS[phase]
            case "direction":
                return _SERVE_ROADS if phase == SERVING else (*_ROADS, *self._other_roads())
            case "spin":
                return _SERVE_SPINS if phase == SERVING else _SPINS
            case "stroke":
                return self._strokes()
            case _:
                return None

    def _other_roads(self) -> Iterable[str]:
        ball = self.ball
        depth_m = ball.get("court depth")
        if isinstance(depth_m, float) and depth_m < _INSIDE_M:
            yield "sharp angle"
        if ball.get("opponent movement") in ("recovering", "running wide"):
            yield "behind"
        width_m = ball.get("court width")
        if ball.get("wing") == "forehand" and isinstance(width_m, float) and width_m < -_MIDDLE_M:
            yield from ("inside-out", "inside-in")  # fmt: skip

    def _strokes(self) -> tuple[str, ...]:
        bounce, wing = self.ball.get("bounce"), self.ball.get("wing")
        if wing == "overhead":
            return ("smash", "volley")
        if bounce == "volley":
            return ("volley", "swing volley")
        backhand = f"{self.ball.get('backhand grip') or 'two-handed'} backhand"
        return (backhand if wing == "backhand" else "forehand", "slice", "drop shot")

    def _is_possible(self, part: str, name: str) -> bool:
        if part == "intent" and self.ball.get("wing") == "overhead":
            return name not in _NOT_OVERHEAD
        if part == "direction":
            is_serve = self.ball["game situation"] == SERVING
            return name == "at body" or (name in _SERVE_ROADS) is is_serve
        return True

    def _goes(self, part: str, word: str, values: Mapping[str, Value]) -> bool:
        limits = _GO_WITH.get((part, word), {})
        never = _NEVER_WITH.get((part, word), {})
        return (
            all(
                limits[other].low <= (value, 0) < limits[other].high
                for other, value in values.items()
                if other in limits and isinstance(value, float | int)
            )
            and not any(values.get(other) in words for other, words in never.items())
            and not (word == "change direction" and self._is_same_road(values))
        )

    def _is_same_road(self, values: Mapping[str, Value]) -> bool:
        came = self.ball.get("incoming direction")
        return came in ("crosscourt", "straight") and values.get("direction") == came


def sense_of(ball: Plain, rule: Rule) -> Sense:
    """Return what makes sense for a ball in a question about a rule."""
    named: dict[str, frozenset[str]] = {}
    for answer in (rule.advice, rule.aim, rule.usual_mistake, *rule.alternatives):
        for part, allowed in answer:
            named[part] = named.get(part, frozenset()) | _few(allowed)
    return Sense(ball, named)


def _few(allowed: Allowed) -> frozenset[str]:
    if isinstance(allowed, OneOf) and len(allowed.words) <= _MOST_NAMED:
        return allowed.words
    return frozenset()
