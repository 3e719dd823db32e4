"""Quiz and court side by side as the templates place it: words from the report, dots beside."""

from dataclasses import dataclass

from tactics.report.html.dots import Dot, ShownRate, shown_rate
from tactics.report.side_by_side import BesideWords, RuleWords
from tactics.review.rates import Rate


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideRow:
    """One rule with its two shares on court."""

    words: RuleWords
    before: ShownRate
    since: ShownRate


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideTable:
    """The section: words, and a row for each rule."""

    words: BesideWords
    rows: tuple[BesideRow, ...]


def beside_table(words: BesideWords | None) -> BesideTable | None:
    """Return the section with its dots; None where there is nothing to show."""
    if words is None:
        return None
    return BesideTable(
        words=words,
        rows=tuple(
            BesideRow(
                words=each,
                before=ShownRate(says=each.before, dot=_dot(each.before_rate)),
                since=ShownRate(says=each.since, dot=_dot(each.since_rate)),
            )
            for each in words.rules
        ),
    )


def _dot(rate: Rate) -> Dot | None:
    return shown_rate(rate).dot
