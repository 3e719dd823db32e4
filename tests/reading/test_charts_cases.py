"""Each file in cases/charts and the exact text it earns: its problems and what was read of it."""

from pathlib import Path

import pytest

from tactics.model.ball import Ball, Chart
from tactics.model.standard import STANDARD
from tactics.reading.chart_bytes import decode_chart
from tactics.reading.chart_writing import header, write_row
from tactics.reading.charts import read_chart_bytes
from tactics.report.problems import render_problems
from tactics.report.visible import visible
from tests.golden import Golden

CASES = sorted((Path(__file__).parents[1] / "cases" / "charts").glob("*.csv"))


def told(path: Path) -> str:
    """Return the problems of a chart and its balls, each as the cells that are not empty."""
    data = path.read_bytes()
    read = read_chart_bytes(path.name, data, STANDARD)
    source, _ = decode_chart(path.name, data)
    problems = render_problems(read.problems, [source])
    return "\n".join(filter(None, [problems, *chart_lines(read.value)])) + "\n"


def chart_lines(chart: Chart | None) -> list[str]:
    if chart is None:
        return ["not read"]
    balls = [f"ball from line {ball.span.line}: {ball_text(ball)}" for ball in chart.balls]
    left_out = [
        f"left out from line {row.span.line}: {visible(row.text[:70])}" for row in chart.left_out
    ]
    return [*balls, *left_out]


def ball_text(ball: Ball) -> str:
    cells = zip(header(STANDARD), write_row(ball, STANDARD), strict=True)
    noted = [each for each in (*cells, *ball.more) if each[1] and each != ("disturbed", "no")]
    return " | ".join(f"{name}: {cell[:60]!r}" for name, cell in noted)


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_chart_earns_exactly_this_text(path: Path, golden: Golden) -> None:
    golden(f"charts/{path.stem}.txt", told(path))


def test_there_are_charts_to_read() -> None:
    assert len(CASES) > 30
