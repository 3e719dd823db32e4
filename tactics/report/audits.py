"""An audit for the terminal: what stands out, the tables, then the balls."""

from collections.abc import Iterable, Sequence

import numpy as np

from tactics.engine.advisor import Advisor
from tactics.model.audit import JudgedBall
from tactics.model.ball import Ball
from tactics.model.known import word
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import Grade
from tactics.problem import Problem
from tactics.report.audit_balls import Style, background_of, ball_lines, place_words, short_ball
from tactics.report.audit_highlights import highlight_lines
from tactics.report.audit_tables import (
    cause_lines,
    grade_lines,
    heading_lines,
    outcome_lines,
    rule_lines,
)
from tactics.report.audit_undecided import next_fact_lines, undecided_lines
from tactics.report.layout import Section, bullet, counted, definitions, wrapped
from tactics.report.mix import mix_section
from tactics.report.places import place_section
from tactics.report.reviews import priority_section, trend_section
from tactics.report.sentences import facts_words
from tactics.report.serves import serve_section
from tactics.report.verdicts import find_rule
from tactics.review.highlights import highlights
from tactics.review.ledger import GRADE_CODES, Ledger, Rows
from tactics.review.mix import review_mixes
from tactics.review.places import places
from tactics.review.priorities import priorities
from tactics.review.season_marks import MarkedRows, marked_rows
from tactics.review.serves import serves
from tactics.review.shown import judged_rows
from tactics.review.tallies import session_of
from tactics.review.trend import trend

CAUTION = (
    "Graded from situation and choice alone: how the ball came out changed no grade. Intervals "
    "are 95 % (Wilson) and take balls as independent, which balls of one lesson are not quite. "
    "This supports a qualified coach, who decides; it compares nobody with anybody and says "
    "nothing about talent or selection."
)
_MARKS_SHOWN = 20
_BAD_SHOWN = 60
_OPEN_LOOKED_AT = 300
_OPEN_SHOWN = 40
_PLACES_SHOWN = 40


def audit_sections(
    ledger: Ledger,
    advisor: Advisor,
    problems: Sequence[Problem] = (),
    *,
    details: bool = False,
    since: str = "",
) -> tuple[Section, ...]:
    """Return the whole report; `details` shows every ball with every finding.

    since: ISO day from which balls are compared with those before; "" halves the lessons. Every
    number counts all balls; of many balls the first are listed, and the report says so.
    """
    rules, balls = advisor.rules, _all_balls(ledger)
    open_rows = _graded(ledger, Grade.UNDECIDED)
    waiting = _judged(ledger, advisor, open_rows if details else open_rows[:_OPEN_LOOKED_AT])
    listed = waiting if details else waiting[:_OPEN_SHOWN]
    marks = marked_rows(ledger)
    found = highlights(ledger, waiting)
    return (
        Section(title=f"Audit: {ledger.rule_set}", lines=_opening(ledger, rules)),
        Section(title="What stands out", lines=highlight_lines(found, rules)),
        priority_section(priorities(ledger, rules), ledger, rules),
        trend_section(trend(ledger, since), rules),
        Section(title="Grades", lines=grade_lines(ledger)),
        Section(title="By game situation", lines=heading_lines(ledger.by_situation())),
        Section(title="By part of the choice", lines=heading_lines(ledger.by_part())),
        Section(title="By rule", lines=rule_lines(ledger.by_rule())),
        mix_section(review_mixes(rules, balls), rules.vocabulary),
        serve_section(serves(balls)),
        place_section(places(rules, balls)),
        Section(title="Choice and ball", lines=outcome_lines(ledger)),
        Section(title="By cause of a bad ball", lines=cause_lines(ledger)),
        Section(title="Your own marks", lines=_mark_lines(ledger, advisor, marks)),
        _every_ball(ledger, advisor) if details else _against(ledger, advisor),
        Section(title="Undecided balls", lines=_undecided(ledger, waiting, listed, len(open_rows))),
        Section(title="Not covered by these rules", lines=_not_covered_lines(ledger)),
        Section(title="Taken as given", lines=_assumed_lines(ledger)),
        Section(title="Rows left out", lines=_left_out_lines(ledger, problems)),
        Section(title="Remarks on the charts", lines=_remark_lines(ledger, problems)),
        Section(title="", lines=wrapped(CAUTION)),
    )


def _all_balls(ledger: Ledger) -> list[Ball]:
    return [ball for chart in ledger.charts for ball in chart.balls]


def _names_files(ledger: Ledger) -> bool:
    return len(ledger.charts) > 1


def _graded(ledger: Ledger, *grades: Grade) -> Rows:
    """Return the balls of these grades, one grade after the other."""
    codes = [GRADE_CODES.index(grade) for grade in grades]
    return np.concatenate([np.flatnonzero(ledger.grade == code) for code in codes])


def _judged(ledger: Ledger, advisor: Advisor, rows: Iterable[int]) -> list[JudgedBall]:
    return [each for _, each in judged_rows(ledger, advisor, rows)]


def _opening(ledger: Ledger, rules: RuleSet) -> tuple[str, ...]:
    balls = _all_balls(ledger)
    players = sorted({ball.player for ball in balls if ball.player})
    sessions = len({session_of(ball) for ball in balls})
    left_out = sum(len(chart.left_out) for chart in ledger.charts)
    pairs = [
        ("charts", ", ".join(chart.name for chart in ledger.charts)),
        ("players", ", ".join(players) or "not named"),
        (
            "balls",
            f"{len(balls)} in {counted(sessions, 'lesson or match', 'lessons or matches')}: "
            f"{len(ledger.balls)} graded, {len(ledger.not_covered)} not covered; "
            f"{counted(left_out, 'row')} left out",
        ),
    ]
    throughout = facts_words(Situation.of(background_of(balls, rules.vocabulary)), rules.vocabulary)
    if throughout:
        pairs.append(("throughout", f"{throughout} (wherever charted)"))
    mixed = (
        "The counts below mix several players; --player NAME looks at one of them."
        if len(players) > 1
        else ""
    )
    return (*definitions(pairs), *wrapped(mixed, "  "))


def _mark_lines(ledger: Ledger, advisor: Advisor, marks: MarkedRows) -> tuple[str, ...]:
    if not marks.marked:
        return ()
    lines = [
        *wrapped(
            f"{counted(marks.marked, 'ball')} marked: {len(marks.same)} with the same word, "
            f"{len(marks.near)} on the same side, {len(marks.apart)} apart, "
            f"{len(marks.open)} undecided here.",
            "  ",
        )
    ]
    if len(marks.apart):
        lines += wrapped("Where you and the rules differ (nothing was overwritten):", "  ")
    for each in _judged(ledger, advisor, marks.apart[:_MARKS_SHOWN]):
        place = short_ball(each.ball, with_file=_names_files(ledger))
        lines += bullet(f"{place}: {_both_reasons(each, advisor.rules)}", "  ")
    further = len(marks.apart) - _MARKS_SHOWN
    return (*lines, *(wrapped(f"and {further} more: see --csv", "  ") if further > 0 else ()))


def _both_reasons(each: JudgedBall, rules: RuleSet) -> str:
    """Return what the coach said and why, and what the rules say and why."""
    own = f"you said {each.ball.mark}"
    own += f' ("{each.ball.note}")' if each.ball.note else " (no note)"
    rule = find_rule(rules, each.verdict.deciding)
    named = f" [{each.verdict.deciding}]" if each.verdict.deciding else ""
    because = f": {rule.because}" if rule is not None and rule.because else ""
    return f"{own}; the rules say {each.verdict.grade}{named}{because}"


def _style(ledger: Ledger, advisor: Advisor, *, details: bool) -> Style:
    return Style(
        with_file=_names_files(ledger),
        all_findings=details,
        background=background_of(_all_balls(ledger), advisor.rules.vocabulary),
    )


def _every_ball(ledger: Ledger, advisor: Advisor) -> Section:
    every = _judged(ledger, advisor, range(len(ledger.balls)))
    lines = _many(every, advisor.rules, _style(ledger, advisor, details=True))
    return Section(title="Every ball", lines=lines)


def _against(ledger: Ledger, advisor: Advisor) -> Section:
    rows = _graded(ledger, Grade.UNSOUND, Grade.DOUBTFUL)
    shown = _judged(ledger, advisor, rows[:_BAD_SHOWN])
    others = len(ledger.balls) - len(rows)
    further = len(rows) - len(shown)
    more = f"The first {len(shown)} are shown, {further} more are not. " if further else ""
    note = wrapped(
        f"Only what was against the rules is shown. {more}The other {others} balls, and every "
        "finding, are listed with --details, or with --csv.",
        "  ",
    )
    lines = _many(shown, advisor.rules, _style(ledger, advisor, details=False))
    return Section(title="Choices against the rules", lines=(*lines, *note) if len(rows) else ())


def _many(balls: Sequence[JudgedBall], rules: RuleSet, style: Style) -> tuple[str, ...]:
    return tuple(line for each in balls for line in ball_lines(each, rules, style))


def _undecided(
    ledger: Ledger, looked_at: Sequence[JudgedBall], listed: Sequence[JudgedBall], count: int
) -> tuple[str, ...]:
    lines = (
        *next_fact_lines(looked_at),
        *undecided_lines(listed, with_file=_names_files(ledger)),
    )
    if count == len(listed):
        return lines
    note = (
        f"The first {len(listed)} of {count} undecided balls, and the facts of the first "
        f"{len(looked_at)}; --details or --csv has them all."
    )
    return (*lines, *wrapped(note, "  "))


def _not_covered_lines(ledger: Ledger) -> tuple[str, ...]:
    if not ledger.not_covered:
        return ()
    with_file, count = _names_files(ledger), len(ledger.not_covered)
    shown = ledger.not_covered[:_PLACES_SHOWN]
    places = ", ".join(place_words(ball.span, with_file=with_file) for ball in shown)
    more = f" and {count - len(shown)} more" if count > len(shown) else ""
    text = f"{counted(count, 'ball')} of another format or stage: {places}{more}"
    return wrapped(text, "  ", "    ")


def _assumed_lines(ledger: Ledger) -> tuple[str, ...]:
    texts = [
        f"{fact}: not charted on {counted(count, 'ball')}, taken as what the rules are for"
        for fact, count in ledger.assumed
    ]
    restricted = sum(_is_restricted(ball) for ball in ledger.balls)
    if restricted:
        texts.append(
            f"restricted today: charted on {counted(restricted, 'ball')}, where effort was not "
            "graded"
        )
    return tuple(line for text in texts for line in bullet(text, "  "))


def _is_restricted(ball: Ball) -> bool:
    return ball.situation.get("restricted today") == word("yes")


def _left_out_lines(ledger: Ledger, problems: Sequence[Problem]) -> tuple[str, ...]:
    lines: list[str] = []
    for chart in ledger.charts:
        for left in chart.left_out:
            reasons = [p for p in problems if _is_at(p, left.span.file, left.span.line)]
            place = place_words(left.span, with_file=_names_files(ledger))
            for problem in reasons:
                lines += bullet(f"{place}: {problem.sentence}", "  ")
                lines += wrapped(problem.hint, "      ") if problem.hint else ()
            if not reasons:
                lines += bullet(f"{place}: see the remarks below", "  ")
    return tuple(lines)


def _remark_lines(ledger: Ledger, problems: Sequence[Problem]) -> tuple[str, ...]:
    """Return what else was found in the charts; nothing is dropped without a word."""
    told = {(left.span.file, left.span.line) for chart in ledger.charts for left in chart.left_out}
    lines: list[str] = []
    for problem in problems:
        if (problem.span.file, problem.span.line) not in told:
            place = place_words(problem.span, with_file=_names_files(ledger))
            lines += bullet(f"{place}: {problem.sentence}", "  ")
            lines += wrapped(problem.hint, "      ") if problem.hint else ()
    return tuple(lines)


def _is_at(problem: Problem, file: str, line: int) -> bool:
    return (problem.span.file, problem.span.line) == (file, line)
