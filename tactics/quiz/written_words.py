"""What is wrong about written scenarios, in words."""

from dataclasses import dataclass, field

from tactics.model.quiz_file import QuizFile, WrittenScenario
from tactics.model.rule import RuleSet
from tactics.problem import Problem
from tactics.reading.codes import Code
from tactics.reading.quiz_codes import QuizCode
from tactics.report.visible import visible
from tactics.report.words import say_short
from tactics.source import Span


@dataclass(slots=True)
class Told:
    """Collects problems about one quiz file."""

    quiz_file: QuizFile
    problems: list[Problem] = field(default_factory=list)

    def note(
        self,
        code: QuizCode | Code,
        span: Span,
        sentence: str,
        hint: str,
        *,
        of: WrittenScenario | None = None,
        notes: tuple[str, ...] = (),
        replacement: str = "",
    ) -> None:
        """Note a problem; `of`: the scenario whose first line is shown above."""
        opener = of.span.line if of is not None and of.span.line != span.line else 0
        self.problems.append(
            Problem(
                code=code,
                span=span,
                sentence=sentence,
                hint=hint,
                notes=tuple(visible(each) for each in notes),
                replacement=replacement,
                opener=opener,
            )
        )

    def applies_to(self, rules: RuleSet) -> str:
        """Return what a rule set is for in words."""
        traits = [(rules.vocabulary.trait(fact), allowed) for fact, allowed in rules.applies_to]
        return ", ".join(f"{trait.name} {say_short(allowed, trait)}" for trait, allowed in traits)
