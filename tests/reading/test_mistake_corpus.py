"""Some 800 broken rule files: each gets a problem on the right line, and a hint that mends it."""

from functools import cache

import pytest

from tactics.problem import Problem
from tactics.reading.rules import read_rules
from tactics.source import Source
from tests.reading.corpus import OTHER_FILES, Mistake, corpus

LEAST = 300
MENDED_SHARE = 0.90
ALONE_SHARE = 0.97


def find(name: str) -> Source | None:
    written = f"{name.removesuffix('.yaml')}.yaml".rsplit("/", maxsplit=1)[-1]
    text = OTHER_FILES.get(written)
    return None if text is None else Source(name=written, text=text)


def problems_of(mistake: Mistake, text: str) -> tuple[Problem, ...]:
    return read_rules(Source(name=mistake.file, text=text), find).problems


@cache
def found() -> tuple[tuple[Mistake, tuple[Problem, ...]], ...]:
    return tuple((mistake, problems_of(mistake, mistake.text)) for mistake in corpus())


def pasted(text: str, problem: Problem) -> str:
    lines = text.split("\n")
    line, start = lines[problem.span.line - 1], problem.span.column - 1
    lines[problem.span.line - 1] = (
        line[:start] + problem.replacement + line[start + problem.span.width :]
    )
    return "\n".join(lines)


def is_mended(mistake: Mistake, problems: tuple[Problem, ...]) -> bool:
    """Say whether pasting one hint leaves no problem on the lines of the mistake."""
    here = [each for each in problems if each.span.line in mistake.lines and each.replacement]
    return any(
        not any(left.span.line in mistake.lines for left in problems_of(mistake, again))
        for each in here
        for again in [pasted(mistake.text, each)]
    )


def test_the_corpus_is_large_and_of_many_kinds() -> None:
    kinds = {mistake.kind for mistake in corpus()}

    assert len(corpus()) >= LEAST
    assert len(kinds) >= 40


def test_every_mistake_gets_a_problem_on_the_right_line() -> None:
    missed = [
        mistake.name
        for mistake, problems in found()
        if not any(each.span.line in mistake.lines for each in problems)
    ]

    assert missed == []


def test_one_mistake_hardly_ever_gets_two_problems() -> None:
    alone = sum(len(problems) == 1 for _, problems in found())

    assert alone / len(found()) >= ALONE_SHARE


def test_a_pasted_hint_mends_nine_mistakes_in_ten(capsys: pytest.CaptureFixture[str]) -> None:
    with_one_repair = [pair for pair in found() if pair[0].meant]

    mended = sum(is_mended(*pair) for pair in with_one_repair)

    share = mended / len(with_one_repair)
    with capsys.disabled():
        print(f"\n  {len(found())} broken files; a hint mends {mended} of {len(with_one_repair)}")
    assert share >= MENDED_SHARE
