"""What readers note on the way: a line of a section, and the problems found so far."""

from dataclasses import dataclass, field

from tactics.problem import Also, Problem, Severity
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Node, Scalar
from tactics.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A name of a section as it was meant (folded), as it was written, and what stands there."""

    name: str
    key: Scalar
    value: Node

    @property
    def is_empty(self) -> bool:
        """Say whether nothing stands behind the colon."""
        return isinstance(self.value, Scalar) and not self.value.text.strip()


@dataclass(slots=True)
class Notes:
    """The problems found so far, and whose section is being read.

    whose: how a message names it (`rule "low-ball"`). opener: the line of its name.
    """

    problems: list[Problem] = field(default_factory=list)
    whose: str = ""
    opener: int = 0

    def inside(self, opener: int, whose: str = "") -> "Notes":
        """Return notes for a section further in; what they collect is shared."""
        return Notes(problems=self.problems, whose=whose or self.whose, opener=opener)

    def add(
        self,
        code: Code,
        place: Span | Scalar,
        sentence: str,
        hint: str = "",
        *,
        replacement: str = "",
        also: tuple[Also, ...] = (),
        severity: Severity = Severity.ERROR,
    ) -> None:
        """Note a problem at a place, or at a word; only a word that is whole can be replaced."""
        if isinstance(place, Scalar):
            span, replacement = place.span, replacement if place.is_whole else ""
        else:
            span = place
        self.problems.append(
            Problem(
                code=code,
                span=span,
                sentence=sentence,
                hint=hint,
                replacement=replacement,
                also=also,
                severity=severity,
                opener=self.opener if self.opener != span.line else 0,
            )
        )

    def complain(self, complaint: Complaint, place: Span | Scalar) -> None:
        """Note what is wrong with a text, now that its place is known."""
        self.add(
            complaint.code,
            place,
            f"in {self.whose}, {complaint.sentence}" if self.whose else complaint.sentence,
            complaint.hint,
            replacement=complaint.replacement,
        )

    def errors(self) -> int:
        """Return the number of errors so far; more of them later means that something broke."""
        return sum(problem.severity is Severity.ERROR for problem in self.problems)


def of(notes: Notes, entry: Entry) -> str:
    """Return `"title" of rule "low-ball"`."""
    name = quoted(entry.key.text)
    return f"{name} of {notes.whose}" if notes.whose else name
