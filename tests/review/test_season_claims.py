"""Seasons of invented players: chance is not called a pattern, a real weakness is found.

Each claim is held with a margin: the limit lies outside what that many seasons leave possible.
The full figures, over many more kinds of season, are printed by tests/bench/test_season_claims.py.
"""

from collections import Counter

import numpy as np
import pytest

from tactics.review.priorities import MOST, priorities
from tests.review.claims import at_least, at_most
from tests.review.seasons import Player, club, pool, season_of

FALSE, FOUND = 0.05, 0.80
NULL_SEASONS, WEAK_SEASONS = 150, 60

STEADY = Player()
UP_AND_DOWN = Player(day_sd=0.5, rule_day_sd=0.5)
CARELESS = Player(rate=0.4, balls=2_000, lessons=20)
WEAK_IN = ("wide-go-high", "three-checks-before-you-turn", "rally-with-air")


@pytest.mark.parametrize(
    "player", [STEADY, UP_AND_DOWN, CARELESS], ids=["steady", "up and down", "careless"]
)
def test_somebody_with_no_weakness_is_hardly_ever_shown_a_pattern(player: Player) -> None:
    rng = np.random.default_rng(11)

    false = sum(bool(patterns(season_of(player, rng))) for _ in range(NULL_SEASONS))

    assert at_most(false, NULL_SEASONS) <= FALSE + 0.01


@pytest.mark.parametrize("day_sd", [0.0, 0.5], ids=["steady", "up and down"])
@pytest.mark.parametrize("weak", WEAK_IN)
def test_a_real_weakness_is_among_the_priorities(weak: str, day_sd: float) -> None:
    player = Player(weak=weak, day_sd=day_sd, rule_day_sd=day_sd)
    rng = np.random.default_rng(12)

    found = sum(
        weak in [each.rule for each in priorities(season_of(player, rng), club().rules).chosen]
        for _ in range(WEAK_SEASONS)
    )

    assert at_least(found, WEAK_SEASONS) >= FOUND


def test_the_rules_of_a_season_are_met_as_often_as_in_lessons() -> None:
    rng = np.random.default_rng(13)

    shares = [each.met.mean(axis=1) for each in (season_of(STEADY, rng) for _ in range(20))]

    often = pool().met.sum(axis=1) >= 40
    assert often.sum() > 40
    assert np.mean(shares, axis=0)[often] == pytest.approx(pool().met.mean(axis=1)[often], rel=0.5)


def test_players_break_rules_as_often_as_they_are_made_to() -> None:
    rng = np.random.default_rng(14)
    seasons = [season_of(UP_AND_DOWN, rng) for _ in range(30)]

    shares = [each.broken.sum() / each.met.sum() for each in seasons]

    assert np.mean(shares) == pytest.approx(UP_AND_DOWN.rate, abs=0.03)
    assert np.std(shares) > 0.01


def test_a_season_never_has_more_than_three_priorities_each_with_its_reason() -> None:
    rng = np.random.default_rng(15)

    for _ in range(30):
        found = priorities(season_of(STEADY, rng), club().rules)
        assert len(found.chosen) <= MOST
        assert Counter(str(each.before) == "last" for each in found.chosen)[True] <= 1
        assert all(len(e.heading.broken) == e.broken.count for e in found.chosen)


def patterns(season) -> list[str]:
    """Return every rule that is called a pattern, shown or waiting."""
    found = priorities(season, club().rules)
    return [e.rule for e in (*found.chosen, *found.waiting) if e.sureness == "pattern"]
