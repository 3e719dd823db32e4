"""An audit for the terminal: what stands out, the tables, then the balls."""

from collections.abc import Sequence

from tactics.model.audit import Audit, JudgedBall
from tactics.model.ball import Ball
from tactics.model.known import word
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, Grade
from tactics.problem import Problem
from tactics.report.audit_balls import Style, background_of, ball_lines, place_words, short_ball
from tactics.report.audit_highlights import highlight_lines
from tactics.report.audit_tables import (
    cause_lines,
    grade_lines,
    outcome_lines,
    rule_lines,
    tally_lines,
)
from tactics.report.audit_undecided import undecided_lines
from tactics.report.layout import Section, bullet, counted, definitions, wrapped
from tactics.report.mix import mix_section
from tactics.report.reviews import priority_section, trend_section
from tactics.report.sentences import facts_words
from tactics.report.serves import serve_section
from tactics.review.ledger import ledger_of
from tactics.review.marks import compare_marks
from tactics.review.mix import review_mixes
from tactics.review.priorities import priorities
from tactics.review.serves import serves
from tactics.review.tallies import by_part, by_rule, by_situation, session_of
from tactics.review.trend import trend

CAUTION = (
    "Graded from situation and choice alone: how the ball came out changed no grade. Intervals "
    "are 95 % (Wilson) and take balls as independent, which balls of one lesson are not quite. "
    "This supports a qualified coach, who decides; it compares nobody with anybody and says "
    "nothing about talent or selection."
)
_MARKS_SHOWN = 20


def audit_sections(
    audit: Audit,
    rules: RuleSet,
    problems: Sequence[Problem] = (),
    *,
    details: bool = False,
    since: str = "",
) -> tuple[Section, ...]:
    """Return the whole report; `details` shows every ball with every finding.

    since: ISO day from which balls are compared with those before; "" halves the lessons.
    """
    ledger = ledger_of(audit)
    return (
        Section(title=f"Audit: {audit.rule_set}", lines=_opening(audit, rules)),
        Section(title="What stands out", lines=highlight_lines(audit, rules)),
        priority_section(priorities(ledger, rules), ledger, rules),
        trend_section(trend(ledger, since), rules),
        Section(title="Grades", lines=grade_lines(audit)),
        Section(title="By game situation", lines=tally_lines(by_situation(audit.judged))),
        Section(title="By part of the choice", lines=tally_lines(by_part(audit.judged))),
        Section(title="By rule", lines=rule_lines(by_rule(audit.judged))),
        mix_section(review_mixes(rules, _all_balls(audit)), rules.vocabulary),
        serve_section(serves(_all_balls(audit))),
        Section(title="Choice and ball", lines=outcome_lines(audit)),
        Section(title="By cause of a bad ball", lines=cause_lines(audit)),
        Section(title="Your own marks", lines=_mark_lines(audit)),
        _balls(audit, rules, details=details),
        Section(
            title="Undecided balls",
            lines=undecided_lines(audit.judged, with_file=_names_files(audit)),
        ),
        Section(title="Not covered by these rules", lines=_not_covered_lines(audit)),
        Section(title="Taken as given", lines=_assumed_lines(audit)),
        Section(title="Rows left out", lines=_left_out_lines(audit, problems)),
        Section(title="Remarks on the charts", lines=_remark_lines(audit, problems)),
        Section(title="", lines=wrapped(CAUTION)),
    )


def _all_balls(audit: Audit) -> list[Ball]:
    return [ball for chart in audit.charts for ball in chart.balls]


def _names_files(audit: Audit) -> bool:
    return len(audit.charts) > 1


def _opening(audit: Audit, rules: RuleSet) -> tuple[str, ...]:
    balls = _all_balls(audit)
    players = sorted({ball.player for ball in balls if ball.player})
    sessions = len({session_of(ball) for ball in balls})
    left_out = sum(len(chart.left_out) for chart in audit.charts)
    pairs = [
        ("charts", ", ".join(chart.name for chart in audit.charts)),
        ("players", ", ".join(players) or "not named"),
        (
            "balls",
            f"{len(balls)} in {counted(sessions, 'lesson or match', 'lessons or matches')}: "
            f"{len(audit.judged)} graded, {len(audit.not_covered)} not covered; "
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


def _mark_lines(audit: Audit) -> tuple[str, ...]:
    marks = compare_marks(audit.judged)
    if not marks.marked:
        return ()
    lines = [
        *wrapped(
            f"{counted(marks.marked, 'ball')} marked: {marks.same} with the same word, "
            f"{marks.near} on the same side, {len(marks.apart)} apart, {marks.open} undecided "
            "here.",
            "  ",
        )
    ]
    if marks.apart:
        lines += wrapped("Where you and the rules differ (nothing was overwritten):", "  ")
    for each in marks.apart[:_MARKS_SHOWN]:
        rule = f" [{each.verdict.deciding}]" if each.verdict.deciding else ""
        lines += bullet(
            f"{short_ball(each.ball, with_file=_names_files(audit))}: you said "
            f"{each.ball.mark}, the rules say {each.verdict.grade}{rule}",
            "  ",
        )
    further = len(marks.apart) - _MARKS_SHOWN
    return (*lines, *(wrapped(f"and {further} more: see --csv", "  ") if further > 0 else ()))


def _balls(audit: Audit, rules: RuleSet, *, details: bool) -> Section:
    style = Style(
        with_file=_names_files(audit),
        all_findings=details,
        background=background_of(_all_balls(audit), rules.vocabulary),
    )
    if details:
        return Section(title="Every ball", lines=_many(audit.judged, rules, style))
    bad = [each for each in audit.judged if each.verdict.grade in BROKEN]
    ordered = sorted(bad, key=lambda each: each.verdict.grade is not Grade.UNSOUND)
    others = len(audit.judged) - len(bad)
    note = wrapped(
        f"Only what was against the rules is shown. The other {others} balls, and every finding, "
        "are listed with --details, or with --csv.",
        "  ",
    )
    lines = (*_many(ordered, rules, style), *note) if bad else ()
    return Section(title="Choices against the rules", lines=lines)


def _many(balls: Sequence[JudgedBall], rules: RuleSet, style: Style) -> tuple[str, ...]:
    return tuple(line for each in balls for line in ball_lines(each, rules, style))


def _not_covered_lines(audit: Audit) -> tuple[str, ...]:
    if not audit.not_covered:
        return ()
    with_file = _names_files(audit)
    places = ", ".join(place_words(ball.span, with_file=with_file) for ball in audit.not_covered)
    text = f"{counted(len(audit.not_covered), 'ball')} of another format or stage: {places}"
    return wrapped(text, "  ", "    ")


def _assumed_lines(audit: Audit) -> tuple[str, ...]:
    texts = [
        f"{fact}: not charted on {counted(count, 'ball')}, taken as what the rules are for"
        for fact, count in audit.assumed
    ]
    restricted = sum(_is_restricted(each) for each in audit.judged)
    if restricted:
        texts.append(
            f"restricted today: charted on {counted(restricted, 'ball')}, where effort was not "
            "graded"
        )
    return tuple(line for text in texts for line in bullet(text, "  "))


def _is_restricted(each: JudgedBall) -> bool:
    return each.ball.situation.get("restricted today") == word("yes")


def _left_out_lines(audit: Audit, problems: Sequence[Problem]) -> tuple[str, ...]:
    lines: list[str] = []
    for chart in audit.charts:
        for left in chart.left_out:
            reasons = [p for p in problems if _is_at(p, left.span.file, left.span.line)]
            place = place_words(left.span, with_file=_names_files(audit))
            for problem in reasons:
                lines += bullet(f"{place}: {problem.sentence}", "  ")
                lines += wrapped(problem.hint, "      ") if problem.hint else ()
            if not reasons:
                lines += bullet(f"{place}: see the remarks below", "  ")
    return tuple(lines)


def _remark_lines(audit: Audit, problems: Sequence[Problem]) -> tuple[str, ...]:
    """Return what else was found in the charts; nothing is dropped without a word."""
    told = {(left.span.file, left.span.line) for chart in audit.charts for left in chart.left_out}
    lines: list[str] = []
    for problem in problems:
        if (problem.span.file, problem.span.line) not in told:
            place = place_words(problem.span, with_file=_names_files(audit))
            lines += bullet(f"{place}: {problem.sentence}", "  ")
            lines += wrapped(problem.hint, "      ") if problem.hint else ()
    return tuple(lines)


def _is_at(problem: Problem, file: str, line: int) -> bool:
    return (problem.span.file, problem.span.line) == (file, line)
