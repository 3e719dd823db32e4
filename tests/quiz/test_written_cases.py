"""Each wrong quiz file in cases/quizzes and the exact text it earns."""

import re
from pathlib import Path

import pytest

from tactics.reading.quiz_codes import QuizCode
from tactics.report.problems import first_line, render_problems
from tests.golden import CASES, Golden
from tests.quiz.written_quizzes import asked, source_of

WRONG = sorted((CASES / "quizzes").glob("*.yaml"))
# words that say nothing to a coach, or say it unkindly
UNKIND = ("mapping", "scalar", "node", "schema", "invalid", "illegal", "failed", "error:", "!")


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_a_wrong_quiz_file_earns_exactly_this_text(path: Path, golden: Golden) -> None:
    source = source_of(path)

    golden(f"quizzes/{path.stem}.txt", render_problems(asked(source)[1], (source,)))


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_a_message_fits_the_screen_and_stays_kind(path: Path) -> None:
    source = source_of(path)
    problems = asked(source)[1]

    firsts = {first_line(problem) for problem in problems}
    lines = render_problems(problems, (source,)).splitlines()
    words = " ".join(f"{problem.sentence} {problem.hint}" for problem in problems).lower()
    own_words = re.sub(r'"[^"]*"', "", words)

    assert problems
    assert [line for line in lines if line not in firsts and len(line) > 80] == []
    assert [word for word in UNKIND if word in own_words] == []


def test_every_code_has_a_case() -> None:
    earned = {problem.code for path in WRONG for problem in asked(source_of(path))[1]}

    assert earned >= set(QuizCode)
