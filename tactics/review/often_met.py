"""Which situations a player meets most, told apart by the few facts that say most about each."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from tactics.model.ball import Ball
from tactics.model.known import Known, OneOf, Within
from tactics.model.situation import Situation
from tactics.model.trait import Trait, Word
from tactics.model.vocabulary import Vocabulary

GAME_SITUATION = "game situation"
TELLING: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "serving": ("serve number", "serve side"),
        "returning": ("serve number", "wing"),
        "baseline rally": ("balance", "body height", "incoming direction"),
        "approaching or at net": ("court depth", "body height"),
        "opponent at net": ("balance", "court width"),
    }
)
"""Game situation -> the facts by which its balls are told apart here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """A situation in a few words, (fact, word) each, and on how many balls it was met."""

    facts: tuple[tuple[str, str], ...]
    count: int

    def situation(self, words: Vocabulary) -> Situation:
        """Return the situation as it can be asked about."""
        return Situation.of(
            (fact, value)
            for fact, name in self.facts
            if (value := words.trait(fact).value_of(name)) is not None
        )


def often_met(balls: Iterable[Ball], words: Vocabulary, most: int) -> tuple[Met, ...]:
    """Return the situations met more than once, the most frequent first, at most so many.

    A telling fact that was not charted is left out of its situation; a ball without a game
    situation, or without any such fact, is not counted.
    """
    counts = Counter(facts for ball in balls if (facts := _told(ball.situation, words)))
    ranked = sorted(counts.items(), key=lambda item: (-item[1], item[0]))
    return tuple(Met(facts=facts, count=count) for facts, count in ranked if count > 1)[:most]


def _told(situation: Situation, words: Vocabulary) -> tuple[tuple[str, str], ...]:
    phase = word_of(situation.get(GAME_SITUATION), words.trait(GAME_SITUATION))
    if not phase:
        return ()
    found = [(fact, word_of(situation.get(fact), words.trait(fact))) for fact in TELLING[phase]]
    told = tuple((fact, name) for fact, name in found if name)
    return ((GAME_SITUATION, phase), *told) if told else ()


def word_of(known: Known, trait: Trait) -> str:
    """Return the one word (or band) that what is known lies in, or nothing."""
    match known:
        case OneOf(words) if len(words) == 1:
            return next(iter(words))
        case Within():
            return next((word.name for word in trait.words if _holds(word, known)), "")
        case _:
            return ""


def _holds(band: Word, known: Within) -> bool:
    limits = band.interval
    return all(limits.low <= each.low and each.high <= limits.high for each in known.intervals)
