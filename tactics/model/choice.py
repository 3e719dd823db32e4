"""What was tried, and what came of it: two types, so that no code can mix them up."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from tactics.model.known import NOT_SEEN, Known


@dataclass(frozen=True, slots=True)
class Choice:
    """Part (folded name) -> what was charted of it; a part that is not listed was not charted."""

    parts: tuple[tuple[str, Known], ...] = ()

    @classmethod
    def of(cls, parts: Mapping[str, Known] | Iterable[tuple[str, Known]]) -> "Choice":
        """Return a choice with its parts in one order, so that equal ones are equal."""
        return cls(tuple(sorted(dict(parts).items(), key=lambda item: item[0])))

    def as_dict(self) -> dict[str, Known]:
        """Return a fresh dictionary of the charted parts."""
        return dict(self.parts)

    def get(self, part: str) -> Known:
        """Return what was charted of a part."""
        return next((known for name, known in self.parts if name == part), NOT_SEEN)


class Cause(StrEnum):
    """What a bad ball is put down to."""

    READ = "read"
    POSITION = "position"
    DECIDE = "decide"
    EXECUTE = "execute"
    EFFORT = "effort"
    PHYSICAL = "physical"
    UNLUCKY = "unlucky"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What happened to the ball, word by word as charted; empty where nothing was noted."""

    landed: str = ""
    as_intended: str = ""
    ending: str = ""
    quality: str = ""
    point_won: str = ""
    disturbed: str = "no"


NOTHING_NOTED = Outcome()
