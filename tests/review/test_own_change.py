"""Each rule against itself: worked by hand, and no find where nothing moved."""

from dataclasses import replace
from datetime import date
from functools import cache

import numpy as np
import pytest

from tactics.review.ledger import Ledger
from tactics.review.own_change import OwnChange, own_change
from tactics.review.trend import Said
from tests.review.rally_lessons import KINDS, advisor, season_in_files, written

EARLY, FIRST, LATE = "2026-01-03", date(2026, 1, 8), "2026-01-12"
SEASONS = 120


def balls(kind: str, day: str, kept: int, broken: int) -> list[str]:
    """Return the rows of so many balls of one kind on one day."""
    depth, balance = kind.rsplit("-", 1)
    row = f"{day},Wren,baseline rally,{depth.replace('-', ' ')},{balance}"
    return [f"{row},1.2 m"] * kept + [f"{row},0.4 m"] * broken


def compared(*rows: list[str], **first_days: date) -> OwnChange:
    ledger = season_in_files(advisor(), [row for some in rows for row in some])
    days = {rule.replace("_", "-"): day for rule, day in first_days.items()}
    return own_change(ledger, ledger.by_rule(), days)


def test_rules_of_different_shares_that_moved_alike_do_not_differ() -> None:
    found = compared(
        balls("short-set", EARLY, 5, 5), balls("short-set", LATE, 7, 3),
        balls("deep-set", EARLY, 32, 8), balls("deep-set", LATE, 40, 0),
        short_set=FIRST,
    )  # fmt: skip

    assert found.moved is not None
    assert found.moved.asked.by == pytest.approx(0.2)
    assert found.moved.not_yet.by == pytest.approx(0.2)
    assert found.moved.apart.by == pytest.approx(0.0)
    assert found.moved.says is Said.COULD_BE_CHANCE


def test_rules_count_by_their_balls_on_both_sides() -> None:
    found = compared(
        balls("short-set", EARLY, 5, 5), balls("short-set", LATE, 9, 1),
        balls("mid-set", EARLY, 20, 0), balls("mid-set", LATE, 4, 1),
        balls("deep-set", EARLY, 10, 0), balls("deep-set", LATE, 10, 0),
        short_set=FIRST, mid_set=FIRST,
    )  # fmt: skip

    assert found.moved is not None
    assert found.moved.asked.by == pytest.approx((5 * 0.4 + 4 * -0.2) / 9)
    assert (found.asked.rules, found.asked.before, found.asked.since) == (2, 30, 15)
    assert (found.not_yet.rules, found.not_yet.before, found.not_yet.since) == (1, 10, 10)


def test_a_clear_difference_is_called_one() -> None:
    found = compared(
        balls("short-set", EARLY, 5, 35), balls("short-set", LATE, 38, 2),
        balls("deep-set", EARLY, 20, 20), balls("deep-set", LATE, 20, 20),
        short_set=FIRST,
    )  # fmt: skip

    assert found.moved is not None
    assert found.moved.says is Said.BEYOND_CHANCE
    assert found.moved.apart.low > 0.5


@pytest.mark.parametrize(
    ("asked_since", "yet_before"),
    [pytest.param(9, 10, id="asked"), pytest.param(10, 9, id="not asked yet")],
)
def test_nine_balls_anywhere_are_not_enough(asked_since: int, yet_before: int) -> None:
    found = compared(
        balls("short-set", EARLY, 10, 0), balls("short-set", LATE, asked_since, 0),
        balls("deep-set", EARLY, yet_before, 0), balls("deep-set", LATE, 10, 0),
        short_set=FIRST,
    )  # fmt: skip

    assert found.moved is None
    assert (found.asked.since, found.not_yet.before) == (asked_since, yet_before)


def test_a_rule_asked_on_a_day_with_nothing_to_compare_takes_nothing_from_the_others() -> None:
    rows = (
        balls("short-set", EARLY, 10, 5), balls("short-set", LATE, 12, 3),
        balls("mid-set", "2026-01-01", 1, 0), balls("mid-set", LATE, 5, 5),
        balls("deep-set", EARLY, 10, 0), balls("deep-set", LATE, 10, 0),
    )  # fmt: skip

    found = compared(*rows, short_set=FIRST, mid_set=date(2026, 1, 2))

    assert found.asked.rules == 1
    assert found.moved is not None


def test_where_every_rule_was_asked_there_is_nothing_to_compare_with() -> None:
    found = compared(
        balls("short-set", EARLY, 10, 5), balls("short-set", LATE, 10, 5), short_set=FIRST
    )

    assert (found.not_yet.rules, found.moved) == (0, None)


@cache
def lessons() -> Ledger:
    return season_in_files(advisor(), written(np.random.default_rng(1)))


def unchanged(seed: int, day_sd: float) -> OwnChange:
    """Return the comparison of a season in which no rule moved, only lessons went up and down."""
    rng, whole = np.random.default_rng(seed), lessons()
    odds = rng.normal(-1.2, 1.0, len(whole.rules))[:, None]
    days = rng.normal(0.0, day_sd, len(whole.sessions))[whole.session]
    broken = whole.met & (rng.random(whole.met.shape) < 1 / (1 + np.exp(-(odds + days))))
    first = {
        kind: date(2026, 1, int(day))
        for kind, day in zip(KINDS[:3], rng.integers(3, 9, 3), strict=True)
    }
    ledger = replace(whole, broken=broken)
    return own_change(ledger, ledger.by_rule(), first)


@pytest.mark.parametrize("day_sd", [0.0, 0.5], ids=["even lessons", "uneven lessons"])
def test_where_nothing_moved_a_find_is_rare(day_sd: float) -> None:
    found = [unchanged(seed, day_sd).moved for seed in range(SEASONS)]

    assert None not in found
    false = sum(each is not None and each.says is Said.BEYOND_CHANCE for each in found)
    assert false <= 0.08 * SEASONS
