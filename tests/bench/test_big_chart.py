"""A season of a hundred thousand balls that all differ, from the file to the report.

`-s` prints what each command took and how large its answer is. The limits are generous for a slow
machine; what has to hold is that a page is there within 20 seconds and below 3 MB.
"""

import csv
import random
import subprocess
import sys
from pathlib import Path
from time import perf_counter

import pytest

from tactics.model.ball import Ball
from tactics.model.choice import Outcome
from tactics.model.standard import STANDARD
from tactics.reading.chart_writing import header, write_row
from tactics.source import Span
from tests.bench.lesson_balls import lesson_balls

BALLS, MOST_S, MOST_BYTES = 100_000, 20, 3_000_000


@pytest.fixture(scope="module")
def chart(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a chart in which one ball in twelve is marked and half the facts are missing."""
    rng = random.Random(9)
    path = tmp_path_factory.mktemp("season") / "season.csv"
    situations, choices = lesson_balls(STANDARD, BALLS)
    with path.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out)
        writer.writerow(header(STANDARD))
        for row, (situation, choice) in enumerate(zip(situations, choices, strict=True)):
            ball = Ball(
                situation=situation,
                choice=choice,
                outcome=Outcome(
                    as_intended=rng.choice(("yes", "no")), point_won=rng.choice(("yes", "no"))
                ),
                date=f"2026-{1 + row // 9_000:02}-{1 + row // 300 % 28:02}",
                player="Wren",
                note="a note" if rng.random() < 0.1 else "",
                span=Span(file="season.csv", line=2 + row),
            )
            writer.writerow(write_row(ball, STANDARD))
    return path


def audited(chart: Path, *options: str) -> tuple[float, str]:
    """Return the seconds a whole command took, program start and reading included, and its text."""
    began = perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "tactics", "audit", str(chart), *options],
        capture_output=True, text=True, check=True, encoding="utf-8",
    )  # fmt: skip
    return perf_counter() - began, done.stdout


def test_a_page(benchmark, chart: Path, tmp_path: Path) -> None:
    page = tmp_path / "page.html"

    seconds, _ = benchmark.pedantic(audited, args=(chart, "--html", str(page)), rounds=1)

    size = page.stat().st_size
    print(f"\npage: {seconds:.1f} s, {size / 1e6:.2f} MB from {chart.stat().st_size / 1e6:.0f} MB")
    assert seconds < MOST_S
    assert size < MOST_BYTES


def test_a_text(benchmark, chart: Path) -> None:
    seconds, text = benchmark.pedantic(audited, args=(chart,), rounds=1)

    print(f"\ntext: {seconds:.1f} s, {len(text.splitlines())} lines")
    assert f"{BALLS} in" in text
    assert seconds < MOST_S
