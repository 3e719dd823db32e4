"""An audit as JSON."""

from collections.abc import Sequence

from tactics.model.audit import Audit, JudgedBall
from tactics.model.ball import Ball
from tactics.model.verdict import Kept
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem
from tactics.report.plain_json import (
    FORMAT,
    Json,
    choice_as_json,
    situation_as_json,
    verdict_as_json,
)
from tactics.report.problems import as_dict
from tactics.review.ledger import Heading, Ledger
from tactics.review.open_facts import open_facts
from tactics.review.outcomes import Did, outcome_table
from tactics.review.rates import Rate, Standing
from tactics.review.season_marks import marked_rows


def audit_as_json(
    audit: Audit, ledger: Ledger, words: Vocabulary, problems: Sequence[Problem] = ()
) -> Json:
    """Return a whole audit with the whole verdict of every ball; ledger: the same balls counted.

    Keys: format, rule_set, charts, summary (overall, by_situation, by_part, by_rule, by_cause,
    choice_and_ball, marks, chart_next), balls, not_covered, assumed, left_out, problems.
    A share and its interval are null below ten balls.
    """
    return {
        "format": FORMAT,
        "rule_set": audit.rule_set,
        "charts": [
            {"name": chart.name, "balls": len(chart.balls), "left_out": len(chart.left_out),
             "unknown_columns": list(chart.unknown_columns)}
            for chart in audit.charts
        ],
        "summary": _summary(audit, ledger),
        "balls": [_judged(each, words) for each in audit.judged],
        "not_covered": [_labels(ball) for ball in audit.not_covered],
        "assumed": dict(audit.assumed),
        "left_out": [
            {"file": left.span.file, "line": left.span.line, "text": left.text}
            for chart in audit.charts
            for left in chart.left_out
        ],
        "problems": [as_dict(problem) for problem in problems],
    }  # fmt: skip


def _summary(audit: Audit, ledger: Ledger) -> Json:
    table, marks = outcome_table(ledger), marked_rows(ledger)
    return {
        "overall": _heading(ledger.all()),
        "by_situation": [_heading(each) for each in ledger.by_situation()],
        "by_part": [_heading(each) for each in ledger.by_part()],
        "by_rule": [_heading(each) for each in ledger.by_rule()],
        "by_cause": [
            {"cause": str(cause), "by_coach": len(said), "proposed": len(proposed)}
            for cause, said, proposed in ledger.by_cause()
        ],
        "choice_and_ball": {
            "disturbed": len(table.disturbed),
            **{
                str(kept): {did.value.replace(" ", "_"): table.count(kept, did) for did in Did}
                for kept in Kept
            },
        },
        "marks": {
            "marked": marks.marked,
            "same": len(marks.same),
            "same_side": len(marks.near),
            "apart": len(marks.apart),
            "undecided": len(marks.open),
        },
        "chart_next": [
            {"fact": each.fact, "decides_most_on": each.decides, "matters_on": each.matters}
            for each in open_facts(audit.judged)
        ],
    }


def _heading(each: Heading) -> Json:
    return {
        "name": each.name,
        "kept": len(each.kept),
        "not_kept": len(each.broken),
        "open": len(each.open),
        "lessons": each.lessons,
        "share_kept": _rate(each.kept_rate),
    }


def _rate(rate: Rate) -> Json:
    enough = rate.standing is not Standing.NOT_ENOUGH
    low, high = rate.interval
    return {
        "n": rate.n,
        "standing": str(rate.standing),
        "share": round(rate.share, 4) if enough else None,
        "interval": [round(low, 4), round(high, 4)] if enough else None,
    }


def _judged(each: JudgedBall, words: Vocabulary) -> Json:
    outcome = each.ball.outcome
    return {
        **_labels(each.ball),
        "situation": situation_as_json(each.ball.situation, words),
        "choice": choice_as_json(each.ball.choice, words),
        "verdict": verdict_as_json(each.verdict, words),
        "outcome": {
            "landed": outcome.landed,
            "as_intended": outcome.as_intended,
            "ending": outcome.ending,
            "quality": outcome.quality,
            "point_won": outcome.point_won,
            "disturbed": outcome.disturbed,
        },
        "cause": None if each.cause is None else str(each.cause),
        "cause_is_proposed": each.cause_is_proposed,
        "coach_mark": None if each.ball.mark is None else str(each.ball.mark),
    }


def _labels(ball: Ball) -> Json:
    return {
        "file": ball.span.file,
        "line": ball.span.line,
        "date": ball.date,
        "player": ball.player,
        "lesson": ball.lesson,
        "point": ball.point,
        "ball": ball.ball,
        "note": ball.note,
        "more": dict(ball.more),
    }
