"""What a player sees of what is kept: progress, everything as a file, and all of it gone."""

import csv
import io
import json
from datetime import timedelta
from pathlib import Path

import pytest

from tactics.cli.main import safely
from tactics.cli.quiz_copies import kept_page
from tactics.model.scenario import Credit
from tactics.quiz.boxes import Boxes
from tactics.quiz.kept import player_file
from tactics.quiz.store import Store, open_store, players
from tests.cli.printed import RULES
from tests.quiz.answered import answer, on, question, quiz

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return the folder of a player with three answers, one of them with a line for the coach."""
    store = open_store(tmp_path / "players", "Robin", on(0))
    assert isinstance(store, Store)
    with store:
        asked = question("a-rule-of-long-ago")
        store.begin(quiz(asked), on(0))
        for day, credit in ((0, Credit.NONE), (1, None), (2, Credit.FULL)):
            store.save(1, asked, answer(day, credit, rule=asked.rule), Boxes())
        store.disagree(1, '=HYPERLINK("http://x", "y")')
    return store.path.parent


def run(folder: Path, *more: str, player: str = "Robin") -> int:
    return int(safely(["quiz", "--folder", str(folder), "--player", player, *more]))


def test_progress_shows_the_rules_of_the_set(folder: Path, capsys: Capture) -> None:
    code = run(folder, "--progress", "--rules", str(RULES))

    lines = capsys.readouterr().out.splitlines()
    assert code == 0
    assert lines[0].startswith("The rules and Robin, ")
    assert "1 rule met before is not in" in " ".join(lines)
    assert max(map(len, lines)) <= 80


def test_progress_as_data(folder: Path, capsys: Capture) -> None:
    code = run(folder, "--progress", "--json", "--rules", str(RULES))

    data = json.loads(capsys.readouterr().out)
    assert code == 0
    assert data["nickname"] == "Robin"
    assert {rule["standing"] for rule in data["rules"]} == {"not met yet"}


def test_an_export_holds_everything(folder: Path, capsys: Capture) -> None:
    code = run(folder, "--export")

    held = json.loads(capsys.readouterr().out)
    assert code == 0
    assert held["player"][0]["nickname"] == "Robin"
    assert [row["credit"] for row in held["answer"]] == ["none", None, "full"]
    assert held["answer"][0]["scenario"]["prompt"] == "Which shot would you play?"
    assert len(held["memory"]) == 1


def test_an_export_for_a_spreadsheet_holds_no_formula(
    folder: Path, tmp_path: Path, capsys: Capture
) -> None:
    target = tmp_path / "robin.csv"

    code = run(folder, "--export", str(target))

    rows = list(csv.DictReader(io.StringIO(target.read_text(encoding="utf-8"))))
    assert code == 0
    assert f"wrote {target}" in capsys.readouterr().err
    assert rows[2]["disagrees"] == '\'=HYPERLINK("http://x", "y")'
    assert [row["picked answer"] for row in rows] == ["Finish, straight", "", "Build, crosscourt"]
    assert not any(cell[:1] in ("=", "+", "-", "@") for row in rows for cell in row.values())


def test_erasing_asks_once_and_says_what_it_cannot_reach(
    folder: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("no\n"))
    refused = run(folder, "--erase")
    kept = players(folder)
    monkeypatch.setattr("sys.stdin", io.StringIO("yes\n"))
    code = run(folder, "--erase")

    out = capsys.readouterr().out
    assert (refused, kept, code) == (0, ("Robin",), 0)
    assert out.count("Type yes:") == 2
    assert "Nothing was erased." in out
    assert out.endswith(
        'Erase every answer kept of "Robin" on this computer? Type yes: '
        'Everything kept of "Robin" is erased.\n'
        "What it cannot reach: files you exported, copies and backups, and results already "
        "handed on.\n"
    )
    assert list(folder.iterdir()) == []


def test_erasing_without_an_answer_erases_nothing(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(""))

    assert run(folder, "--erase") == 0
    assert players(folder) == ("Robin",)


def test_erasing_that_is_meant_does_not_ask(folder: Path) -> None:
    assert run(folder, "--erase", "--yes") == 0
    assert players(folder) == ()


def test_erasing_takes_the_copies_of_pages_along(folder: Path, tmp_path: Path) -> None:
    wish = ["quiz", "low-balls", "--count", "1", "--folder", str(folder)]
    for whose in ("robin", "Kim", ""):
        page = ["--page", str(tmp_path / "page.html"), *(("--for", whose) if whose else ())]
        assert safely([*wish, *page]) == 0

    code = run(folder, "--erase", "--yes")
    left = [kept_page(folder, path.stem) for path in (folder / "pages").iterdir()]

    assert code == 0
    assert sorted(each.nickname for each in left if each is not None) == ["", "Kim"]
    assert run(folder, "--erase", "--yes", player="kim") == 0
    assert len(list((folder / "pages").iterdir())) == 1


@pytest.mark.parametrize("wish", ["--progress", "--export", "--erase"])
def test_nothing_is_kept_of_a_stranger_and_nothing_is_made(
    folder: Path, capsys: Capture, wish: str
) -> None:
    code = run(folder, wish, player="../Nobody")

    assert code == 0
    assert 'Nothing is kept of "../Nobody" on this computer.' in capsys.readouterr().out
    assert players(folder) == ("Robin",)


@pytest.mark.parametrize("wish", ["--progress", "--export", "--erase"])
def test_a_nickname_that_cannot_be_is_said(folder: Path, capsys: Capture, wish: str) -> None:
    code = run(folder, wish, player="x" * 5000)

    said = capsys.readouterr()
    assert (code, said.out) == (2, "")
    assert said.err.splitlines()[0] == (
        "tactics: The nickname has 5000 characters; 24 are the most."
    )


@pytest.mark.parametrize("wish", ["--progress", "--export"])
def test_a_damaged_file_is_a_sentence_and_no_traceback(
    folder: Path, capsys: Capture, wish: str
) -> None:
    path = player_file(folder, "Robin")
    path.write_bytes(b"x" * 5000)

    code = run(folder, wish)

    assert code == 2
    assert f'tactics: The file "{path}" is damaged' in capsys.readouterr().err


def test_without_a_nickname_the_only_player_is_meant(folder: Path, capsys: Capture) -> None:
    code = safely(["quiz", "--folder", str(folder), "--export"])

    assert code == 0
    assert json.loads(capsys.readouterr().out)["player"][0]["nickname"] == "Robin"


def test_of_two_players_one_has_to_be_named(folder: Path, capsys: Capture) -> None:
    other = open_store(folder, "Kim", on(0) + timedelta(days=1))
    assert isinstance(other, Store)
    other.close()

    code = safely(["quiz", "--folder", str(folder), "--progress"])

    assert code == 2
    assert capsys.readouterr().err == "tactics: say who you are with --player: Kim, Robin\n"
