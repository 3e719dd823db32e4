"""Whole commands against the exact text they print (tests/cases/*/NAME.args and NAME.txt)."""

import pytest

from tests.cli.printed import as_printed, commands_in, folder_of
from tests.golden import Golden

FOLDERS = (
    "advice", "audits", "check", "explain", "margins", "plans", "scatters", "shots", "stands",
)  # fmt: skip
COMMANDS = [
    pytest.param(folder, name, arguments, id=f"{folder}-{name}")
    for folder in FOLDERS
    for name, arguments in commands_in(folder)
]


@pytest.mark.parametrize(("folder", "name", "arguments"), COMMANDS)
def test_a_command_prints_exactly_this(
    folder: str,
    name: str,
    arguments: list[str],
    golden: Golden,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(folder_of(folder))

    printed = as_printed(arguments, capsys)

    golden(f"{folder}/{name}.txt", printed)
