"""Priorities, changes, shares and serves as plain values."""

from tactics.model.rule import RuleSet
from tactics.report.mix_json import mixes_as_json
from tactics.report.places import places_as_json
from tactics.report.plain_json import Json
from tactics.review.ledger import Ledger
from tactics.review.mix import review_mixes
from tactics.review.places import places
from tactics.review.priorities import Priorities, Priority, priorities
from tactics.review.rates import Rate, Standing
from tactics.review.serves import ServeGroup, ServePlace, Serves, serves
from tactics.review.trend import Change, Period, Trend, trend

_DECIMALS = 4


def review_as_json(ledger: Ledger, rules: RuleSet, since: str = "") -> Json:
    """Return what a season means. Keys: priorities, trend, mixes, serves, places."""
    balls = [ball for chart in ledger.charts for ball in chart.balls]
    return {
        "priorities": priorities_as_json(priorities(ledger, rules), ledger),
        "trend": trend_as_json(trend(ledger, since)),
        "mixes": mixes_as_json(review_mixes(rules, balls)),
        "serves": serves_as_json(serves(balls)),
        "places": places_as_json(places(rules, balls)),
    }


def priorities_as_json(found: Priorities, ledger: Ledger) -> Json:
    """Return the priorities in order, each with its balls, and what was looked at."""
    return {
        "looked_at": found.looked_at,
        "likeness_in_a_lesson": round(found.alike, _DECIMALS),
        "chosen": [_priority(each, ledger) for each in found.chosen],
        "waiting": [each.rule for each in found.waiting],
        "too_few_balls": [each.name for each in found.few],
    }


def _priority(each: Priority, ledger: Ledger) -> Json:
    return {
        "rule": each.rule,
        "sureness": str(each.sureness),
        "broken": rate_as_json(each.broken),
        "other_rules_broken": rate_as_json(each.rest),
        "chance": round(each.chance, 6),
        "chance_alone": round(each.alone, 6),
        "balls_beyond_own_usual": round(each.excess, 2),
        "before_the_next_because": str(each.before),
        "same_balls_as": list(each.together),
        "causes": {str(cause): count for cause, count in each.causes},
        "marked_good_by_coach": each.doubted,
        "balls": [
            {"file": span.file, "line": span.line}
            for span in (ledger.balls[int(row)].span for row in each.heading.broken)
        ],
    }


def trend_as_json(found: Trend | None) -> Json | None:
    """Return the two periods and every change compared; None with one lesson only."""
    if found is None:
        return None
    return {
        "before": _period(found.before),
        "after": _period(found.after),
        "compared": found.compared,
        "rules_with_too_few_balls": found.too_few,
        "balls_without_a_date": found.undated,
        "changes": [_change(each) for each in found.changes],
    }


def _period(each: Period) -> Json:
    return {"first": each.first, "last": each.last, "lessons": each.lessons}


def _change(each: Change) -> Json:
    return {
        "kind": each.kind,
        "name": each.name,
        "kept_before": rate_as_json(each.before),
        "kept_after": rate_as_json(each.after),
        "interval_of_change": [round(end, _DECIMALS) for end in each.interval],
        "chance": round(each.chance, 6),
        "says": str(each.says),
        "balls_needed_for_15_points": each.needed,
    }


def serves_as_json(found: Serves) -> list[Json]:
    """Return every group of serves with its roads; intervals are exact."""
    return [_serves(group) for group in found.groups]


def _serves(group: ServeGroup) -> Json:
    return {
        "of": dict(group.split),
        "n": group.n,
        "says": str(group.says),
        "places": [_place(place) for place in group.places],
    }


def _place(place: ServePlace) -> Json:
    return {
        "place": place.name,
        "serves": place.used.count,
        "interval": [round(end, _DECIMALS) for end in place.used_interval],
        "won": place.won.count,
        "of_known": place.won.n,
        "won_interval": [round(end, _DECIMALS) for end in place.won_interval],
        "even_share_estimate": [round(share, _DECIMALS) for share in place.even_share],
    }


def rate_as_json(rate: Rate) -> Json:
    """Return a share with its n; share and interval are null below ten balls."""
    enough = rate.standing is not Standing.NOT_ENOUGH
    return {
        "count": rate.count,
        "n": rate.n,
        "lessons": rate.lessons,
        "share": round(rate.share, _DECIMALS) if enough else None,
        "interval": [round(end, _DECIMALS) for end in rate.interval] if enough else None,
    }
