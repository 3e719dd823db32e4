"""Charting that is killed in the middle loses no ball that was acknowledged."""

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAID = re.compile(r"60 kills, (\d+) balls acknowledged, 0 lost, 0 damaged\n")


def test_sixty_kills_lose_no_acknowledged_ball(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.charting.killed", str(tmp_path), "60"],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip

    found = SAID.fullmatch(done.stdout)
    assert found is not None, done.stdout
    assert int(found[1]) >= 60
