"""Habits that must not pay: always the safest, the boldest, the longest, and so on.

Options are chosen so that no habit scores more or less than a guess over a quiz. What a habit
would have earned so far is kept, and of the options that fit, those are taken that bring every
habit back to a guess.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from random import Random
from types import MappingProxyType

CHANCE = 1 / 3
_SAME = 1e-9
_WORD = re.compile(r"[a-z]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What can be seen of an option without knowing the rules.

    bold: 0 for the safest. words: those of its text.
    """

    bold: float
    length: int
    words: frozenset[str]


def look_of(text: str, bold: float) -> Look:
    """Return what can be seen of an option."""
    return Look(bold=bold, length=len(text), words=words_in(text))


def words_in(text: str) -> frozenset[str]:
    """Return the words of a text, lower case."""
    return frozenset(_WORD.findall(text.lower()))


Rank = Callable[[Sequence[Look], frozenset[str]], list[float]]
"""A number for each option; the habit takes the highest. Second: the words of the question."""


def _middle(options: Sequence[Look], _: frozenset[str]) -> list[float]:
    middle = sorted(option.bold for option in options)[len(options) // 2]
    return [-abs(option.bold - middle) for option in options]


def _alike(options: Sequence[Look], _: frozenset[str]) -> list[float]:
    return [
        sum(len(option.words & other.words) for other in options) - len(option.words)
        for option in options
    ]


HABITS: Mapping[str, Rank] = MappingProxyType(
    {
        "safest": lambda options, _: [-option.bold for option in options],
        "boldest": lambda options, _: [option.bold for option in options],
        "middle": _middle,
        "longest": lambda options, _: [option.length for option in options],
        "shortest": lambda options, _: [-option.length for option in options],
        "same words": lambda options, question: [len(o.words & question) for o in options],
        "most alike": _alike,
    }
)
"""Habit -> how it ranks the options. Being first or last is seen to by the places."""


_BY_BOLDNESS = ("safest", "boldest", "middle")
_ONE_OF_THREE = (_BY_BOLDNESS, ("longest", "shortest", ""), ("same words", "", ""),
                 ("most alike", "", ""))  # fmt: skip
"""Habits of which a question serves one, or none: each is served by one question in three."""


def picks(habit: str, options: Sequence[Look], question: frozenset[str]) -> tuple[int, ...]:
    """Return the options a habit takes: one, or several that look the same to it."""
    ranks = HABITS[habit](options, question)
    best = max(ranks)
    return tuple(place for place, rank in enumerate(ranks) if rank >= best - _SAME)


def earned(options: Sequence[Look], question: frozenset[str]) -> dict[str, float]:
    """Return habit -> what it earns above a guess where option 0 is the sound one."""
    found = {}
    for habit in HABITS:
        taken = picks(habit, options, question)
        found[habit] = (1 / len(taken) if 0 in taken else 0.0) - CHANCE
    return found


@dataclass(slots=True)
class Balance:
    """What every habit has earned above a guess so far in one quiz."""

    so_far: dict[str, float] = field(default_factory=lambda: dict.fromkeys(HABITS, 0.0))

    @classmethod
    def tilted(cls, rng: Random) -> "Balance":
        """Return a balance in which each habit is owed a question as often as it should win one.

        So the first question of a quiz is on its side no more and no less than the others are.
        """
        owed = [rng.choice(each) for each in _ONE_OF_THREE]
        return cls(so_far={habit: CHANCE - (habit in owed) for habit in HABITS})

    def cost(self, gains: Mapping[str, float]) -> float:
        """Return how far from a guess the habits would be after these gains."""
        return sum((self.so_far[habit] + gain) ** 2 for habit, gain in gains.items())

    def pays(self, gains: Mapping[str, float], most: float) -> bool:
        """Say whether being bold or safe would have earned more than `most` above a guess."""
        return any(gains[h] > 0 and self.so_far[h] + gains[h] > most for h in _BY_BOLDNESS)

    def take(self, gains: Mapping[str, float]) -> None:
        """Count what the habits earn with the options taken."""
        for habit, gain in gains.items():
            self.so_far[habit] += gain
