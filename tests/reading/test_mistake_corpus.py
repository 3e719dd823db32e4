"""Hundreds of broken rule files: the right line is named, and the hint mends the mistake.

`pytest -s tests/reading/test_mistake_corpus.py` shows the shares.
"""

from dataclasses import dataclass
from functools import cache

from tactics.model.rule import RuleSet
from tactics.problem import Problem, Reading
from tactics.reading.rules import read_rules
from tactics.source import Source
from tests.reading.corpus import OTHER_FILES, corpus
from tests.reading.good_files import shipped_pieces, small_files, whole_set
from tests.reading.mistakes import Mistake

AT_LEAST = 400
MENDED_SHARE = 0.95  # nine in ten are promised
ALONE_SHARE = 0.99
FILES = {name: Source(name=name, text=text) for name, text in OTHER_FILES.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A mistake and what the reader says about it."""

    mistake: Mistake
    problems: tuple[Problem, ...]


def read(name: str, text: str) -> Reading[RuleSet]:
    return read_rules(Source(name=name, text=text), FILES.get)


@cache
def meant(name: str, text: str) -> RuleSet | None:
    return read(name, text).value


@cache
def told() -> tuple[Told, ...]:
    return tuple(
        Told(mistake=mistake, problems=read(mistake.file, mistake.text).problems)
        for mistake in corpus()
    )


def with_hint(text: str, problem: Problem) -> str:
    """Return the text with the hint followed: pasted over, or taken out, what is marked."""
    if not problem.replacement and not problem.hint.startswith("take out what is marked"):
        return text
    lines = text.splitlines()
    line, start = lines[problem.span.line - 1], problem.span.column - 1
    rest = line[start + problem.span.width :]
    lines[problem.span.line - 1] = line[:start] + problem.replacement + rest
    return "\n".join(lines) + "\n"


def is_mended(each: Told) -> bool:
    """Say whether the first hint alone gives the good file: no problem left, and the same rules."""
    mistake = each.mistake
    assert mistake.meant is not None
    again = read(mistake.file, with_hint(mistake.text, each.problems[0]))
    return not again.problems and again.value == meant(mistake.file, mistake.meant.text)


def test_the_files_are_good_before_they_are_spoilt() -> None:
    files = (*small_files(), *shipped_pieces(10), whole_set())

    assert [good.name for good in files if read(good.name, good.text).problems] == []


def test_the_corpus_is_large_and_of_many_kinds() -> None:
    assert len(corpus()) >= AT_LEAST
    assert len({mistake.kind for mistake in corpus()}) >= 70


def test_the_first_problem_is_always_on_the_line_of_the_mistake() -> None:
    missed = [
        each.mistake.name
        for each in told()
        if not each.problems or each.problems[0].span.line not in each.mistake.lines
    ]

    assert missed == []


def test_one_mistake_is_one_problem() -> None:
    several = [each.mistake.name for each in told() if len(each.problems) > 1]

    share = 1 - len(several) / len(told())
    print(f"\n{share:.1%} of {len(told())} mistakes earn exactly one problem; not: {several}")
    assert share >= ALONE_SHARE


def test_the_hint_mends_what_has_one_repair() -> None:
    repairable = [each for each in told() if each.mistake.meant is not None]

    left = [each.mistake.name for each in repairable if not is_mended(each)]

    share = 1 - len(left) / len(repairable)
    print(f"\n{share:.1%} of {len(repairable)} repairs can be pasted; not: {left}")
    assert share >= MENDED_SHARE
