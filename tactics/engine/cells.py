"""Facts and parts as small finite sets: every number cut where the rule set mentions a threshold.

Two situations in the same cells make the same conditions true, so nothing is lost. A set of
cells is an `int`, one bit a cell; the top bit of an axis stands for "not applicable".
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from tactics.model.known import (
    NOT_APPLICABLE,
    NOT_SEEN,
    Allowed,
    Cut,
    Interval,
    Known,
    OneOf,
    ScatterWithin,
    Within,
)
from tactics.model.trait import Kind, Trait
from tactics.model.vocabulary import Vocabulary


@dataclass(frozen=True)
class Axis:
    """The cells of one fact or part: its words, or the intervals between neighbouring cuts."""

    trait: Trait
    cuts: tuple[Cut, ...] = ()

    @cached_property
    def size(self) -> int:
        """Return the number of cells, without "not applicable"."""
        return len(self.cuts) - 1 if self.cuts else len(self.trait.words)

    @cached_property
    def everything(self) -> int:
        """Return the set of all cells that are values."""
        return (1 << self.size) - 1

    @cached_property
    def absent(self) -> int:
        """Return the set that holds only "not applicable"."""
        return 1 << self.size

    @cached_property
    def _bits(self) -> dict[str, int]:
        return {word.name: 1 << place for place, word in enumerate(self.trait.words)}

    def mask_of(self, known: Known | Allowed) -> int:
        """Return the cells that a set of values touches."""
        match known:
            case OneOf(words):
                mask, bits = 0, self._bits
                for name in words:
                    mask |= bits[name]
                return mask
            case Within(intervals):
                return self._mask_of_numbers(intervals)
            case ScatterWithin():
                raise TypeError("a margin in scatter has to be resolved before it is compiled")
            case _:
                return self.absent if known is NOT_APPLICABLE else self.everything

    def possible(self, known: Known) -> int:
        """Return the cells a charted value may lie in: never none, the nearest where it is outside.

        A reader refuses numbers that cannot occur; a library user may pass them all the same.
        """
        mask = self.mask_of(known)
        if mask or not isinstance(known, Within):
            return mask
        return 1 if known.intervals[-1].high <= self.cuts[0] else 1 << self.size - 1

    def _mask_of_numbers(self, intervals: Iterable[Interval]) -> int:
        mask = 0
        for interval in intervals:
            low = max(bisect_right(self.cuts, interval.low) - 1, 0)
            high = bisect_left(self.cuts, interval.high) - 1
            mask |= (1 << min(high, self.size - 1) + 1) - (1 << min(low, self.size - 1))
        return mask

    def known_of(self, mask: int) -> Known:
        """Return the set of values that a set of cells stands for."""
        if mask & self.everything == self.everything:
            return NOT_SEEN
        if not mask & self.everything:
            return NOT_APPLICABLE
        return self.allowed_of(mask)

    def allowed_of(self, mask: int) -> OneOf | Within:
        """Return the words or intervals of a non-empty set of cells."""
        if not self.cuts:
            words = self.trait.words
            return OneOf(frozenset(word.name for at, word in enumerate(words) if mask >> at & 1))
        return Within(tuple(self._intervals_of(mask & self.everything)))

    def _intervals_of(self, mask: int) -> Iterator[Interval]:
        """Yield one interval for every run of neighbouring cells."""
        start = 0
        while mask:
            free = (mask & -mask).bit_length() - 1
            length = (~(mask >> free) & (mask >> free) + 1).bit_length() - 1
            start += free
            yield Interval(self.cuts[start], self.cuts[start + length])
            start += length
            mask >>= free + length


def axis_for(trait: Trait, mentioned: Iterable[Allowed]) -> Axis:
    """Return the axis of a trait, cut at every threshold of the sets that are mentioned."""
    if trait.kind is not Kind.NUMBER:
        return Axis(trait)
    low, high = (trait.low, 0), (trait.high, 1)
    inner = {
        cut
        for allowed in mentioned
        if isinstance(allowed, Within)
        for interval in allowed.intervals
        for cut in (interval.low, interval.high)
        if low < cut < high
    }
    return Axis(trait, (low, *sorted(inner), high))


@dataclass(frozen=True)
class Grid:
    """The axes of a rule set, by folded name."""

    axes: dict[str, Axis]

    def mask(self, name: str, known: Known | Allowed) -> int:
        """Return the cells of one fact or part that a set of values touches."""
        return self.axes[name].mask_of(known)


def grid_for(words: Vocabulary, mentioned: dict[str, list[Allowed]]) -> Grid:
    """Return the axes of all facts and parts."""
    traits = (*words.facts, *words.parts)
    return Grid(
        {trait.folded: axis_for(trait, mentioned.get(trait.folded, ())) for trait in traits}
    )


def is_open(mask: int) -> bool:
    """Say whether more than one cell is possible."""
    return mask & (mask - 1) != 0


def cells_of(mask: int) -> tuple[int, ...]:
    """Return the single cells of a set, lowest first."""
    cells = []
    while mask:
        lowest = mask & -mask
        cells.append(lowest)
        mask ^= lowest
    return tuple(cells)
