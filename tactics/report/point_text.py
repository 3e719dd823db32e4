"""The estimate of the point in words: a range with its assumptions, and orders that survive."""

from collections.abc import Sequence

from tactics.engine.exchange import Estimates
from tactics.flight.point import Comparison, PointRange
from tactics.report.layout import Section, bullet, table, wrapped
from tactics.report.shot_text import Shown

NO_DIFFERENCE = "no difference that survives the assumptions"


def estimate_sections(found: Estimates, shown: Sequence[Shown]) -> tuple[Section, ...]:
    """Return the ranges; `shown` in the order of the contest the estimates come from."""
    title = f"Estimate of the point, of 100{_tried(found)}"
    known = [each for each in shown if found.ranges[each.number - 1] is not None]
    if not known:
        return ()
    if len(shown) == 1:
        only = found.ranges[0]
        lines = wrapped(f"about {range_words(only)} won", "  ") if only else ()
    else:
        lines = _range_table(found, known)
    return (Section(title=title, lines=lines), assumption_section(found))


def assumption_section(found: Estimates) -> Section:
    """Return what the estimates take for granted."""
    some = next(each for each in found.ranges if each is not None)
    lines = [line for each in some.assumptions for line in bullet(each, "  ")]
    return Section(title="What the estimate assumes", lines=tuple(lines))


def _tried(found: Estimates) -> str:
    if found.tried == found.of_all:
        return ""
    return f" (stopped after {found.tried} of {found.of_all} sets of assumptions)"


def range_words(found: PointRange) -> str:
    """Return a range of points won: `35 to 50`."""
    if found.low_pct == found.high_pct:
        return str(found.low_pct)
    return f"{found.low_pct} to {found.high_pct}"


def _range_table(found: Estimates, known: Sequence[Shown]) -> tuple[str, ...]:
    first = known[0].number
    rows = []
    for each in known:
        wins = found.ranges[each.number - 1]
        against = (
            ""
            if each.number == first
            else comparison_words(found.compare(first - 1, each.number - 1), found.tried)
        )
        rows.append((str(each.number), range_words(wins) if wins else "", against))
    return table(("", "won", f"against {first}"), rows)


def comparison_words(compared: Comparison | None, tried: int) -> str:
    """Return how the order of the first against another holds, said of the other."""
    if compared is None or not compared.survives:
        return NO_DIFFERENCE
    times = round(tried * max(compared.share_first, 1.0 - compared.share_first))
    how_often = f"in {times} of {tried} sets of assumptions"
    if compared.share_first < 0.5:
        return f"ahead {how_often}{_points(-compared.high_points, -compared.low_points)}"
    return f"behind {how_often}{_points(compared.low_points, compared.high_points)}"


def _points(low: int, high: int) -> str:
    if high <= 0:
        return ""
    if low <= 0:
        return f", by up to {high}"
    return f", by {high}" if low == high else f", by {low} to {high}"
