"""How often chance is called a pattern, and how often a real weakness is found: the figures.

`pytest --benchmark-only tests/bench/test_season_claims.py -s` prints them.
"""

from dataclasses import replace

import numpy as np
import pytest

from tactics.review.priorities import priorities
from tests.review.claims import at_least, at_most
from tests.review.seasons import Player, club, pool, season_of

SEASONS = 1_000

SIZES = ((300, 5), (1_000, 10), (3_000, 20))
NULL = [
    Player(rate=rate, day_sd=sd, rule_day_sd=sd, balls=balls, lessons=lessons)
    for rate in (0.1, 0.2, 0.4)
    for sd in (0.0, 0.5)
    for balls, lessons in SIZES
]
WEAK = [
    Player(rate=rate, day_sd=sd, rule_day_sd=sd, weak=weak)
    for rate in (0.1, 0.2, 0.4)
    for sd in (0.0, 0.5)
    for weak in ("wide-go-high", "three-checks-before-you-turn", "rally-with-air")
]


@pytest.mark.parametrize("player", NULL, ids=repr)
def test_false_patterns(benchmark, player: Player) -> None:
    pool()

    count = benchmark.pedantic(_false, args=(player,), rounds=1)

    print(f"\nfalse patterns {count} of {SEASONS} (surely below {at_most(count, SEASONS):.1%})")
    assert at_most(count, SEASONS) <= 0.05


@pytest.mark.parametrize("player", WEAK, ids=repr)
def test_real_weaknesses(benchmark, player: Player) -> None:
    pool()

    count, sure = benchmark.pedantic(_found, args=(player,), rounds=1)

    print(
        f"\nfound {count} of {SEASONS} (surely above {at_least(count, SEASONS):.1%}), "
        f"as a pattern {sure}"
    )
    assert at_least(count, SEASONS) >= 0.80


def _false(player: Player) -> int:
    rng = np.random.default_rng(31)
    return sum(
        any(e.sureness == "pattern" for e in (*found.chosen, *found.waiting))
        for found in (priorities(season_of(player, rng), club().rules) for _ in range(SEASONS))
    )


def _found(player: Player) -> tuple[int, int]:
    rng = np.random.default_rng(32)
    mine = [
        each
        for _ in range(SEASONS)
        for each in priorities(season_of(player, rng), club().rules).chosen
        if each.rule == player.weak
    ]
    return len(mine), sum(each.sureness == "pattern" for each in mine)


def test_a_smaller_weakness(benchmark) -> None:
    player = replace(WEAK[0], rate=0.2, gap=0.15)

    count, sure = benchmark.pedantic(_found, args=(player,), rounds=1)

    print(f"\n15 points: found {count} of {SEASONS}, as a pattern {sure}")
    assert count > sure > 0
