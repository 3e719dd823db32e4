"""A command as a user runs it, written down as one text."""

from pathlib import Path

import pytest

from tactics.cli.main import safely
from tests.golden import CASES

RULES = CASES / "advice" / "club.yaml"


def as_printed(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    """Return the command, what it printed, what it said beside that, and its exit code."""
    code = safely([argument.replace("CLUB", "../advice/club.yaml") for argument in arguments])
    out, said = capsys.readouterr()
    shown = " ".join(_quoted(argument) for argument in arguments)
    beside = f"--- said beside\n{said}" if said else ""
    return f"$ tactics {shown}\n{out}{beside}--- exit code {int(code)}\n"


def _quoted(argument: str) -> str:
    return f'"{argument}"' if " " in argument else argument


def commands_in(folder: str) -> list[tuple[str, list[str]]]:
    """Return (name, arguments) of every case of a folder: one argument a line."""
    files = sorted((CASES / folder).glob("*.args"))
    return [(file.stem, file.read_text(encoding="utf-8").splitlines()) for file in files]


def folder_of(name: str) -> Path:
    """Return the folder the commands of a kind are run in."""
    return CASES / name
