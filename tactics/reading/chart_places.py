"""Offsets in a text -> places that a message can point at."""

from bisect import bisect_right
from itertools import accumulate

from tactics.source import Source, Span


class Places:
    """Looks up lines and columns of one text; every answer lies inside it."""

    def __init__(self, source: Source) -> None:
        self._source = source
        lengths = [len(line) for line in source.text.splitlines(keepends=True)]
        self._starts = [0, *accumulate(lengths)][: max(1, len(lengths))]

    def at(self, offset: int, width: int = 1) -> Span:
        """Return the place of some characters; they are cut at the end of their line."""
        line = bisect_right(self._starts, offset)
        length = len(self._source.line(line))
        column = min(offset - self._starts[line - 1], length)
        return Span(
            file=self._source.name,
            line=line,
            column=column + 1,
            width=max(1, min(width, length - column)),
        )
