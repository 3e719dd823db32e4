"""Mistakes in a file, as values."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Generic, TypeVar

from tactics.source import Span

T = TypeVar("T")


class Severity(StrEnum):
    """How much a problem matters."""

    ERROR = "error"
    WARNING = "warning"
    INFORMATION = "information"


@dataclass(frozen=True, slots=True, kw_only=True)
class Also:
    """A second place that has to do with a problem, and what stands there."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """What is wrong at a place. `code` names the page behind it; `hint` can be pasted or followed.

    opener: the line number of the section the place belongs to, shown above it (0: none).
    replacement: the text that, put in place of the marked words, mends the mistake ("" where
    there is more than one way). notes: what shows it, a sentence or two each. paste: lines that
    can be put into the file as they stand.
    """

    code: str
    span: Span
    sentence: str
    hint: str = ""
    severity: Severity = Severity.ERROR
    also: tuple[Also, ...] = ()
    opener: int = 0
    replacement: str = ""
    notes: tuple[str, ...] = ()
    paste: tuple[str, ...] = ()

    @property
    def order(self) -> tuple[str, int, int, str]:
        """Return the sorting key: by place."""
        return (self.span.file, self.span.line, self.span.column, self.code)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading(Generic[T]):
    """What was read (None where nothing usable came out) and every problem on the way."""

    value: T | None
    problems: tuple[Problem, ...] = ()

    @property
    def is_usable(self) -> bool:
        """Say whether a value came out and no problem is an error."""
        return self.value is not None and all(
            problem.severity is not Severity.ERROR for problem in self.problems
        )


def by_place(problems: tuple[Problem, ...] | list[Problem]) -> tuple[Problem, ...]:
    """Return the problems in reading order."""
    return tuple(sorted(problems, key=lambda problem: problem.order))
