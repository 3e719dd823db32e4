"""How long a chart of a whole season takes to read."""

import random

from tactics.model.standard import STANDARD
from tactics.model.trait import Kind
from tactics.reading.chart_writing import columns
from tactics.reading.charts import read_chart
from tactics.source import Source

ROWS = 100_000


def season(rng: random.Random) -> str:
    """Return a chart with the quick form filled and one other fact in three."""
    traits = [trait for trait in columns(STANDARD) if trait.quick or rng.random() < 1 / 3]
    lines = [",".join(trait.name for trait in traits)]
    for _ in range(ROWS):
        cells = ("" if trait.kind is Kind.TEXT else _cell(trait, rng) for trait in traits)
        lines.append(",".join(cells))
    return "\n".join(lines)


def _cell(trait, rng: random.Random) -> str:
    if trait.kind is Kind.DATE:
        return f"2026-03-{rng.randint(1, 31):02}"
    if trait.words and rng.random() < 0.8:
        return rng.choice(trait.words).name
    if trait.kind is Kind.NUMBER:
        low, high = max(trait.low, 0.0), min(trait.high, 2.0)
        return f"{rng.uniform(low, max(low, high)):.2f}"
    return ""


def test_a_hundred_thousand_balls_are_read(benchmark) -> None:
    source = Source(name="season.csv", text=season(random.Random(5)))
    read = benchmark.pedantic(read_chart, args=(source, STANDARD), rounds=3)
    assert read.value is not None
    assert len(read.value.balls) == ROWS
