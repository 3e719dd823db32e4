"""A rule set that is ready to be asked."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Protocol

from tactics.engine.match import Truth, infer
from tactics.engine.program import Program
from tactics.model.rule import RuleSet
from tactics.model.vocabulary import Vocabulary


class Engine(Protocol):
    """Derives terms and rules from the truth of the numbered tests."""

    @property
    def name(self) -> str:
        """Return what the engine is called in `tactics --version`."""

    def infer(self, leaves: Sequence[Truth]) -> tuple[tuple[Truth, ...], tuple[Truth, ...]]:
        """Return the truth of every term and of every rule, in the program's order."""


@dataclass(frozen=True, slots=True)
class Matcher:
    """The plain engine: it is what the rules mean."""

    program: Program
    name: str = "matcher"

    def infer(self, leaves: Sequence[Truth]) -> tuple[tuple[Truth, ...], tuple[Truth, ...]]:
        """Return the truth of every term and of every rule, in the program's order."""
        return infer(self.program, leaves)


@dataclass(frozen=True, kw_only=True, eq=False)
class Advisor:
    """A rule set, its program and the engine that runs it.

    by_level: the rules as written, where `1.4 scatter` in them means something else for each level.
    """

    rules: RuleSet
    program: Program
    engine: Engine = field(repr=False)
    by_level: RuleSet | None = field(default=None, repr=False)

    @property
    def vocabulary(self) -> Vocabulary:
        """Return the words the rule set uses, its own facts included."""
        return self.rules.vocabulary
