"""`tactics quiz` and its options, answered through standard input."""

import io
import re
import sys
from pathlib import Path

import pytest

from tactics.cli import files
from tactics.cli.main import main


@pytest.fixture
def run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> "Run":
    return Run(tmp_path, monkeypatch, capsys)


class Run:
    """Runs the command in a folder of its own and returns exit code, output and complaints."""

    def __init__(
        self, folder: Path, patch: pytest.MonkeyPatch, captured: pytest.CaptureFixture[str]
    ) -> None:
        self.folder, self.patch, self.captured = folder, patch, captured

    def __call__(self, *arguments: str, answers: str = "") -> tuple[int, str, str]:
        self.patch.setattr(sys, "stdin", io.StringIO(answers))
        code = main(["quiz", "--folder", str(self.folder), *arguments])
        said = self.captured.readouterr()
        return code, said.out, said.err


def question(said: str) -> str:
    """Return the first question without the name of the player."""
    return said.partition("Question")[2].partition("Type 1")[0]


def test_the_seed_that_is_printed_gives_another_player_the_same_quiz(run: Run) -> None:
    code, first, _ = run("--player", "robin", answers="1\ns\n\n")
    seed = re.search(r"Seed of this quiz: (\S+)", first)
    assert seed is not None

    _, again, _ = run("--player", "kim", "--seed", seed[1], answers="1\ns\n\n")

    assert code == 130
    assert question(first).startswith(" 1 of 10")
    assert first.count("Question") == 2
    assert first.replace("robin", "kim") == again


@pytest.mark.parametrize(("hand", "side"), [("right", "left"), ("left", "right")])
def test_the_court_is_drawn_for_the_players_hand(run: Run, hand: str, side: str) -> None:
    _, said, _ = run("--seed", "tuesday", "--topic", "pulled wide", "--hand", hand)
    places = re.findall(r"to your (\w+) side \(your (\w+)\)", question(said))

    assert places
    assert set(places) <= {("forehand", hand), ("backhand", side)}


def test_a_quiz_file_is_asked_of_a_left_hander_too(run: Run) -> None:
    _, said, _ = run("pulled-wide", "--seed", "monday", "--hand", "left", answers="1\ns\n\n" * 11)
    places = re.findall(r"to your (\w+) side \(your (\w+)\)", said)

    assert "You are left-handed" in said
    assert set(places) == {("forehand", "left"), ("backhand", "right")}


def test_of_a_quiz_file_as_many_are_asked_as_wished(run: Run) -> None:
    code, said, _ = run("low-balls", "--count", "2", answers="1\ns\n\n" * 2)

    assert code == 0
    assert said.count(" of 2: ") == 2


@pytest.mark.parametrize("wish", ["--topic", "--from"])
def test_a_quiz_file_and_a_choice_among_rules_do_not_go_together(run: Run, wish: str) -> None:
    code, said, wrong = run("low-balls", wish, "serving")

    assert code == 2
    assert said == ""
    assert f"leave out {wish}" in wrong


@pytest.mark.parametrize("written", ["low-balls", "Low balls", "quizzes/low-balls.yaml"])
def test_a_quiz_file_is_found_by_name_or_path(run: Run, written: str) -> None:
    path = files.find_shipped("quizzes", "low-balls", ".yaml")
    assert path is not None
    name = str(path) if "/" in written else written

    code, said, complaints = run(name)

    assert (code, complaints) == (130, "")
    assert "Question 1 of " in said


def test_a_quiz_that_is_not_there_is_told_with_what_was_meant(run: Run) -> None:
    code, said, complaints = run("low-bals")

    assert (code, said) == (2, "")
    assert complaints == 'tactics: there is no quiz "low-bals"; did you mean "low-balls"?\n'


def test_one_topic_only(run: Run) -> None:
    code, said, _ = run("--topic", "serving", answers="l\n\nl\n\n")

    assert code == 130
    assert said.count("Question") == 3


def test_a_topic_that_is_not_there_is_told_with_what_was_meant(run: Run) -> None:
    code, _, complaints = run("--topic", "servin")

    assert code == 2
    assert 'there is no topic "servin"' in complaints
    assert "serving" in complaints


def test_the_players_own_broken_balls_come_first(run: Run) -> None:
    code, said, _ = run("--from", str(files.SAMPLE_CHART), "--seed", "monday")

    assert code == 130
    assert "Question 1 of 10" in said


@pytest.mark.parametrize(
    "arguments", [["--count", "0"], ["--count", "x"], ["--clock", "1"], ["--hand", "both"]], ids=str
)
def test_what_can_not_be_meant_is_refused(run: Run, arguments: list[str]) -> None:
    with pytest.raises(SystemExit) as refused:
        run(*arguments)

    assert refused.value.code == 2


def test_broken_rules_are_not_asked_about(run: Run) -> None:
    broken = run.folder / "mine.yaml"
    broken.write_text("rule set: Mine\nrules: {\n", encoding="utf-8")

    code, said, complaints = run("--rules", str(broken))

    assert (code, said) == (2, "")
    assert "the rules have to be put right before they can be asked" in complaints
