"""Laws of the chart reader: it never raises, loses nothing, and reads back what was written."""

import csv
import io

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tactics.model.ball import Ball, Chart
from tactics.model.standard import STANDARD
from tactics.model.trait import Role
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Reading, Severity
from tactics.reading.chart_bytes import decode_chart
from tactics.reading.chart_csv import SEPARATORS
from tactics.reading.chart_writing import guard_text, header, unguard_text, write_known, write_row
from tactics.reading.charts import read_chart, read_chart_bytes
from tactics.source import Source
from tests.strategies import balls, charts, known_values, texts, vocabularies

slow = settings(suppress_health_check=[HealthCheck.too_slow])

NAMES = [*header(STANDARD), "rival's shoes", "", "Balance", "contact height (cm)"]
GOOD_CELLS = [word.name for trait in STANDARD.traits for word in trait.words]
CELLS = st.one_of(
    st.sampled_from(
        [*GOOD_CELLS, "", "", "?", "n/a", "3 ft", "1,2", "1 to 1.4 m", "=1+1", "set / no"]
    ),
    texts(8),
)
SNIPPETS = st.sampled_from(
    ['"', '""', ",", ";", "\t", "\n", "\r\n", "\r", "\0", " ", "sep=;\n", "intent", "set",
     "build", "1,2", "at least", "/", " or ", "\N{LINE SEPARATOR}", "\x1c", "\ufeff", "é", "=", "-",
     "game situation,intent,balance\n", "9" * 400, "ft"]
)  # fmt: skip


def csv_text(rows, separator=",") -> str:
    out = io.StringIO()
    csv.writer(out, delimiter=separator).writerows(rows)
    return out.getvalue()


def assert_inside(problem: Problem, source: Source) -> None:
    for span in (problem.span, *(also.span for also in problem.also)):
        assert span.file == source.name
        assert 1 <= span.line <= max(1, len(source.lines))
        length = len(source.line(span.line))
        assert 1 <= span.column <= length + 1
        assert 1 <= span.width <= max(1, length - span.column + 1)


def rows_with_something(text: str, separator: str) -> int:
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    return sum(any(cell.strip() for cell in row) for row in rows)


def everything_named(read: Reading[Chart], source: Source) -> None:
    """Rows left out, and only they, have an error of their own."""
    assert read.value is not None
    errors = [each for each in read.problems if each.severity is Severity.ERROR]
    for row in read.value.left_out:
        last = row.span.line + len(row.text.splitlines()) - 1
        assert any(row.span.line <= each.span.line <= last for each in errors)


@given(
    st.binary(max_size=300)
    | st.lists(SNIPPETS, max_size=60).map(lambda some: "".join(some).encode())
)
def test_no_bytes_make_the_reader_raise_or_point_outside_the_file(data: bytes) -> None:
    read = read_chart_bytes("chart.csv", data, STANDARD)
    source, _ = decode_chart("chart.csv", data)
    for problem in read.problems:
        assert_inside(problem, source)
    assert read.value is not None or read.problems


@given(st.lists(SNIPPETS, max_size=60).map("".join))
def test_below_a_known_header_every_row_left_out_has_its_error(text: str) -> None:
    source = Source(name="chart.csv", text="game situation,intent,balance,note\n" + text)
    read = read_chart(source, STANDARD)
    everything_named(read, source)
    for problem in read.problems:
        assert_inside(problem, source)


@given(
    st.lists(st.sampled_from(NAMES), min_size=1, max_size=8),
    st.lists(st.lists(CELLS, max_size=9), max_size=8),
    st.sampled_from(SEPARATORS),
)
def test_every_row_that_is_not_blank_is_a_ball_or_left_out(names, rows, separator: str) -> None:
    text = csv_text([["intent", *names], *rows], separator)
    source = Source(name="chart.csv", text=f"sep={separator}\n{text}")
    read = read_chart(source, STANDARD)
    everything_named(read, source)
    assert read.value is not None
    count = len(read.value.balls) + len(read.value.left_out)
    assert count == rows_with_something(text, separator) - 1


def written(chart: Chart, words: Vocabulary, separator: str) -> str:
    return csv_text([header(words), *(write_row(ball, words) for ball in chart.balls)], separator)


@slow
@given(st.data())
def test_a_chart_that_was_written_reads_back_as_the_same_balls(data: st.DataObject) -> None:
    words = data.draw(vocabularies())
    chart = data.draw(charts(words, min_size=1, max_size=3))
    text = written(chart, words, data.draw(st.sampled_from(SEPARATORS)))
    read = read_chart(Source(name="chart.csv", text=text), words)
    assert [each.sentence for each in read.problems if each.severity is Severity.ERROR] == []
    assert read.value is not None
    assert read.value.balls == chart.balls


@given(st.sampled_from(SEPARATORS), balls(), st.randoms(use_true_random=False))
@slow
def test_the_order_of_the_columns_does_not_matter(separator: str, ball: Ball, rng) -> None:
    cells = list(zip(header(STANDARD), write_row(ball, STANDARD), strict=True))
    rng.shuffle(cells)
    names, values = zip(*cells, strict=True)
    read = read_chart(Source(name="c", text=csv_text([names, values], separator)), STANDARD)
    assert read.value is not None
    assert read.value.balls == (ball,)


@slow
@given(balls())
def test_a_chart_reads_the_same_in_every_encoding(ball: Ball) -> None:
    text = csv_text([header(STANDARD), write_row(ball, STANDARD)])
    readings = [
        read_chart_bytes("c", text.encode(encoding), STANDARD)
        for encoding in ("utf-8", "utf-8-sig", "utf-16")
    ]
    assert all(each == readings[0] for each in readings)


@given(st.data())
def test_what_is_known_can_be_written_and_read_back(data: st.DataObject) -> None:
    judged = [*STANDARD.facts, *STANDARD.parts]
    trait = data.draw(st.sampled_from(judged))
    value = data.draw(known_values(trait))
    text = csv_text([[trait.name], [write_known(value, trait)]])
    read = read_chart(Source(name="c", text=text), STANDARD)
    assert read.value is not None
    (ball,) = read.value.balls
    noted = ball.situation if trait.role is Role.FACT else ball.choice
    assert noted.get(trait.folded) == value


@given(texts())
def test_a_guarded_text_is_no_formula_and_comes_back_as_it_was(text: str) -> None:
    assert not guard_text(text).startswith(("=", "+", "-", "@"))
    assert unguard_text(guard_text(text)) == text
