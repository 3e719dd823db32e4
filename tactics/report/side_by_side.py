"""Quiz and court side by side, in words and as JSON; neither is said to cause the other."""

from collections.abc import Iterator

from tactics.model.rule import RuleSet
from tactics.report.layout import Section, bullet, counted, wrapped
from tactics.report.rates import percent
from tactics.report.reviews import rule_name
from tactics.review.rates import SMALLEST_N, Rate
from tactics.review.side_by_side import SideBySide

_SHOWN = 10
_TITLE = "Quiz and court, side by side"
_NO_CAUSE = (
    "Rules come up in a random order for each player, so both can be compared; it shows no cause."
)


def side_by_side_section(found: SideBySide, rules: RuleSet) -> Section:
    """Return the section, empty where no rule was both asked and met."""
    return Section(title=_TITLE, lines=tuple(_lines(found, rules)) if found.rules else ())


def _lines(found: SideBySide, rules: RuleSet) -> Iterator[str]:
    for each in found.rules[:_SHOWN]:
        yield from bullet(rule_name(each.rule, rules), "  ")
        quiz = each.quiz
        yield from wrapped(
            f"quiz: {counted(quiz.answered, 'answer')}, {quiz.full} with full credit, first asked "
            f"on {quiz.first_day}", "    ", "      ",
        )  # fmt: skip
        yield from wrapped(
            f"court: {_kept(each.before)} before that day; {_kept(each.since)} since",
            "    ", "      ",
        )  # fmt: skip
    if len(found.rules) > _SHOWN:
        yield from wrapped(f"and {len(found.rules) - _SHOWN} more", "  ")
    yield from wrapped(_compared(found), "  ")
    if found.undated:
        yield from wrapped(f"Left out: {counted(found.undated, 'ball')} without a date.", "  ")


def _compared(found: SideBySide) -> str:
    if min(found.trained.n, found.untrained.n) < SMALLEST_N:
        return (
            "Rules already asked against rules not yet asked: not enough balls yet "
            f"(n = {found.trained.n} and n = {found.untrained.n})."
        )
    return (
        f"Since the first quiz, under rules already asked: {_kept(found.trained)}; under rules "
        f"not yet asked: {_kept(found.untrained)}. A ball counts once for each rule. {_NO_CAUSE}"
    )


def _kept(rate: Rate) -> str:
    counts = f"kept {rate.count} of {rate.n}"
    if rate.n < SMALLEST_N:
        return counts
    low, high = rate.interval
    return f"{counts} ({percent(rate.share)} %, {percent(low)} to {percent(high)} %)"


def side_by_side_as_json(found: SideBySide) -> dict[str, object]:
    """Return the same numbers as JSON; no share below ten balls."""
    return {
        "rules": [
            {
                "rule": each.rule,
                "quiz": {
                    "answered": each.quiz.answered,
                    "full credit": each.quiz.full,
                    "first asked": each.quiz.first_day.isoformat(),
                },
                "court before": _rate(each.before),
                "court since": _rate(each.since),
            }
            for each in found.rules
        ],
        "already asked": _rate(found.trained),
        "not yet asked": _rate(found.untrained),
        "balls without a date": found.undated,
        "note": _NO_CAUSE,
    }


def _rate(rate: Rate) -> dict[str, object]:
    enough = rate.n >= SMALLEST_N
    return {
        "kept": rate.count,
        "n": rate.n,
        "share": round(rate.share, 3) if enough else None,
        "interval": [round(end, 3) for end in rate.interval] if enough else None,
    }
