"""The quick form on simulated lessons: few keys, few balls undecided."""

import os
from collections import Counter
from statistics import median, quantiles

from tactics.charting.summary import verdict_on
from tactics.model.verdict import Grade
from tests.charting.lessons import lesson_balls
from tests.charting.made import club, form
from tests.charting.simulated_coach import chart_lesson

COUNT = 500 if os.environ.get("HYPOTHESIS_PROFILE") == "ci" else 120
MOST_KEYS, MOST_UNDECIDED = 7, 0.10


def test_a_ball_takes_seven_keys_at_the_median_and_is_hardly_ever_left_undecided() -> None:
    charted = chart_lesson(lesson_balls(COUNT, 7, club().vocabulary), form())
    verdicts = [verdict_on(each.ball, club()) for each in charted]
    keys = [each.keys for each in charted]
    undecided = sum(each is not None and each.grade is Grade.UNDECIDED for each in verdicts)

    print(
        f"{COUNT} balls: median {median(keys)} keys, nine in ten at most "
        f"{quantiles(keys, n=10)[-1]}, at most {max(keys)}; {undecided} undecided; "
        f"keys -> balls: {dict(sorted(Counter(keys).items()))}"
    )
    assert median(keys) <= MOST_KEYS
    assert undecided <= MOST_UNDECIDED * COUNT
    assert all(each is not None for each in verdicts)
