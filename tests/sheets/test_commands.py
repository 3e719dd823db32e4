"""Every command that takes a chart takes it as csv, xlsx and ods, with own headings too."""

import csv
from pathlib import Path

import pytest

from tactics.cli.files import SAMPLE_CHART
from tactics.cli.main import Exit, safely
from tests.golden import CASES
from tests.sheets.books import ods, ods_row, ods_text, xlsx

RULES = str(CASES / "advice" / "club.yaml")
ROWS = list(csv.reader(SAMPLE_CHART.read_text("utf-8").splitlines()))[:40]
OWN = [["name" if cell == "player" else cell for cell in ROWS[0]], *ROWS[1:]]
MAP = "columns:\n  name: player\n"


def as_ods(rows: list[list[str]]) -> bytes:
    return ods("".join(
        ods_row(*(ods_text(cell) if cell else "<table:table-cell/>" for cell in row))
        for row in rows))  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("charts")
    for name, rows in (("chart", ROWS), ("own", OWN)):
        with (path / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(rows)
        (path / f"{name}.xlsx").write_bytes(xlsx(balls=rows))
        (path / f"{name}.ods").write_bytes(as_ods(rows))
    (path / "columns.yaml").write_text(MAP, "utf-8")
    return path


COMMANDS = {
    "audit": ["audit", "CHART", "--rules", RULES, "--player", "Wren"],
    "plan": ["plan", "CHART", "--rules", RULES, "--player", "Wren"],
    "page": ["page", "player", "CHART", "--rules", RULES, "-o", "page.html"],
    "compare": ["compare", RULES, RULES, "CHART"],
    "rate": ["rate", "CHART", "--rules", RULES, "--ratings", "r.csv", "--report"],
    "forget": ["forget", "Nobody", "CHART", "--folder", "quiz"],
}


def printed(
    command: str, name: str, capsys: pytest.CaptureFixture[str], *more: str
) -> tuple[int, str]:
    code = safely([*(name if word == "CHART" else word for word in COMMANDS[command]), *more])
    return code, capsys.readouterr().out.replace(name, "CHART")


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_says_the_same_of_the_same_chart_in_every_kind_of_file(
    command: str, folder: Path, capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder)
    text = printed(command, "chart.csv", capsys)

    assert text[0] != Exit.COULD_NOT_RUN
    assert printed(command, "chart.xlsx", capsys) == text
    assert printed(command, "chart.ods", capsys) == text
    own = printed(command, "own.xlsx", capsys, "--columns", "columns.yaml")
    assert own == text


@pytest.mark.parametrize("command", ["audit", "plan", "compare", "rate", "forget"])
def test_a_map_with_a_mistake_stops_the_command_with_its_place(
    command: str, folder: Path, capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder)
    (folder / "wrong.yaml").write_text("columns:\n  name: playr\n", "utf-8")

    code, _ = printed(command, "own.csv", capsys, "--columns", "wrong.yaml")

    assert code == Exit.COULD_NOT_RUN


def test_audit_proposes_a_map_for_headings_that_are_close(
    folder: Path, capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder)
    rows = [["Shot intent" if c == "intent" else "name of player" if c == "player" else c
             for c in ROWS[0]], *ROWS[1:]]  # fmt: skip
    (folder / "close.xlsx").write_bytes(xlsx(balls=rows))

    safely(["audit", "close.xlsx", "--rules", RULES])
    said = capsys.readouterr().err

    assert "columns:\n" in said
    assert "name of player: player\n" in said
    assert "Shot intent: intent\n" in said
