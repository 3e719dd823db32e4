"""A named text and places inside it."""

from dataclasses import dataclass
from functools import cached_property


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A place in a file: line and column count from 1, width in characters (at least 1)."""

    file: str
    line: int
    column: int = 1
    width: int = 1


@dataclass(frozen=True, kw_only=True)
class Source:
    """A text and the name it goes by in messages."""

    name: str
    text: str

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """Return the text line by line, without line ends."""
        return tuple(self.text.splitlines())

    def line(self, number: int) -> str:
        """Return one line, counted from 1, or an empty text beyond the end."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    def start(self) -> Span:
        """Return the very first place of the text."""
        return Span(file=self.name, line=1)
