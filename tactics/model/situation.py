"""The facts when the ball is met."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tactics.model.known import NOT_SEEN, Known, OneOf, word

_OTHER_HAND = {"right": "left", "left": "right"}
_OTHER_SIDE = {"deuce": "ad", "ad": "deuce"}
_MIRRORED = {"own hand": _OTHER_HAND, "opponent hand": _OTHER_HAND, "serve side": _OTHER_SIDE}


@dataclass(frozen=True, slots=True)
class Situation:
    """Fact (folded name) -> what is known of it; a fact that is not listed was not seen."""

    facts: tuple[tuple[str, Known], ...] = ()

    @classmethod
    def of(cls, facts: Mapping[str, Known] | Iterable[tuple[str, Known]]) -> "Situation":
        """Return a situation with its facts in one order, so that equal ones are equal."""
        return cls(tuple(sorted(dict(facts).items(), key=lambda item: item[0])))

    def as_dict(self) -> dict[str, Known]:
        """Return a fresh dictionary of the listed facts."""
        return dict(self.facts)

    def get(self, fact: str) -> Known:
        """Return what is known of a fact."""
        return next((known for name, known in self.facts if name == fact), NOT_SEEN)

    def with_facts(self, more: Mapping[str, Known]) -> "Situation":
        """Return a copy in which these facts are known instead."""
        return Situation.of({**self.as_dict(), **more})

    def mirrored(self) -> "Situation":
        """Return the same situation for two players who use their other hands.

        Sides are stored as forehand and backhand side, so only hands and the serve side turn.
        """
        return Situation.of((name, _mirror(name, known)) for name, known in self.facts)


def _mirror(fact: str, known: Known) -> Known:
    table = _MIRRORED.get(fact)
    if table is None or not isinstance(known, OneOf):
        return known
    return OneOf(frozenset(table[name] for name in known.words))


def in_words(**facts: str) -> Situation:
    """Return a situation from plain words: `in_words(balance="set")`. Bands are not looked up."""
    return Situation.of((name.replace("_", " "), word(value)) for name, value in facts.items())
