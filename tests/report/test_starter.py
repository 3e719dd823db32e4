"""The rule set to start from: exactly this text, and it is as sound as the one it builds on."""

import re
from pathlib import Path

import pytest

from tactics.checks import check_rules
from tactics.cli import files
from tactics.cli.main import Exit, safely
from tactics.cli.rule_files import load_rules
from tactics.engine.compile import compile_rules
from tactics.model.rule import RuleSet
from tactics.problem import Problem, Severity
from tactics.reading.charts import read_chart_bytes
from tactics.report.starter import starter_text
from tactics.report.starter_situations import skeletons_of
from tests.golden import CASES, Golden

CHART = CASES / "mixes" / "serves.csv"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def read(path: str) -> tuple[RuleSet, tuple[Problem, ...]]:
    reading = load_rules([path]).reading
    assert reading.value is not None
    return reading.value, reading.problems


def test_the_text_with_the_situations_of_a_chart_behind_it(golden: Golden) -> None:
    club, _ = read(str(CASES / "rule_pages" / "club.yaml"))
    chart = read_chart_bytes(CHART.name, CHART.read_bytes(), club.vocabulary).value

    skeletons = skeletons_of(chart.balls, club, 3)

    text = starter_text("wednesday-group.yaml", "Wednesday group", CHART.name, skeletons)
    golden("starter/wednesday-group.yaml", text)


def test_the_file_is_written_and_the_next_step_named(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = safely(["new", "wednesday-group", "--from", str(CHART)])

    assert code == Exit.FINE
    said = capsys.readouterr().out
    assert said == "wrote wednesday-group.yaml; next: tactics check wednesday-group.yaml\n"
    assert "Met on 16 of 94 balls: Serving; first serve, deuce side." in (
        folder / "wednesday-group.yaml"
    ).read_text("utf-8")


def test_it_has_no_problem_that_the_set_below_has_not(folder: Path) -> None:
    safely(["new", "mine.yaml"])

    rules, problems = read("mine.yaml")
    found = check_rules(compile_rules(rules), quick=True)

    assert problems == ()
    assert [each for each in found if each.severity is not Severity.INFORMATION] == []


def test_it_replaces_one_rule_drops_one_and_adds_one_with_its_own_fact(folder: Path) -> None:
    safely(["new", "mine.yaml"])

    rules, _ = read("mine.yaml")
    below, _ = read("singles-club")
    mine = {rule.id: rule for rule in rules.rules}
    theirs = {rule.id: rule for rule in below.rules}

    assert mine.keys() - theirs.keys() == {"sun-in-our-eyes-no-smash"}
    assert theirs.keys() - mine.keys() == {"serve-and-volley-sometimes"}
    assert [name for name in mine.keys() & theirs.keys() if mine[name] != theirs[name]] == [
        "rally-with-air"
    ]
    assert rules.vocabulary.find("sun") is not None
    assert below.vocabulary.find("sun") is None


def test_the_rules_to_finish_can_be_read_once_their_signs_are_gone(folder: Path) -> None:
    safely(["new", "mine.yaml", "--from", str(CHART)])
    path = folder / "mine.yaml"
    head, tail = path.read_text("utf-8").split("  # ---", maxsplit=1)
    finished = "\n".join(
        re.sub(r"^  # ", "  ", line)
        for line in tail.splitlines()[1:]
        if not line.startswith("  ##")
    )
    notes_gone = re.sub(r"^  What .*\n  its .*\n", "", finished, flags=re.MULTILINE)
    path.write_text(f"{head}{notes_gone}\n", encoding="utf-8")

    rules, problems = read("mine.yaml")

    assert problems == ()
    assert "serving-first-deuce" in {rule.id for rule in rules.rules}


def test_a_file_that_is_there_is_left_alone(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "mine.yaml").write_text("rule set: Mine\n", encoding="utf-8")

    code = safely(["new", "mine.yaml"])

    assert code == Exit.COULD_NOT_RUN
    assert capsys.readouterr().err == (
        'tactics: "mine.yaml" is there already; nothing was written\n'
    )
    assert (folder / "mine.yaml").read_text("utf-8") == "rule set: Mine\n"


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("juniors_tuesday.yaml", "Juniors tuesday"),
        ("a: b # c.yaml", "A b c"),
        ("++.yaml", "My rules"),
        ("été.yaml", "Été"),
    ],
)
def test_the_set_is_named_after_its_file(folder: Path, file: str, name: str) -> None:
    safely(["new", file])

    rules, problems = read(file)

    assert rules.name == name
    assert problems == ()


def test_a_chart_that_cannot_be_read_writes_nothing(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "empty.csv").write_text("", encoding="utf-8")

    code = safely(["new", "mine.yaml", "--from", "empty.csv"])

    assert code == Exit.COULD_NOT_RUN
    assert "empty.csv:1:1: error:" in capsys.readouterr().err
    assert files.find_rules("mine.yaml").exists() is False
