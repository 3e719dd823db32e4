"""Files that ship with the package, and files that are written."""

import os
from pathlib import Path

import pytest

from tactics.cli import files
from tactics.cli.main import Exit, safely


def test_the_default_rule_set_ships() -> None:
    assert files.find_rules(files.DEFAULT_RULES).is_file()


def test_a_path_comes_before_a_shipped_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "singles-club").write_text("mine", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    assert files.find_rules("singles-club") == Path("singles-club")


def test_a_name_nobody_has_is_kept_so_that_the_message_can_name_it() -> None:
    assert files.find_rules("no-such-rules") == Path("no-such-rules")


def test_a_file_is_written_whole(tmp_path: Path) -> None:
    path = tmp_path / "chart.csv"
    path.write_text("old", encoding="utf-8")

    files.write_atomic(path, b"new")

    assert path.read_bytes() == b"new"
    assert list(tmp_path.iterdir()) == [path]


def test_a_file_that_cannot_be_written_leaves_the_old_one_and_no_draft(tmp_path: Path) -> None:
    path = tmp_path / "chart.csv"
    path.write_bytes(b"old")

    with pytest.raises(TypeError):
        files.write_atomic(path, "not bytes")  # type: ignore[arg-type]  # wrong on purpose

    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_place_below_here_is_shown_short(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)

    assert files.shown(tmp_path / "rules" / "a.yaml") == str(Path("rules") / "a.yaml")
    assert files.shown(Path("/elsewhere/a.yaml")) == str(Path("/elsewhere/a.yaml"))


@pytest.mark.parametrize(
    "command",
    [
        pytest.param(["audit", "--sample", "--html"], id="audit"),
        pytest.param(["plan", "--sample", "--html"], id="plan"),
        pytest.param(["plan", "--sample", "--homework"], id="homework"),
        pytest.param(["page", "player", "--sample", "-o"], id="page"),
        pytest.param(["rules", "-o"], id="rules"),
        pytest.param(["schema", "-o"], id="schema"),
        pytest.param(["new"], id="new"),
        pytest.param(["export", "Wren", "-o"], id="export"),
        pytest.param(["chart"], id="chart"),
        pytest.param(["chart", "--blank"], id="blank"),
        pytest.param(["rate", "lesson.csv", "--ratings"], id="rate"),
        pytest.param(["quiz", "--for", "robin", "--page"], id="quiz-page"),
        pytest.param(["quiz", "--player", "robin", "--export"], id="quiz-export"),
        pytest.param(["shot", "--svg"], id="shot"),
    ],
)
def test_a_missing_folder_is_named_with_the_command_that_makes_it(
    command: list[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)

    code = safely([*command, "no/page.out"])

    printed = capsys.readouterr()
    assert code == Exit.COULD_NOT_RUN
    assert printed.err == 'tactics: there is no folder "no"; to make it: mkdir no\n'
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("written", "said"),
    [
        pytest.param("a/b/p.html", 'there is no folder "a/b"; to make it: mkdir -p a/b', id="deep"),
        pytest.param("my day/p.html", "there is no folder \"my day\"; to make it: mkdir 'my day'",
                     id="with-a-space"),
        pytest.param("file/p.html", '"file" is a file, and a folder is wanted', id="a-file"),
        pytest.param(".", '"." is a folder, and a file is wanted', id="a-folder"),
    ],
)  # fmt: skip
def test_what_stands_in_the_way_of_a_page_is_said(
    written: str,
    said: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("file").touch()

    assert safely(["audit", "--sample", "--html", written]) == Exit.COULD_NOT_RUN

    assert capsys.readouterr().err == f"tactics: {said}\n"


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is forbidden to this user")
def test_a_folder_nobody_may_write_into_is_said_by_the_file_asked_for(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)

    with pytest.raises(PermissionError) as caught:
        files.write_atomic(tmp_path / "page.html", b"new")

    assert caught.value.filename == str(tmp_path / "page.html")
