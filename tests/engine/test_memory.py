"""However long an advisor is asked, it does not grow."""

import subprocess
import sys
from pathlib import Path

import pytest

from tactics.engine.durable_engine import load
from tests.engine.memory_growth import RESIDENT

MOST_KIB = 5 * 1024

pytestmark = [
    pytest.mark.skipif(not RESIDENT.exists(), reason="memory is read from /proc, not there here"),
    pytest.mark.skipif(load() is None, reason="durable-rules cannot be imported here"),
]


def grown_kib(task):
    found = subprocess.run(
        [sys.executable, "-m", "tests.engine.memory_growth", task],
        capture_output=True,
        check=True,
        cwd=Path(__file__).parents[2],
        text=True,
    )
    return int(found.stdout)


def test_a_hundred_thousand_questions_to_one_advisor_cost_less_than_5_megabytes():
    assert grown_kib("asking") < MOST_KIB


def test_three_hundred_advisors_opened_and_let_go_cost_less_than_5_megabytes():
    assert grown_kib("opening") < MOST_KIB
