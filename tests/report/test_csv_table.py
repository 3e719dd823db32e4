"""The audit as a table."""

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from tactics.engine.audit import audit
from tactics.engine.compile import compile_rules
from tactics.model.ball import Ball, Chart
from tactics.model.choice import Choice
from tactics.model.rule import RuleSet
from tactics.model.situation import in_words
from tactics.model.standard import STANDARD
from tactics.report.csv_table import audit_as_csv
from tactics.source import Span
from tests.strategies import charts

HERE = Span(file="chart.csv", line=1)
NO_RULES = compile_rules(
    RuleSet(
        name="none",
        precedence=(),
        applies_to=(("format", STANDARD.trait("format").value_of("singles")),),  # type: ignore[arg-type]
        vocabulary=STANDARD,
        span=HERE,
    )
)


def rows_of(chart: Chart) -> list[list[str]]:
    """Return the rows a spreadsheet program would see."""
    return list(csv.reader(io.StringIO(audit_as_csv(audit([chart], NO_RULES), STANDARD))))


@given(charts())
def test_every_ball_is_a_row_as_wide_as_the_header(chart: Chart) -> None:
    header, *rows = rows_of(chart)

    assert len(rows) == len(chart.balls)
    assert {len(row) for row in rows} <= {len(header)}


@given(st.text(max_size=20), st.sampled_from(["=", "+", "-", "@", "\t=", " \n=", "'="]))
def test_no_cell_is_a_formula(text: str, start: str) -> None:
    ball = Ball(
        situation=in_words(balance="set"),
        choice=Choice(),
        note=start + text,
        player=start + text,
        span=HERE,
    )

    _, row = rows_of(Chart(name="chart.csv", balls=(ball,)))

    assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r", "\n")) for cell in row)


def test_a_ball_of_another_format_is_listed_as_not_covered() -> None:
    ball = Ball(situation=in_words(format="doubles"), choice=Choice(), span=HERE)

    header, row = rows_of(Chart(name="chart.csv", balls=(ball,)))

    assert dict(zip(header, row, strict=True))["grade"] == "not covered"
