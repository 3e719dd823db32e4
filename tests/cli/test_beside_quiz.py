"""`audit` and `plan` with quiz answers beside what was charted."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tactics.cli.main import Exit, safely
from tactics.cli.quiz_players import usual_folder
from tactics.model.scenario import Credit
from tactics.quiz.boxes import Boxes
from tactics.quiz.kept import player_file
from tactics.quiz.store import Store, open_store
from tests.golden import Golden
from tests.quiz.answered import answer, question, quiz

TITLE = "Quiz and court, side by side"
FIRST = date(2026, 3, 14)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder in which Wren has answered three questions on two rules."""
    store = open_store(tmp_path, "Wren", FIRST)
    assert isinstance(store, Store)
    with store:
        number = store.begin(quiz(question()), FIRST)
        assert isinstance(number, int)
        for rule, credit in (
            ("short-and-low-lead-in", Credit.FULL),
            ("short-and-low-lead-in", Credit.NONE),
            ("wide-go-high", Credit.FULL),
        ):
            each = replace(answer(0, credit), rule=rule, day=FIRST)
            assert store.save(number, question(), each, Boxes()) is None
    return tmp_path


def printed(capsys: pytest.CaptureFixture[str], command: str, *more: str) -> str:
    assert safely([command, "--sample", *more]) == Exit.FINE
    return capsys.readouterr().out


def section(text: str) -> str:
    return TITLE + text.partition(TITLE)[2].partition("\n\n")[0] + "\n"


def test_both_commands_show_the_same_section(
    folder: Path, golden: Golden, capsys: pytest.CaptureFixture[str]
) -> None:
    audited = section(printed(capsys, "audit", "--quiz-folder", str(folder)))
    assert section(printed(capsys, "plan", "--quiz-folder", str(folder))) == audited
    golden("audits/beside-quiz.txt", audited)


def test_json_has_the_same_numbers(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = json.loads(printed(capsys, "audit", "--json", "--quiz-folder", str(folder)))
    quiz_of = {each["rule"]: each["quiz"] for each in found["quiz and court"]["rules"]}
    assert quiz_of["short-and-low-lead-in"] == {
        "answered": 2,
        "full credit": 1,
        "first asked": "2026-03-14",
    }


def test_tests_never_look_into_the_folder_of_this_machine() -> None:
    assert "tactics-tests-" in str(usual_folder())


def test_it_can_be_left_out(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shown = printed(capsys, "audit", "--quiz-folder", str(folder), "--no-quiz")
    assert TITLE not in shown


def test_nobody_known_leaves_no_trace(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert TITLE not in printed(capsys, "audit", "--quiz-folder", str(tmp_path))
    assert list(tmp_path.iterdir()) == []


def test_a_damaged_file_is_said_and_the_audit_goes_on(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    player_file(tmp_path, "Wren").write_bytes(b"not a store of answers" * 100)
    assert safely(["audit", "--sample", "--quiz-folder", str(tmp_path)]) == Exit.FINE
    out, said = capsys.readouterr()
    assert TITLE not in out
    assert "tactics:" in said
