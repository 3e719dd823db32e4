"""Choice against ball, facts worth charting, the coach's own marks, what stands out."""

from tactics.model.ball import Chart, LeftOut
from tactics.model.verdict import Grade, Kept
from tactics.review.highlights import highlights
from tactics.review.open_facts import OpenFact, open_facts
from tactics.review.outcomes import Did, outcome_table
from tactics.review.season_marks import marked_rows
from tactics.source import Span
from tests.review.balls import OPEN, counted, finding, judged


def test_choice_and_ball_are_two_questions() -> None:
    table = outcome_table(
        counted(
            judged(as_intended="yes"),
            judged(as_intended="no"),
            judged(Grade.UNSOUND, as_intended="yes"),
            judged(Grade.UNDECIDED, possible=OPEN, as_intended="unsure"),
        )
    )

    filled = {cell: len(rows) for cell, rows in table.cells.items() if len(rows)}
    assert filled == {
        (Kept.YES, Did.AS_INTENDED): 1,
        (Kept.YES, Did.NOT_AS_INTENDED): 1,
        (Kept.NO, Did.AS_INTENDED): 1,
        (Kept.OPEN, Did.NOT_NOTED): 1,
    }


def test_a_disturbed_ball_is_counted_apart() -> None:
    table = outcome_table(counted(judged(as_intended="no", disturbed="gust"), judged(disturbed="")))

    assert table.disturbed.tolist() == [0]
    assert sum(len(rows) for rows in table.cells.values()) == 1


def test_the_fact_that_decides_most_balls_is_worth_charting_next() -> None:
    waiting = [
        judged(Grade.UNDECIDED, possible=OPEN, missing=("balance", "time")),
        judged(Grade.UNDECIDED, possible=OPEN, missing=("time",)),
        judged(Grade.UNDECIDED, possible=OPEN, missing=("time", "balance")),
        judged(),
    ]

    assert open_facts(waiting) == (
        OpenFact(fact="time", decides=2, matters=3),
        OpenFact(fact="balance", decides=1, matters=2),
    )


def test_marks_are_compared_and_never_merged() -> None:
    ledger = counted(
        judged(Grade.UNSOUND, mark=Grade.SOUND),
        judged(mark=Grade.SOUND),
        judged(mark=Grade.ACCEPTABLE),
        judged(Grade.UNDECIDED, mark=Grade.DOUBTFUL),
        judged(),
    )

    marks = marked_rows(ledger)

    assert (len(marks.same), len(marks.near), len(marks.open), marks.marked) == (1, 1, 1, 4)
    assert marks.apart.tolist() == [0]
    assert ledger.balls[0].mark is Grade.SOUND


def with_left_out(*left_out: int) -> Chart:
    gone = tuple(LeftOut(span=Span(file="c.csv", line=line), text="") for line in left_out)
    return Chart(name="c.csv", balls=(), left_out=gone)


def test_nothing_is_called_best_or_worst_below_ten_balls() -> None:
    broken = judged(Grade.UNSOUND, findings=(finding("pace", Grade.UNSOUND, "slow-down"),))

    found = highlights(counted(*[judged()] * 5, *[broken] * 4), ())

    assert found.strongest is None
    assert found.weakest is None
    assert found.few is not None
    assert found.few.name == "slow-down"


def test_the_weakest_rule_is_the_one_surely_broken_most_not_the_one_with_most_balls() -> None:
    often = judged(Grade.DOUBTFUL, findings=(finding("pace", Grade.DOUBTFUL, "often"),))
    rarely = judged(Grade.DOUBTFUL, findings=(finding("depth", Grade.DOUBTFUL, "rarely"),))
    kept = judged(findings=(finding("depth", Grade.SOUND, "rarely"),))

    found = highlights(counted(*[often] * 10, *[rarely] * 12, *[kept] * 60), ())

    assert found.weakest is not None
    assert found.weakest.name == "often"


def test_the_best_kept_situation_was_kept_more_often_than_not() -> None:
    balls = [judged(Grade.DOUBTFUL)] * 8 + [judged()] * 4

    found = highlights(counted(*balls, chart=with_left_out(9, 10)), ())

    assert found.strongest is None
    assert found.left_out == 2
