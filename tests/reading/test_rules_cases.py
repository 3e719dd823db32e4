"""Each wrong file in cases/problems and the exact text it earns."""

import re
from pathlib import Path

import pytest

from tactics.problem import Problem
from tactics.reading.decoding import decode
from tactics.reading.rules import read_rules
from tactics.report.problems import first_line, render_problems
from tactics.source import Source
from tests.golden import Golden

FOLDER = Path(__file__).parents[1] / "cases" / "problems"
CASES = sorted(FOLDER.glob("*.yaml"))
# words that say nothing to a coach, or say it unkindly
UNKIND = (
    "mapping", "scalar", "node", "token", "schema", "nonetype", "invalid", "illegal", "failed",
    "failure", "error:", "!",
)  # fmt: skip


def file_named(name: str) -> Source | None:
    path = FOLDER / name
    return decode(name, path.read_bytes()).value if path.is_file() else None


def problems_of(path: Path) -> tuple[tuple[Problem, ...], Source | None]:
    decoded = decode(path.name, path.read_bytes())
    if decoded.value is None:
        return decoded.problems, None
    return read_rules(decoded.value, file_named).problems, decoded.value


def told(path: Path) -> str:
    problems, source = problems_of(path)
    return render_problems(problems, () if source is None else (source,))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_wrong_file_earns_exactly_this_text(path: Path, golden: Golden) -> None:
    golden(f"problems/{path.stem}.txt", told(path))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_message_fits_the_screen_and_stays_kind(path: Path) -> None:
    problems, _ = problems_of(path)

    firsts = {first_line(problem) for problem in problems}
    below = [line for line in told(path).splitlines() if line not in firsts]
    words = " ".join(f"{problem.sentence} {problem.hint}" for problem in problems).lower()
    own_words = re.sub(r'"[^"]*"', "", words)

    assert [line for line in below if len(line) > 80] == []
    assert [word for word in UNKIND if word in own_words] == []


def test_there_are_files_to_read() -> None:
    assert len(CASES) > 50
