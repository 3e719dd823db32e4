"""From charts to priorities, the whole way, on seasons of known players."""

import numpy as np

from tactics.review.priorities import Priorities, priorities
from tests.review.claims import at_least, at_most
from tests.review.rally_lessons import KINDS, advisor, season_in_files, written

SEASONS = 60
CLUB = advisor()


def judged(rng: np.random.Generator, **player: float | str) -> Priorities:
    rows = written(rng, **player)
    half = len(rows) // 2
    return priorities(season_in_files(CLUB, rows[:half], rows[half:]), CLUB.rules)


def test_charts_of_somebody_without_a_weakness_hardly_ever_show_a_pattern() -> None:
    rng = np.random.default_rng(21)

    seasons = [judged(rng, each=40, day_sd=0.4) for _ in range(SEASONS)]

    false = sum(any(e.sureness == "pattern" for e in found.chosen) for found in seasons)
    assert false / SEASONS <= 0.05
    assert at_most(false, SEASONS) <= 0.1


def test_charts_of_somebody_with_a_weakness_show_it() -> None:
    rng = np.random.default_rng(22)

    seasons = [judged(rng, each=40, weak=KINDS[2], day_sd=0.4) for _ in range(SEASONS)]

    found = sum(KINDS[2] in [e.rule for e in each.chosen] for each in seasons)
    assert at_least(found, SEASONS) >= 0.8
