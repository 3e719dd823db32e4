"""What the commands about court and flight print fits on a screen of 80 columns."""

import pytest

from tests.golden import CASES

PRINTED = [
    pytest.param(file, id=f"{folder}-{file.stem}")
    for folder in ("advice", "margins", "scatters", "shots", "stands")
    for file in sorted((CASES / folder).glob("*.txt"))
    if "as-json" not in file.stem
]


@pytest.mark.parametrize("file", PRINTED)
def test_no_line_is_wider_than_80_columns(file):
    printed, *_ = file.read_text(encoding="utf-8").partition("--- said beside")

    # what was typed is not in a case, so an answer to it stands behind its prompt
    lines = [line for line in printed.splitlines() if not line.startswith(("$ ", "   > "))]

    assert [line for line in lines if len(line) > 80] == []
