"""A season of a hundred thousand balls as one page."""

import csv
import io
import random
from pathlib import Path

from tactics.cli.main import Exit, safely
from tests.pages_in_browser.written_pages import CHART

BALLS, LETTERS = 100_000, 3_000_000


def season(path: Path) -> None:
    """Write a chart of so many balls over a year, drawn from three charted lessons."""
    rng = random.Random(7)
    rows = list(csv.DictReader(io.StringIO(CHART.read_text(encoding="utf-8"))))
    with path.open("w", encoding="utf-8", newline="") as out:
        writer = csv.DictWriter(out, list(rows[0]))
        writer.writeheader()
        days = (f"2026-{1 + n % 12:02}-{1 + n // 12 % 28:02}" for n in range(BALLS))
        writer.writerows({**rng.choice(rows), "date": day} for day in days)


def test_a_hundred_thousand_balls_become_one_small_page(benchmark, tmp_path: Path) -> None:
    chart, page = tmp_path / "season.csv", tmp_path / "season.html"
    season(chart)

    code = benchmark.pedantic(safely, args=(["audit", str(chart), "--html", str(page)],), rounds=1)

    assert code == Exit.FINE
    assert page.stat().st_size < LETTERS
