"""`tactics plan --homework`: the quiz file it writes can be checked and asked."""

from pathlib import Path

import pytest

from tactics.cli.main import Exit, safely
from tactics.quiz.written import scenarios_of
from tactics.reading.quizzes import read_quiz
from tactics.source import Source
from tests.quiz.written_quizzes import ROOT, advisor


@pytest.fixture
def written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> str:
    monkeypatch.chdir(tmp_path)
    assert safely(["plan", "--sample", "--homework", "home.yaml"]) == Exit.FINE
    printed = capsys.readouterr()
    assert "tactics quiz home.yaml" in " ".join(printed.out.split())
    assert "wrote home.yaml" in printed.err
    return (tmp_path / "home.yaml").read_text(encoding="utf-8")


def test_it_asks_about_the_rules_of_the_plan(written: str) -> None:
    read = read_quiz(Source(name="home.yaml", text=written), advisor().vocabulary)
    assert read.problems == ()
    assert read.value is not None
    made = scenarios_of(advisor(), read.value, "home")

    assert made.problems == ()
    assert made.value is not None
    assert len(made.value) == 10
    assert {each.rule for each in made.value} <= {each.text for each in read.value.rules}


def test_it_is_checked_like_any_quiz_file(written: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert 1 <= written.count("\n  - ") <= 3
    assert safely(["check", "home.yaml"]) == Exit.FINE
    assert "no problems" in capsys.readouterr().out


def test_rules_of_a_coach_are_named_as_the_quiz_file_reaches_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "club").mkdir()
    own = tmp_path / "club" / "our rules: 2.yaml"
    own.write_text((ROOT / "rules" / "singles-club.yaml").read_text("utf-8"), "utf-8")
    (tmp_path / "home").mkdir()
    arguments = ["plan", "--sample", "--rules", str(own), "--homework", "home/quiz.yaml"]

    assert safely(arguments) == Exit.FINE
    assert "for: ['../club/our rules: 2.yaml']" in (tmp_path / "home" / "quiz.yaml").read_text()
    assert safely(["check", "home/quiz.yaml"]) == Exit.FINE
    assert "answers from Singles, club level" in capsys.readouterr().out
