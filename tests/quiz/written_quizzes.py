"""Quiz files in tests: read, put to their rules, and every problem on the way."""

from functools import cache
from pathlib import Path

import tactics
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.quiz_file import QuizFile
from tactics.model.scenario import Scenario
from tactics.problem import Problem, by_place
from tactics.quiz.written import scenarios_of
from tactics.reading.quizzes import made_for, read_quiz
from tactics.reading.rules import combine
from tactics.source import Source

ROOT = Path(tactics.__file__).parents[1]
SHIPPED = sorted((ROOT / "quizzes").glob("*.yaml"))
USUAL = "singles-club"


def source_of(path: Path) -> Source:
    """Return the text of a file under its bare name."""
    return Source(name=path.name, text=path.read_text(encoding="utf-8"))


def rules_named(name: str) -> Source | None:
    """Return a shipped rule set."""
    path = ROOT / "rules" / f"{name.removesuffix('.yaml')}.yaml"
    return Source(name=name, text=path.read_text(encoding="utf-8")) if path.is_file() else None


@cache
def advisor(*names: str) -> Advisor:
    """Return what answers for shipped rule sets, the usual one where no name is known."""
    known = [source for source in map(rules_named, names) if source is not None]
    usual = rules_named(USUAL)
    assert usual is not None
    rules = combine(known or [usual], rules_named).value
    assert rules is not None
    return compile_rules(rules, "matcher")


@cache
def asked(source: Source, seed: str = "test") -> tuple[tuple[Scenario, ...], tuple[Problem, ...]]:
    """Return the questions of a quiz file and every problem in it."""
    quiz_file, problems = read(source)
    if quiz_file is None:
        return (), problems
    made = scenarios_of(advisor_of(source), quiz_file, seed)
    return made.value or (), by_place((*problems, *made.problems))


def advisor_of(source: Source) -> Advisor:
    """Return what answers for the rules a quiz file is for."""
    return advisor(*(each.text for each in made_for(source)))


def read(source: Source) -> tuple[QuizFile | None, tuple[Problem, ...]]:
    """Return a quiz file as written."""
    reading = read_quiz(source, advisor_of(source).vocabulary)
    return reading.value, reading.problems
