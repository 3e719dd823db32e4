"""Answers that may be sound or wrong: every one is graded by the rules before it is used."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from random import Random

from tactics.engine.advisor import Advisor
from tactics.engine.cells import cells_of
from tactics.model.known import Allowed, OneOf, Within
from tactics.model.rule import Rule
from tactics.model.scenario import Origin
from tactics.model.trait import Kind
from tactics.quiz.ladders import LADDERS, steps_from
from tactics.quiz.plain import Value, is_in
from tactics.quiz.sensible import Sense, sense_of

Values = Mapping[str, Value]
_FILLS = (0, -2, 2, -3)
_MOST_WORDS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """An answer, and where it comes from."""

    values: Values
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidates:
    """Finds answers like the advised one with something changed, no two alike.

    rules: the one in question, and one that speaks next door. own: choices of the player that
    were charted as broken. context: parts that are given with the question.
    """

    advisor: Advisor
    rules: Sequence[Rule]
    advised: Values
    own: Sequence[Values]
    sense: Sense
    rng: Random
    context: Values = field(default_factory=dict)

    def all(self) -> list[Candidate]:
        """Return the advised answer first, then the others that make sense.

        The parts that are not what is changed come in a safer and a bolder form, so that being
        bold or safe tells nothing.
        """
        first = Candidate(values=dict(self.advised), origin=Origin.ADVISED)
        found = {tuple(self.advised.items()): first}
        for origin, changes in self._changes():
            for steps in _FILLS if len(self.advised) > len(changes) else (0,):
                rest = {part: steps_from(part, each, steps) for part, each in self.advised.items()}
                values = _with_its_intent({**rest, **changes})
                key = tuple(values.items())
                if key in found or None in values.values():
                    continue
                # what somebody did, or a coach has seen, makes sense enough
                is_real = origin in (Origin.CHARTED, Origin.USUAL_MISTAKE) and not steps
                if is_real or self.sense.allows({**self.context, **values}):
                    found[key] = Candidate(values=values, origin=origin)
        return list(found.values())

    def _changes(self) -> Iterator[tuple[Origin, Values]]:
        for charted in self.own:
            said = {part: value for part, value in charted.items() if part in self.advised}
            if said:
                yield Origin.CHARTED, said
        mistake = self._mistake()
        if mistake:
            yield Origin.USUAL_MISTAKE, mistake
        yield Origin.VARIATION, {}
        for part in self.advised:
            for value in self._others(part):
                yield Origin.VARIATION, {part: value}

    def _mistake(self) -> Values:
        return {
            part: self._one_of(allowed, part)
            for part, allowed in self.rules[0].usual_mistake
            if part in self.advised
        }

    def _others(self, part: str) -> Iterator[Value]:
        """Yield other values of a part: some words, or numbers that a rule does not allow."""
        if self.advisor.vocabulary.trait(part).kind is not Kind.NUMBER:
            names = self._words(part)
            yield from self.rng.sample(names, min(len(names), _MOST_WORDS))
            return
        for rule in self.rules:
            yield self._outside(rule, part)
        rungs = LADDERS.get(part, ())
        # a question about one number has nothing else to tell its options apart
        yield from rungs if len(self.advised) == 1 else (self._choice(rungs),)

    def _outside(self, rule: Rule, part: str) -> Value:
        asked = dict(rule.advice).get(part)
        if asked is None:
            return None
        axis = self.advisor.program.grid.axes[part]
        mask = axis.everything & ~axis.mask_of(asked)
        return self._one_of(axis.allowed_of(mask), part) if cells_of(mask) else None

    def _one_of(self, allowed: Allowed, part: str) -> Value:
        match allowed:
            case OneOf(words):
                return self._choice([w for w in self._words(part) if w in words])
            case Within((interval, *_)):
                low, high = interval.low[0], interval.high[0]
                if low == high:
                    return low
                return self._choice([n for n in LADDERS.get(part, ()) if is_in(n, allowed)])
            case _:
                return None

    def _words(self, part: str) -> list[str]:
        return self.sense.words(self.advisor.vocabulary, part)

    def _choice(self, some: Sequence[str] | Sequence[float]) -> Value:
        return some[self.rng.randrange(len(some))] if some else None


def _with_its_intent(values: Values) -> Values:
    """Return an answer with the intent that its stroke says by itself."""
    if values.get("stroke") == "drop shot" and "intent" not in values:
        return {**values, "intent": "drop"}
    return values


def candidates(
    advisor: Advisor, rule: Rule, sound: Values, own: Sequence[Values], phase: str, rng: Random
) -> list[Candidate]:
    """Return answers like `sound` with something changed, in a game situation."""
    sense = sense_of({"game situation": phase}, rule)
    found = Candidates(
        advisor=advisor, rules=(rule,), advised=sound, own=own, sense=sense, rng=rng
    ).all()
    return found[1:]
