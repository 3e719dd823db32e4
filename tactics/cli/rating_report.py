"""A second coach's ratings beside the first coach's marks and the grades of the rules."""

from collections.abc import Mapping

from tactics.engine.audit import judge_balls
from tactics.engine.compile import compile_rules
from tactics.engine.coverage import is_covered
from tactics.model.ball import Ball, Chart
from tactics.model.rule import RuleSet
from tactics.model.verdict import Grade, Verdict
from tactics.reading.ratings import CANNOT_SAY, Rating
from tactics.report.agreement import Compared, Differing, Said
from tactics.report.blind import Blind, blind_balls
from tactics.report.verdicts import find_rule
from tactics.review.agreement import agreement

_WORDS = tuple(str(grade) for grade in Grade if grade is not Grade.UNDECIDED)


def compared_and_differing(
    rated: Mapping[int, Rating], chart: Chart, rules: RuleSet
) -> tuple[tuple[Compared, ...], tuple[Differing, ...], str]:
    """Return both comparisons, every ball on which somebody differs, and what all balls share."""
    shown = blind_balls(chart.balls, rules.vocabulary)
    places = sorted(place for place, rating in rated.items() if rating.rating != CANNOT_SAY)
    unsaid = len(rated) - len(places)
    verdicts = _verdicts(places, chart, rules)
    marks = {p: str(mark) for p in places if (mark := chart.balls[p].mark) is not None}
    grades = {p: str(found.grade) for p, found in verdicts.items() if found.grade in _WORDS}
    first = agreement([(marks[p], rated[p].rating) for p in marks], _WORDS)
    tool = agreement([(grades[p], rated[p].rating) for p in grades], _WORDS)
    skipped = (unsaid, "the second coach could not say")
    compared = (
        Compared(whom="first coach", agreement=first, left_out=(
            (len(places) - len(marks), "the chart holds no mark of the first coach"), skipped)),
        Compared(whom="the rules", agreement=tool, left_out=(
            (len(places) - len(verdicts), "the rule set does not cover them"),
            (len(verdicts) - len(grades), "the rules leave them undecided"), skipped)),
    )  # fmt: skip
    differing = []
    for place in places:
        words = [rated[place].rating, marks.get(place, ""), grades.get(place, "")]
        apart = _apart([word for word in words if word])
        if apart:
            said = _said(rated[place], chart.balls[place], verdicts.get(place), rules)
            differing.append(_differing(chart.balls[place], shown.balls[place], said, apart))
    return compared, tuple(differing), shown.throughout


def _verdicts(places: list[int], chart: Chart, rules: RuleSet) -> dict[int, Verdict]:
    covered = [place for place in places if is_covered(rules, chart.balls[place].situation)]
    found = judge_balls(compile_rules(rules), [chart.balls[place] for place in covered])
    return dict(zip(covered, found, strict=True))


def _apart(words: list[str]) -> int:
    order = [_WORDS.index(word) for word in words]
    return max(order) - min(order)


def _said(rating: Rating, ball: Ball, verdict: Verdict | None, rules: RuleSet) -> tuple[Said, ...]:
    mark = "" if ball.mark is None else str(ball.mark)
    cause = f"cause {ball.cause}" if ball.cause is not None else ""
    noted = "; ".join(text for text in (cause, " ".join(ball.note.split())) if text)
    return (
        Said(who="second coach", word=rating.rating, reason=rating.reason),
        Said(who="first coach", word=mark, reason=noted),
        Said(who="rules", word=_grade(verdict), reason=_because(verdict, rules)),
    )


def _grade(verdict: Verdict | None) -> str:
    return "" if verdict is None or verdict.grade is Grade.UNDECIDED else str(verdict.grade)


def _because(verdict: Verdict | None, rules: RuleSet) -> str:
    rule = None if verdict is None else find_rule(rules, verdict.deciding)
    return "" if rule is None else f"{rule.title} [{rule.id}]"


def _differing(ball: Ball, shown: Blind, said: tuple[Said, ...], apart: int) -> Differing:
    return Differing(
        row=ball.span.line,
        situation=shown.situation,
        choice=shown.choice,
        said=said,
        apart=apart,
    )
