"""Invented lesson balls for benchmarks: plausible facts, full and quick form, always the same."""

from random import Random

from tactics.model.choice import Choice
from tactics.model.known import Known, number
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Trait
from tactics.model.vocabulary import Vocabulary

SEED = 20260314
_ALWAYS = frozenset(
    ("own hand", "opponent hand", "stage", "format", "level", "stature", "surface",
     "serve number", "serve side")
)  # fmt: skip
_SOMETIMES = 0.6


def lesson_balls(words: Vocabulary, count: int) -> tuple[list[Situation], list[Choice]]:
    """Return situations and choices of `count` balls; a third has only the quick form's facts."""
    rng = Random(SEED)
    values = _Values(words, rng)
    phases = {word.name: _known(words.trait("game situation"), word.name)
              for word in words.trait("game situation").words}  # fmt: skip
    covered = {
        "format": _known(words.trait("format"), "singles"),
        "stage": _known(words.trait("stage"), "full court"),
    }
    situations, choices = [], []
    for _ in range(count):
        phase = rng.choice(words.trait("game situation").words).name
        is_quick = rng.random() < 1 / 3
        facts = {
            trait.folded: values.pick(trait)
            for trait in words.facts
            if phase not in trait.absent_in and _is_noted(trait, is_quick, rng)
        }
        facts |= {"game situation": phases[phase], **covered}
        situations.append(Situation.of(facts))
        parts = {
            trait.folded: values.pick(trait)
            for trait in words.parts
            if not trait.derived and not trait.effort and (trait.quick or rng.random() < _SOMETIMES)
        }
        choices.append(Choice.of(parts))
    return situations, choices


def _is_noted(trait: Trait, is_quick: bool, rng: Random) -> bool:
    if trait.derived or trait.unset or trait.name in ("incoming pace", "game situation"):
        return False
    return trait.quick or trait.name in _ALWAYS or (not is_quick and rng.random() < _SOMETIMES)


def _known(trait: Trait, name: str) -> Known:
    known = trait.value_of(name)
    assert known is not None
    return known


class _Values:
    """Draws a word, or now and then a plain number, of a trait; equal ones are one object."""

    def __init__(self, words: Vocabulary, rng: Random) -> None:
        self._rng = rng
        self._words = {
            trait.folded: [_known(trait, word.name) for word in trait.words]
            for trait in words.traits
            if trait.words
        }
        self._numbers: dict[float, Known] = {}

    def pick(self, trait: Trait) -> Known:
        if trait.kind is Kind.NUMBER and (not trait.words or self._rng.random() < 1 / 4):
            low, high = trait.low, trait.high
            value = round(low + (high - low) * self._rng.random(), 1)
            return self._numbers.setdefault(value, number(value))
        return self._rng.choice(self._words[trait.folded])
