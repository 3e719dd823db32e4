"""Quiz and court side by side as JSON: the numbers of text and page."""

from tactics.report.side_by_side import COUNTED, NO_CAUSE
from tactics.review.own_change import Group, Moved, OwnChange
from tactics.review.rates import SMALLEST_N, Rate, Standing
from tactics.review.side_by_side import SideBySide


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
        "each rule against itself": _change(found.change),
        "balls without a date": found.undated,
        "note": f"{COUNTED} {NO_CAUSE}",
    }


def _rate(rate: Rate) -> dict[str, object]:
    enough = rate.n >= SMALLEST_N
    return {
        "kept": rate.count,
        "n": rate.n,
        "share": round(rate.share, 3) if enough else None,
        "interval": [round(end, 3) for end in rate.interval] if enough else None,
    }


def _change(change: OwnChange) -> dict[str, object]:
    moved = change.moved
    asked, not_yet, apart = (
        (None,) * 3 if moved is None else (moved.asked, moved.not_yet, moved.apart)
    )
    return {
        "asked": {**_group(change.asked), **_moved(asked)},
        "not asked yet": {**_group(change.not_yet), **_moved(not_yet)},
        "difference": {
            **_moved(apart),
            "says": str(Standing.NOT_ENOUGH if moved is None else moved.says),
        },
    }


def _group(group: Group) -> dict[str, object]:
    return {"rules": group.rules, "n before": group.before, "n since": group.since}


def _moved(moved: Moved | None) -> dict[str, object]:
    return {
        "change": None if moved is None else round(moved.by, 3),
        "interval": None if moved is None else [round(moved.low, 3), round(moved.high, 3)],
    }
