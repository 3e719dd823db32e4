"""Then and now: what may be said of a change, and how many balls would say more."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.report.layout import text_of
from tactics.report.reviews import priority_section, trend_section
from tactics.review.comparing import balls_needed
from tactics.review.ledger import Ledger
from tactics.review.priorities import priorities
from tactics.review.trend import Said, Trend, trend
from tests.golden import Golden
from tests.review.claims import at_most
from tests.review.rally_lessons import KINDS, advisor, season_in_files, written
from tests.review.seasons import Player, season_of

CLUB = advisor()
FEW = KINDS[:3]
SEASONS = 120


def rows(shares: dict[str, float], *, days: range, balls: int) -> list[str]:
    """Return balls of some kinds, spread evenly over days, a share of each kept."""
    found = []
    for kind, share in shares.items():
        depth, balance = kind.rsplit("-", 1)
        for number in range(balls):
            # the kept ones spread over the lessons as evenly as whole balls can be
            kept = int((number + 1) * share) > int(number * share)
            height = "1.2 m" if kept else "0.4 m"
            day = days[number * len(days) // balls]
            place = depth.replace("-", " ")
            found.append(f"2026-02-{day:02},Wren,baseline rally,{place},{balance},{height}")
    return found


def told(ledger: Ledger, since: str = "") -> str:
    sections = (
        priority_section(priorities(ledger, CLUB.rules), ledger, CLUB.rules),
        trend_section(trend(ledger, since), CLUB.rules),
    )
    return text_of(sections)


def test_a_change_over_many_files_and_dates_in_words(golden: Golden) -> None:
    autumn = rows({FEW[0]: 0.3, FEW[1]: 0.8, FEW[2]: 0.8}, days=range(1, 5), balls=60)
    spring = rows({FEW[0]: 0.7, FEW[1]: 0.75, FEW[2]: 0.8}, days=range(11, 15), balls=60)

    golden("trends/a-rule-improved.txt", told(season_in_files(CLUB, autumn, spring)))


def test_few_balls_in_words(golden: Golden) -> None:
    before = rows({FEW[0]: 0.5, FEW[1]: 0.5}, days=range(1, 3), balls=12)
    after = rows({FEW[0]: 0.75}, days=range(5, 7), balls=12)
    undated = [row.replace("2026-02-05", "") for row in after[:3]]

    ledger = season_in_files(CLUB, before, [*after, *undated])

    golden("trends/few-balls.txt", told(ledger, since="2026-02-05"))


def test_one_lesson_has_no_then_and_now() -> None:
    ledger = season_in_files(CLUB, rows({FEW[0]: 0.5}, days=range(1, 2), balls=20))

    assert trend(ledger) is None
    assert trend(ledger, since="2026-03-01") is None


def changed(before: float, after: float, balls: int) -> Trend:
    found = trend(
        season_in_files(
            CLUB,
            rows({FEW[0]: before}, days=range(1, 4), balls=balls),
            rows({FEW[0]: after}, days=range(7, 10), balls=balls),
        )
    )
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("before", "after", "balls", "says"),
    [
        (0.4, 0.8, 9, None),
        (0.5, 0.6, 30, Said.COULD_BE_CHANCE),
        (0.4, 0.8, 60, Said.BEYOND_CHANCE),
        (0.8, 0.4, 60, Said.BEYOND_CHANCE),
    ],
)
def test_what_is_said_of_a_change(
    before: float, after: float, balls: int, says: Said | None
) -> None:
    rule = next((c for c in changed(before, after, balls).changes if c.kind == "rule"), None)

    assert (None if rule is None else rule.says) is says


def test_nothing_is_compared_below_ten_balls() -> None:
    found = changed(0.4, 0.8, 9)

    assert (found.compared, found.changes, found.too_few) == (0, (), 1)


def test_the_balls_needed_are_those_of_independent_balls_where_lessons_do_not_differ() -> None:
    (rule,) = (c for c in changed(0.6, 0.7, 60).changes if c.kind == "rule")

    assert rule.needed == balls_needed(0.6, 0.75)


LEAST_NEEDED = 45
"""Fewest balls for the change that is worth seeing: from hardly ever, or to nearly always."""


@given(st.integers(0, 2**32 - 1))
def test_an_interval_holds_its_change_and_many_looks_never_make_it_surer(seed: int) -> None:
    rng = np.random.default_rng(seed)
    found = trend(season_in_files(CLUB, written(rng, each=15, lessons=4, day_sd=0.5)))

    assert found is not None
    for each in found.changes:
        low, high = each.interval
        assert low <= each.after.share - each.before.share <= high
        assert each.needed >= LEAST_NEEDED
    assert found.compared == len(found.changes)


@pytest.mark.parametrize("day_sd", [0.0, 0.5])
def test_somebody_who_does_not_change_is_hardly_ever_said_to(day_sd: float) -> None:
    player = Player(day_sd=day_sd, rule_day_sd=day_sd, lessons=12)
    rng = np.random.default_rng(51)

    false = 0
    for _ in range(SEASONS):
        found = trend(season_of(player, rng))
        assert found is not None
        false += any(each.says is Said.BEYOND_CHANCE for each in found.changes)

    assert at_most(false, SEASONS) <= 0.06


def test_a_change_of_thirty_points_in_the_balls_that_were_said_to_be_needed_is_seen() -> None:
    found = changed(0.5, 0.8, 80)

    assert next(c for c in found.changes if c.kind == "rule").says is Said.BEYOND_CHANCE


def test_the_same_share_in_both_periods_is_never_beyond_chance() -> None:
    for each in changed(0.6, 0.6, 200).changes:
        assert each.chance == 1.0
        assert each.interval[0] < 0 < each.interval[1]
