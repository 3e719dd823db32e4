"""The house rules: format, lint, types and layers. Prints the longest modules; judges none."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
BIN = Path(sys.executable).parent

pytestmark = pytest.mark.house


@pytest.mark.parametrize(
    "command",
    [
        ("ruff", "format", "--check", "--quiet", "."),
        ("ruff", "check", "--quiet", "."),
        ("mypy",),
        ("lint-imports",),
    ],
    ids=lambda command: " ".join(command[:2]),
)
def test_the_house_rules_hold(command: tuple[str, ...]) -> None:
    program = str(BIN / command[0])

    done = subprocess.run(
        [program, *command[1:]], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert done.returncode == 0, f"{done.stdout}\n{done.stderr}"


def test_the_longest_modules_are_shown(capsys: pytest.CaptureFixture[str]) -> None:
    lengths = sorted(
        ((len(path.read_text("utf-8").splitlines()), path) for path in _modules()), reverse=True
    )

    with capsys.disabled():
        print()
        for length, path in lengths[:5]:
            print(f"  {length:4} lines  {path.relative_to(ROOT)}")

    assert lengths


def _modules() -> list[Path]:
    return list((ROOT / "tactics").rglob("*.py"))
