"""Then and now on the audit's page: what moved, how surely, and lesson by lesson."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tactics.model.rule import RuleSet
from tactics.report.html.audit_rates import RateRow
from tactics.report.html.dots import ShownRate, shown_rate
from tactics.report.reviews import period_words, shares_words, trend_notes
from tactics.report.verdicts import find_rule
from tactics.review.ledger import Ledger
from tactics.review.trend import Change, Said, trend

_SESSIONS_SHOWN = 60
_NAME_LETTERS = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeRow:
    """A heading with its share kept then and now."""

    name: str
    title: str
    before: ShownRate
    after: ShownRate
    says: str
    more: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeGroup:
    """Changes of which the same may be said."""

    title: str
    note: str
    rows: tuple[ChangeRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThenAndNow:
    """The section. sessions: empty with one lesson only; earlier: lessons not listed."""

    periods: str
    groups: tuple[ChangeGroup, ...]
    notes: tuple[str, ...]
    sessions: tuple[RateRow, ...]
    earlier: int


def then_and_now(ledger: Ledger, rules: RuleSet, since: str) -> ThenAndNow | None:
    """Return what changed between two periods; None with one lesson."""
    found = trend(ledger, since)
    if found is None:
        return None
    sessions, earlier = _sessions(ledger)
    return ThenAndNow(
        periods=f"{period_words(found.before)} against {period_words(found.after)}",
        groups=tuple(_groups(found.changes, rules)),
        notes=tuple(trend_notes(found)),
        sessions=sessions if len(sessions) > 1 else (),
        earlier=earlier,
    )


def _sessions(ledger: Ledger) -> tuple[tuple[RateRow, ...], int]:
    """Return the last lessons in the order of their dates, and how many earlier ones there are."""
    found = ledger.by_session()
    several = len(ledger.players) > 1
    rows = tuple(
        RateRow(
            name=day or "no date",
            title=_short(f"{player}: {lesson}" if several and player else lesson),
            rate=shown_rate(heading.kept_rate),
            numbers=(),
        )
        for (player, day, lesson), heading in found[-_SESSIONS_SHOWN:]
    )
    return rows, max(0, len(found) - _SESSIONS_SHOWN)


def _groups(changes: Sequence[Change], rules: RuleSet) -> Iterator[ChangeGroup]:
    """Yield what moved beyond chance, then what chance alone could explain; empty ones not."""
    for said in (Said.BEYOND_CHANCE, Said.COULD_BE_CHANCE):
        rows = tuple(_change_row(each, rules) for each in changes if each.says is said)
        if rows:
            yield ChangeGroup(title=said.capitalize(), note=_NOTES.get(said, ""), rows=rows)


_NOTES = {
    Said.COULD_BE_CHANCE: "Beside each: how many balls in each period would show a change of 15 "
    "points.",
}


def _change_row(each: Change, rules: RuleSet) -> ChangeRow:
    """Return a share then and now."""
    rule = find_rule(rules, each.name) if each.kind == "rule" else None
    name = "all choices" if each.name == "all" else each.name
    return ChangeRow(
        name=name,
        title="" if rule is None else rule.title,
        before=shown_rate(each.before),
        after=shown_rate(each.after),
        says=f"{shares_words(each)}.",
        more="" if each.says is Said.BEYOND_CHANCE else f"About {each.needed} balls would tell.",
    )


def _short(name: str) -> str:
    return name if len(name) <= _NAME_LETTERS else f"{name[:_NAME_LETTERS]} ..."
