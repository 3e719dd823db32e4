"""`audit` and `plan` with quiz answers beside what was charted."""

import json
import re
from pathlib import Path

import pytest

from tactics.cli.main import Exit, safely
from tactics.cli.quiz_players import usual_folder
from tactics.quiz.kept import player_file
from tests.golden import CASES, Golden, read_exactly
from tests.quiz_folder import keep_answers
from tests.report.html.page_reader import ReadPage, read_page

TITLE = "Quiz and court, side by side"
MOVED = re.compile(r"[-+]\d+ points? \(")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return keep_answers(tmp_path)


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


@pytest.fixture(scope="module", params=["audit", "plan"])
def page(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> ReadPage:
    folder = keep_answers(tmp_path_factory.mktemp("answers"))
    return page_of(request.param, folder)


def page_of(command: str, folder: Path) -> ReadPage:
    path = folder / "page.html"
    arguments = [command, "--sample", "--quiz-folder", str(folder), "--html", str(path)]
    assert safely(arguments) == Exit.FINE
    return read_page(path.read_text(encoding="utf-8"))


def test_the_page_says_what_the_text_says(page: ReadPage) -> None:
    told = " ".join(read_exactly(CASES / "audits" / "beside-quiz.txt").split())
    cells = [" ".join(e.text.split()) for e in page.named("td") if "kept" in e.text]
    moved = [" ".join(e.text.split()) for e in page.named("dd") if MOVED.search(e.text)]

    assert (len(cells), len(moved)) == (6, 3)
    assert all(text in told for text in (*cells, *moved))
    assert "Neither is shown to cause the other." in " ".join(page.text.split())


def test_the_table_has_a_caption_and_its_cells_have_headings(page: ReadPage) -> None:
    heads = [e for e in page.named("th") if e.attributes["scope"] == "rowgroup"][-3:]

    assert "Answers at home, and balls on court" in page.named("caption")[-1].text
    assert "court, before" in page.named("thead")[-1].text
    assert [e.text.split()[-1] for e in heads] == [
        "rally-with-air", "short-and-low-lead-in", "wide-go-high",
    ]  # fmt: skip


def test_a_page_without_answers_has_no_such_section(tmp_path: Path) -> None:
    assert TITLE not in page_of("plan", tmp_path).text


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
