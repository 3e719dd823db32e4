"""A hundred players killed in the middle of a quiz lose no answer that was acknowledged."""

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAID = re.compile(r"100 kills, (\d+) answers acknowledged, 0 lost, 0 of 20 damaged\n")


def test_a_hundred_kills_lose_no_acknowledged_answer(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.quiz.killed", str(tmp_path), "100"],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip

    found = SAID.fullmatch(done.stdout)
    assert found is not None, done.stdout
    assert int(found[1]) >= 100
