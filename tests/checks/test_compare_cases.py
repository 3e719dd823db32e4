"""`tactics compare` against the exact text it prints (tests/cases/compare/NAME.args and .txt)."""

import pytest

from tests.cli.printed import as_printed, commands_in, folder_of
from tests.golden import Golden

COMMANDS = [pytest.param(name, arguments, id=name) for name, arguments in commands_in("compare")]


@pytest.mark.parametrize(("name", "arguments"), COMMANDS)
def test_a_comparison_prints_exactly_this(
    name: str,
    arguments: list[str],
    golden: Golden,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(folder_of("compare"))

    golden(f"compare/{name}.txt", as_printed(arguments, capsys))
