"""Quiz and court side by side: which balls count before and since, and which rules count at all."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from tactics.cli import files
from tactics.engine.compile import compile_rules
from tactics.model.progress import Practised
from tactics.reading.charts import read_chart
from tactics.report.layout import text_of
from tactics.report.side_by_side import side_by_side_section
from tactics.report.side_by_side_json import side_by_side_as_json
from tactics.review.ledger import Ledger
from tactics.review.seasons import season
from tactics.review.side_by_side import side_by_side
from tactics.source import Source
from tests.quiz.written_quizzes import advisor

RULE = "short-and-low-lead-in"


@pytest.fixture(scope="module")
def ledger() -> Ledger:
    text = files.SAMPLE_CHART.read_text(encoding="utf-8")
    chart = read_chart(Source(name="chart.csv", text=text), advisor().vocabulary).value
    assert chart is not None
    return season([chart], compile_rules(advisor().rules))


def asked(day: date, *, answered: int = 4) -> Practised:
    return Practised(first_day=day, answered=answered, full=min(3, answered))


def days(ledger: Ledger) -> list[date]:
    return sorted({date.fromisoformat(ball.date) for ball in ledger.balls if ball.date})


def test_the_first_day_itself_counts_as_since(ledger: Ledger) -> None:
    (first, *_) = days(ledger)
    (on_it,) = side_by_side(ledger, advisor().rules, {RULE: asked(first)}).rules
    assert (on_it.before.n, on_it.since.n) == (0, 10)
    (after,) = side_by_side(
        ledger, advisor().rules, {RULE: asked(days(ledger)[-1] + timedelta(days=1))}
    ).rules
    assert (after.before.n, after.since.n) == (10, 0)
    assert after.before.count == on_it.since.count == 2


def test_a_rule_first_asked_after_the_last_ball_counts_as_not_asked_yet(ledger: Ledger) -> None:
    late = days(ledger)[-1] + timedelta(days=1)
    found = side_by_side(ledger, advisor().rules, {RULE: asked(late)})
    assert found.change.asked.rules == 0
    assert found.change.moved is None
    told = text_of([side_by_side_section(found, advisor().rules)])
    assert "rules asked: none met both before and since" in told


def test_a_rule_that_was_shown_and_left_open_is_in_neither_group(ledger: Ledger) -> None:
    middle = days(ledger)[1]
    whole = side_by_side(ledger, advisor().rules, {RULE: asked(middle)})
    less = side_by_side(
        ledger,
        advisor().rules,
        {RULE: asked(middle), "rally-with-air": asked(middle, answered=0)},
    )
    assert less.change.asked == whole.change.asked
    assert less.change.not_yet.rules == whole.change.not_yet.rules - 1


def test_what_was_never_answered_or_never_met_is_not_shown(ledger: Ledger) -> None:
    quiz = {RULE: asked(days(ledger)[0], answered=0), "no-such-rule": asked(days(ledger)[0])}
    found = side_by_side(ledger, advisor().rules, quiz)
    assert found.rules == ()
    assert side_by_side_section(found, advisor().rules).lines == ()


def test_ten_rules_are_shown_and_the_rest_counted(ledger: Ledger) -> None:
    quiz = {rule: asked(days(ledger)[0]) for rule in ledger.rules}
    found = side_by_side(ledger, advisor().rules, quiz)
    met = [each.met for each in found.rules]
    assert met == sorted(met, reverse=True)
    lines = side_by_side_section(found, advisor().rules).lines
    assert f"  and {len(met) - 10} more" in lines
    assert sum(line.startswith("    quiz ") for line in lines) == 10


def test_balls_without_a_date_are_left_out_and_counted(ledger: Ledger) -> None:
    undated = replace(ledger, balls=tuple(replace(ball, date="") for ball in ledger.balls))
    found = side_by_side(undated, advisor().rules, {RULE: asked(days(ledger)[0])})
    assert (found.rules, found.undated) == ((), len(ledger.balls))


def test_no_share_below_ten_balls(ledger: Ledger) -> None:
    found = side_by_side(ledger, advisor().rules, {"wide-go-high": asked(days(ledger)[0])})
    told = side_by_side_as_json(found)
    rules = told["rules"]
    assert isinstance(rules, list)
    (rule,) = rules
    assert rule["court since"] == {"kept": 2, "n": 9, "share": None, "interval": None}
    assert "Neither is shown to cause the other" in str(told["note"])
