"""`tactics rules`: the form follows the ending of the file, and a broken set shows its problems."""

from pathlib import Path

import pytest

from tactics.cli.main import Exit, safely
from tests.golden import CASES

CLUB = (CASES / "rule_pages" / "club.yaml").read_text("utf-8")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "club.yaml").write_text(CLUB, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize(
    ("file", "more", "beginning"),
    [
        ("hand-out.html", [], "<!DOCTYPE html>"),
        ("hand-out.MD", [], "# Small club"),
        ("hand-out.txt", [], "Small club <set>\n"),
        ("hand-out.txt", ["--format", "html"], "<!DOCTYPE html>"),
    ],
    ids=["html", "markdown", "text", "as asked"],
)
def test_the_form_follows_the_ending_unless_it_is_named(
    folder: Path, file: str, more: list[str], beginning: str
) -> None:
    code = safely(["rules", "club.yaml", "-o", file, *more])

    assert code == Exit.FINE
    assert (folder / file).read_text("utf-8").startswith(beginning)


def test_without_a_file_the_page_comes_to_the_screen(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = safely(["rules", "club.yaml", "--ascii"])

    said = capsys.readouterr()
    assert code == Exit.FINE
    assert said.err == ""
    assert said.out.isascii()
    assert "Pulled wide, lift it high & crosscourt [wide-go-high]" in said.out


@pytest.mark.usefixtures("folder")
def test_shipped_sets_can_be_named(capsys: pytest.CaptureFixture[str]) -> None:
    code = safely(["rules", "singles-club", "--format", "markdown"])

    assert code == Exit.FINE
    assert capsys.readouterr().out.startswith("# Singles, club level\n")


def test_a_set_with_a_mistake_is_not_made_into_a_page(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "club.yaml").write_text(CLUB.replace("strength: may", "strength: maybe"), "utf-8")

    code = safely(["rules", "club.yaml", "-o", "page.html"])

    assert code == Exit.COULD_NOT_RUN
    assert "[unknown-word]" in capsys.readouterr().err
    assert not (folder / "page.html").exists()
