"""One graded ball in the report of an audit."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.model.audit import JudgedBall
from tactics.model.ball import Ball
from tactics.model.known import Absent, Known
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import KEPT
from tactics.model.vocabulary import Vocabulary
from tactics.report.layout import wrapped
from tactics.report.phrases import PHRASES
from tactics.report.sentences import GAME_SITUATION, choice_words, situation_sentence
from tactics.report.verdicts import find_rule, finding_lines, grade_line
from tactics.source import Span


def place_words(span: Span, *, with_file: bool) -> str:
    """Return where a ball stands: `line 12`, or `lesson.csv line 12` among several charts."""
    return f"{span.file} line {span.line}" if with_file else f"line {span.line}"


def short_ball(ball: Ball, *, with_file: bool) -> str:
    """Return what tells one ball from another: place, date, point and ball."""
    labels = [
        ball.date,
        f"point {ball.point}" if ball.point else "",
        f"ball {ball.ball}" if ball.ball else "",
    ]
    named = ", ".join(label for label in labels if label)
    return f"{place_words(ball.span, with_file=with_file)}{f' ({named})' if named else ''}"


_FEW = 4
"""Among fewer balls than this nothing is called the same throughout."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """How balls are listed. background: facts that were said once and are not repeated.

    with_file: several charts, so the file is named. all_findings: kept parts are listed too.
    """

    with_file: bool = False
    all_findings: bool = True
    background: frozenset[tuple[str, Known]] = frozenset()


def background_of(balls: Sequence[Ball], words: Vocabulary) -> frozenset[tuple[str, Known]]:
    """Return the facts charted on at least half of the balls that are the same wherever charted.

    Facts that a sentence about a ball is made of are left with their balls, and so are marks.
    """
    spoken = {phrase.fact for phrase in PHRASES} | {GAME_SITUATION}
    marks = {trait.folded for trait in words.facts if trait.unset}
    seen: dict[str, list[Known]] = {}
    for ball in balls:
        for fact, known in ball.situation.facts:
            if fact not in spoken | marks and not isinstance(known, Absent):
                seen.setdefault(fact, []).append(known)
    return frozenset(
        (fact, known[0])
        for fact, known in seen.items()
        if 2 * len(known) >= max(len(balls), _FEW) and len(set(known)) == 1
    )


def ball_lines(each: JudgedBall, rules: RuleSet, style: Style) -> tuple[str, ...]:
    """Return a ball with its situation, choice, findings, cause, cue and the coach's own mark."""
    ball, verdict = each.ball, each.verdict
    words = rules.vocabulary
    told = Situation.of(pair for pair in ball.situation.facts if pair not in style.background)
    shown = verdict.findings
    if not style.all_findings:
        shown = tuple(finding for finding in shown if finding.grade not in KEPT)
    place = short_ball(ball, with_file=style.with_file)
    lines = [
        *wrapped(f"{place}: {grade_line(verdict)}", "  ", "    "),
        *wrapped(situation_sentence(told, words), "    "),
        *wrapped(f"Tried: {choice_words(ball.choice, words)}.", "    "),
        *finding_lines(shown, rules, "      "),
    ]
    for remark in _remarks(each, rules):
        lines += wrapped(remark, "    ", "      ")
    return tuple(lines)


def _remarks(each: JudgedBall, rules: RuleSet) -> tuple[str, ...]:
    deciding = find_rule(rules, each.verdict.deciding)
    cause = ""
    if each.cause is not None:
        said = " (proposed)" if each.cause_is_proposed else " (said by the coach)"
        cause = f"Cause: {each.cause}{said}"
    cue = f"Cue: {deciding.cue}" if deciding is not None and each.cause is not None else ""
    mark = "" if each.ball.mark is None else f"Your own mark: {each.ball.mark}"
    note = f"Note: {each.ball.note}" if each.ball.note else ""
    return tuple(remark for remark in (cause, cue, mark, note) if remark)
