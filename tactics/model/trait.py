"""What a row of the table of facts and parts looks like."""

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from math import inf

from tactics.model.known import NOT_SEEN, Interval, Known, OneOf, Within, number
from tactics.model.names import fold
from tactics.model.units import Unit


class Role(StrEnum):
    """Where a row of the table belongs on a charted ball."""

    LABEL = "label"
    FACT = "fact"
    PART = "part"
    OUTCOME = "outcome"


class Kind(StrEnum):
    """What a value looks like."""

    WORDS = "words"
    NUMBER = "number"
    TEXT = "text"
    DATE = "date"


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """One word of a fact. A band also has limits: low <= x < high in the fact's unit."""

    name: str
    mark: str = ""
    also: tuple[str, ...] = ()
    low: float = -inf
    high: float = inf

    @property
    def interval(self) -> Interval:
        """Return the numbers of a band; the lower limit belongs to it, the upper does not."""
        return Interval((self.low, 0), (self.high, 0 if self.high < inf else 1))


@dataclass(frozen=True, kw_only=True)
class Trait:
    """A row of the table: a fact of a situation, a part of a choice, a word on the outcome.

    low/high: the range of numbers that can occur at all, in `unit`.
    absent_in: game situations in which the fact does not exist.
    ordinary: the word of an everyday ball; `ordinary_in` for one game situation.
    unset: what an empty place means for a mark that is either set or not ("" for all others).
    """

    name: str
    role: Role
    kind: Kind
    words: tuple[Word, ...] = ()
    unit: Unit | None = None
    low: float = -inf
    high: float = inf
    says: str = ""
    by_eye: str = ""
    question: str = ""
    also: tuple[str, ...] = ()
    quick: bool = False
    ordered: bool = False
    absent_in: frozenset[str] = frozenset()
    ordinary: str = ""
    ordinary_in: tuple[tuple[str, str], ...] = ()
    unset: str = ""
    effort: bool = False
    derived: bool = False
    own: bool = False

    def __hash__(self) -> int:
        """Return a hash that does not go through every word; equality still does."""
        return hash(self.name)

    @cached_property
    def folded(self) -> str:
        """Return the name as it is compared and stored."""
        return fold(self.name)

    @property
    def is_banded(self) -> bool:
        """Say whether words of this row stand for ranges of numbers."""
        return self.kind is Kind.NUMBER and bool(self.words)

    def word_named(self, written: str) -> Word | None:
        """Return the word that `written` means here, or None."""
        wanted = fold(written)
        for candidate in self.words:
            if wanted == fold(candidate.name) or wanted in map(fold, candidate.also):
                return candidate
        return None

    def value_of(self, written: str) -> Known | None:
        """Return the set of values a word of this row stands for, or None where it is no word."""
        found = self.word_named(written)
        if found is None:
            return None
        if self.kind is Kind.NUMBER:
            return Within((found.interval,))
        return OneOf(frozenset((found.name,)))

    def ordinary_value(self, game_situation: str) -> Known:
        """Return the value of an everyday ball, or NOT_SEEN where nothing is ordinary."""
        written = dict(self.ordinary_in).get(game_situation, self.ordinary)
        if not written:
            return NOT_SEEN
        if self.kind is Kind.NUMBER and not self.words:
            return number(float(written))
        return self.value_of(written) or NOT_SEEN
