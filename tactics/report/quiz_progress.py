"""What a player remembers of the rules, in words: dates with their evidence, never a mark.

Dates are estimates, and say so. Nothing here compares players or counts days in a row.
"""

from collections.abc import Iterator, Sequence
from datetime import date

from tactics.model.progress import (
    Evidence,
    Holding,
    MixedUp,
    Practised,
    Progress,
    RuleProgress,
    SureAndWrong,
)
from tactics.report.layout import Section, bullet, counted, wrapped

_CALIBRATED_FROM = 20
_LAST = 3
_NEW_SHOWN = 5
_ESTIMATES = (
    "Dates are estimates from the answers given here, by a model of how people forget. They say "
    "what may be remembered of the rules; what happens on court is for charts and coach to show."
)
_ORDER = (Holding.SECURE, Holding.DUE, Holding.LATER, Holding.CHANGED)
_HEADINGS = {
    Holding.SECURE: "Secure for a while",
    Holding.DUE: "To be asked now",
    Holding.LATER: "Coming back later",
    Holding.CHANGED: "Met before in another form: changed by your coach, or from other rules",
}


def progress_sections(progress: Progress, nickname: str) -> tuple[Section, ...]:
    """Return the whole page."""
    return (
        Section(title=f"The rules and {nickname}, {progress.day}", lines=tuple(_top(progress))),
        *(_group(progress, holding) for holding in _ORDER),
        _new(progress),
        Section(title="Sure and wrong", lines=tuple(_slips(progress.sure_and_wrong))),
        Section(title="Mixed up", lines=tuple(_mixed_up(progress.mixed_up))),
        Section(title="Sure and right", lines=wrapped(calibration(progress), "  ")),
        Section(title="", lines=wrapped(_ESTIMATES)),
    )


def _top(progress: Progress) -> Iterator[str]:
    met = sum(rule.evidence is not None for rule in progress.rules)
    text = f"{counted(len(progress.rules), 'rule')} can be asked; {met} met so far as they stand."
    if progress.elsewhere:
        more = counted(progress.elsewhere, "rule")
        text += f" {more} met before {'is' if progress.elsewhere == 1 else 'are'} not in these."
    yield from wrapped(text, "  ")


def _group(progress: Progress, holding: Holding) -> Section:
    rules = sorted(
        (rule for rule in progress.rules if rule.holding is holding),
        key=lambda rule: (rule.secure_until or rule.due or date.min, rule.title),
    )
    lines = (line for rule in rules for line in _rule(rule))
    return Section(title=_HEADINGS[holding], lines=tuple(lines))


def _rule(rule: RuleProgress) -> Iterator[str]:
    yield from bullet(rule.title, "  ")
    said = "; ".join(part for part in (standing_words(rule), evidence_words(rule)) if part)
    if rule.holding is not Holding.CHANGED:
        yield from wrapped(f"{said}.", "    ")


def standing_words(rule: RuleProgress) -> str:
    """Return `secure until 2026-05-01; comes back on 2026-04-20`."""
    back = "" if rule.due is None else f"comes back on {rule.due}"
    match rule.holding:
        case Holding.SECURE:
            return f"secure until {rule.secure_until}; {back}"
        case Holding.DUE:
            return f"due since {rule.due}"
        case Holding.LATER:
            return back
        case Holding.CHANGED | Holding.NEW:
            return str(rule.holding)


def evidence_words(rule: RuleProgress) -> str:
    """Return what the standing rests on, with n."""
    found = rule.evidence
    if found is None:
        return ""
    counts = f"full credit {found.full} of {counted(found.answered, 'time')}"
    if rule.holding is not Holding.SECURE:
        return counts
    days = ", ".join(str(day) for day in found.run[-_LAST:])
    return (
        f"right first time on {days}, sure on {found.sure} of these, the last after "
        f"{_gap(found)} days; memory predicted to last {found.lasts_days:.0f} days; {counts}"
    )


def _gap(found: Evidence) -> int:
    return (found.run[-1] - found.run[-2]).days


def _new(progress: Progress) -> Section:
    new = [rule.title for rule in progress.rules if rule.holding is Holding.NEW]
    lines = [line for title in new[:_NEW_SHOWN] for line in bullet(title, "  ")]
    if len(new) > _NEW_SHOWN:
        lines += wrapped(f"and {counted(len(new) - _NEW_SHOWN, 'more rule')}", "    ")
    return Section(title=f"Not met yet: {counted(len(new), 'rule')}", lines=tuple(lines))


def _slips(slips: Sequence[SureAndWrong]) -> Iterator[str]:
    if slips:
        yield from wrapped("Worth talking about with your coach; these are easiest to put right.",
                           "  ")  # fmt: skip
    for slip in slips:
        times = counted(len(slip.days), "time")
        since = "" if slip.right_since is None else f"; right since then, on {slip.right_since}"
        yield from bullet(f"{slip.title}: {times}, last on {slip.days[-1]}{since}", "  ")


def _mixed_up(pairs: Sequence[MixedUp]) -> Iterator[str]:
    for pair in pairs:
        times = counted(pair.count, "time")
        yield from bullet(
            f'answered by "{pair.other_title}" where "{pair.title}" holds: {times}', "  "
        )


def calibration(progress: Progress) -> str:
    """Return how often sure was right; nothing before there are twenty such answers."""
    if progress.sure < _CALIBRATED_FROM:
        return ""
    return f"When you said sure you were right {progress.sure_and_right} of {progress.sure} times."


def practised_words(found: Practised | None) -> str:
    """Return what a rule's line says of the quiz, beside what was charted on court."""
    if found is None:
        return "not asked in the quiz"
    if not found.answered:
        return f"in the quiz since {found.first_day}, not answered yet"
    return (
        f"in the quiz since {found.first_day}: full credit {found.full} of "
        f"{counted(found.answered, 'answer')}"
    )


def progress_as_json(progress: Progress, nickname: str) -> dict[str, object]:
    """Return the same as plain data; dates as 2026-05-01, null where there is none."""
    return {
        "format": 1,
        "nickname": nickname,
        "day": str(progress.day),
        "rules": [_rule_as_json(rule) for rule in progress.rules],
        "sure_and_wrong": [
            {"rule": slip.rule, "days": [str(day) for day in slip.days],
             "right_since": _day(slip.right_since)}
            for slip in progress.sure_and_wrong
        ],
        "mixed_up": [
            {"rule": pair.rule, "answered_by": pair.other, "count": pair.count}
            for pair in progress.mixed_up
        ],
        "sure": progress.sure,
        "sure_and_right": progress.sure_and_right,
        "rules_not_in_this_set": progress.elsewhere,
    }  # fmt: skip


def _rule_as_json(rule: RuleProgress) -> dict[str, object]:
    found = rule.evidence
    return {
        "rule": rule.rule,
        "title": rule.title,
        "standing": str(rule.holding),
        "comes_back": _day(rule.due),
        "secure_until": _day(rule.secure_until),
        "answered": 0 if found is None else found.answered,
        "full_credit": 0 if found is None else found.full,
        "right_first_time_on": [] if found is None else [str(day) for day in found.run],
        "sure_of_last_three": 0 if found is None else found.sure,
        "predicted_to_last_days": None if found is None else round(found.lasts_days, 1),
    }


def _day(day: date | None) -> str | None:
    return None if day is None else str(day)
