"""Files that ship with the package, and files that are written."""

from pathlib import Path

import pytest

from tactics.cli import files


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
