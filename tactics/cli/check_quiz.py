"""`tactics check` on quiz files: every mistake at once, and what the rules answer."""

import argparse
import sys
from collections.abc import Sequence
from dataclasses import dataclass

from tactics.cli import messages
from tactics.cli.main import Exit
from tactics.cli.quiz_files import OpenedQuiz, is_quiz, open_quiz, rules_for
from tactics.problem import Problem, Severity
from tactics.report.layout import counted
from tactics.source import Source

_SEED = "check"


def has_quiz(written: Sequence[str]) -> bool:
    """Say whether one of these names or paths means a quiz file."""
    return any(map(is_quiz, written))


def check_quizzes(options: argparse.Namespace) -> int:
    """Check quiz files; rule files named beside them are the rules they are checked against."""
    quizzes = [name for name in options.rules if is_quiz(name)]
    rules = [name for name in options.rules if name not in quizzes]
    opened = [each for each in map(open_quiz, quizzes) if each is not None]
    checked = [_checked(each, rules) for each in opened]
    problems = [problem for each in checked for problem in each.problems]
    sources = [source for each in checked for source in each.sources]
    for each in checked:
        if options.style == "text" and each.opening:
            print(each.opening, flush=True)
    messages.show_problems(problems, sources, sys.stdout, options.style)
    if options.style != "json":
        print(counted(len(problems), "problem") if problems else "no problems")
    return Exit.PROBLEMS if problems else Exit.FINE


@dataclass(frozen=True, slots=True, kw_only=True)
class _Checked:
    """What came out of one quiz file."""

    opening: str
    problems: tuple[Problem, ...]
    sources: tuple[Source, ...]


def _checked(opened: OpenedQuiz, rules: Sequence[str]) -> _Checked:
    from tactics.engine.compile import compile_rules
    from tactics.quiz.written import scenarios_of
    from tactics.reading.quizzes import read_quiz

    if opened.source is None:
        return _Checked(opening="", problems=opened.problems, sources=())
    loaded = rules_for(opened, rules)
    sources = (opened.source, *loaded.sources)
    errors = tuple(each for each in loaded.reading.problems if each.severity is Severity.ERROR)
    if loaded.reading.value is None or errors:
        return _Checked(opening="", problems=errors, sources=sources)
    advisor = compile_rules(loaded.reading.value, "matcher")
    read = read_quiz(opened.source, advisor.vocabulary)
    if read.value is None:
        return _Checked(opening="", problems=read.problems, sources=sources)
    made = scenarios_of(advisor, read.value, _SEED)
    written = counted(len(read.value.scenarios), "scenario")
    drawn = f", {read.value.draw} to draw" if read.value.draw else ""
    return _Checked(
        opening=f"{read.value.name}: {written}{drawn}; answers from {advisor.rules.name}",
        problems=(*read.problems, *made.problems),
        sources=sources,
    )
