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
from tactics.review.marks import compare_marks
from tactics.review.open_facts import open_facts
from tactics.review.outcomes import Did, outcome_table
from tactics.review.rates import Rate, Standing
from tactics.review.tallies import Tally, by_cause, by_part, by_rule, by_situation, overall


def audit_as_json(audit: Audit, words: Vocabulary, problems: Sequence[Problem] = ()) -> Json:
    """Return a whole audit.

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
        "summary": _summary(audit),
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


def _summary(audit: Audit) -> Json:
    judged = audit.judged
    table, marks = outcome_table(judged), compare_marks(judged)
    return {
        "overall": _tally(overall(judged)),
        "by_situation": [_tally(tally) for tally in by_situation(judged)],
        "by_part": [_tally(tally) for tally in by_part(judged)],
        "by_rule": [_tally(tally) for tally in by_rule(judged)],
        "by_cause": [
            {"cause": str(each.cause), "by_coach": each.by_coach, "proposed": each.proposed}
            for each in by_cause(judged)
        ],
        "choice_and_ball": {
            "disturbed": table.disturbed,
            **{
                str(kept): {did.value.replace(" ", "_"): table.count(kept, did) for did in Did}
                for kept in Kept
            },
        },
        "marks": {
            "marked": marks.marked,
            "same": marks.same,
            "same_side": marks.near,
            "apart": len(marks.apart),
            "undecided": marks.open,
        },
        "chart_next": [
            {"fact": each.fact, "decides_most_on": each.decides, "matters_on": each.matters}
            for each in open_facts(judged)
        ],
    }


def _tally(tally: Tally) -> Json:
    return {
        "name": tally.name,
        "kept": tally.kept,
        "not_kept": tally.broken,
        "open": tally.open,
        "lessons": tally.lessons,
        "share_kept": _rate(tally.kept_rate),
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
