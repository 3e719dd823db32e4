"""Where YAML stumbled, and the line it stumbled over."""

import re
from dataclasses import dataclass
from functools import lru_cache

from tactics.problem import Problem
from tactics.reading.codes import Code
from tactics.source import Source, Span

Place = tuple[int, int]
"""Line and column, from 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Where YAML gave up (`met`), in which construct (`context`, begun at `opened`), and why.

    long_quote: where the last quoted text began, if it ran over more than one line and ended
    on the line of `met`.
    """

    context: str
    problem: str
    opened: Place
    met: Place
    long_quote: Place | None = None


_COMMENT = re.compile(r"(^|\s)#.*$")
_DASHES = re.compile(r"\s*(?:-\s+)*")
KEY_AND_VALUE = re.compile(r"(?P<key>\s*(?:-\s+)*[^\s:#\[{\"'][^:]*?):\s+(?P<value>\S.*)$")


@lru_cache(maxsize=64)
def _without_comment(line: str) -> str:
    """Return a line without its comment; each is looked at for every word that stands in it."""
    return _COMMENT.sub("", line).rstrip()


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the text, and the spot in it that matters."""

    source: Source
    number: int
    column: int

    @property
    def text(self) -> str:
        """Return the line without its comment and without spaces at the end."""
        return _without_comment(self.source.line(self.number))

    @property
    def indent(self) -> int:
        """Return the number of spaces in front."""
        return len(self.text) - len(self.text.lstrip())

    @property
    def is_item(self) -> bool:
        """Say whether the line begins with the hyphen of a list."""
        return self.text.lstrip().startswith("- ")

    @property
    def start(self) -> int:
        """Return the index of its first letter, behind the hyphens of lists."""
        dashes = _DASHES.match(self.text)
        return dashes.end() if dashes else self.indent

    @property
    def name(self) -> str:
        """Return what stands before its first colon."""
        return self.text[self.start :].split(":", maxsplit=1)[0].strip()

    def span(self, start: int, stop: int | None = None) -> Span:
        """Return the place from one index of the line to another (its end, if not given)."""
        stop = len(self.text) if stop is None else stop
        start = max(0, min(start, len(self.text) - 1))
        width = max(1, stop - start)
        return Span(file=self.source.name, line=self.number, column=start + 1, width=width)

    def next(self) -> "Line | None":
        """Return the nearest line below that says something."""
        for number in range(self.number + 1, len(self.source.lines) + 1):
            line = Line(self.source, number, 1)
            if line.text.strip():
                return line
        return None

    def previous(self) -> "Line | None":
        """Return the nearest line above that says something."""
        for number in range(self.number - 1, 0, -1):
            line = Line(self.source, number, 1)
            if line.text.strip():
                return line
        return None


def line_at(source: Source, place: Place) -> Line:
    """Return the line of a place; beyond the end of the text, the last line that says something."""
    number = min(place[0], len(source.lines))
    line = Line(source, max(number, 1), place[1])
    if place[0] <= len(source.lines) and line.text.strip():
        return line
    above = line.previous()
    return line if above is None or line.text.strip() else above


def stumble(code: Code, span: Span, sentence: str, hint: str, replacement: str = "") -> Problem:
    """Return a problem of the layout."""
    return Problem(code=code, span=span, sentence=sentence, hint=hint, replacement=replacement)


def unclear(source: Source, trouble: Trouble) -> Problem:
    """Return the problem of a place at which nothing better can be said."""
    line = line_at(source, trouble.met)
    return stumble(
        Code.LAYOUT,
        line.span(trouble.met[1] - 1),
        "from here on it is not clear what belongs to what",
        "a line is a name, a colon, a space and a value; what belongs to it stands below, "
        "two spaces further in",
    )
