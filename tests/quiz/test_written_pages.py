"""Each page of a code of quiz files holds a wrong file that earns it, and a right one."""

import re

import pytest

from tactics.problem import Problem
from tactics.reading.quiz_codes import QuizCode
from tactics.source import Source
from tests.quiz.written_quizzes import ROOT, asked

PAGES = ROOT / "tactics" / "pages"
HEADINGS = ["What it means", "Why it matters", "Wrong", "Right"]


def page(code: QuizCode) -> dict[str, str]:
    """Return heading -> text below it."""
    text = (PAGES / f"{code}.md").read_text(encoding="utf-8")
    title, *sections = re.split(r"(?m)^## ", text)
    assert title.strip() == f"# {code}"
    return dict(section.split("\n", maxsplit=1) for section in sections)


def problems(code: QuizCode, heading: str) -> tuple[Problem, ...]:
    """Return what is wrong with the file below a heading."""
    found = re.findall(r"(?s)```yaml\n(.*?)```", page(code)[heading])
    assert len(found) == 1
    return asked(Source(name=f"{code}.yaml", text=found[0]))[1]


@pytest.mark.parametrize("code", QuizCode, ids=str)
def test_a_page_has_the_four_headings(code: QuizCode) -> None:
    assert list(page(code)) == HEADINGS


@pytest.mark.parametrize("code", QuizCode, ids=str)
def test_the_wrong_file_of_a_page_earns_its_code_and_no_other(code: QuizCode) -> None:
    assert {problem.code for problem in problems(code, "Wrong")} == {code}


@pytest.mark.parametrize("code", QuizCode, ids=str)
def test_the_right_file_of_a_page_has_no_problem(code: QuizCode) -> None:
    assert problems(code, "Right") == ()
