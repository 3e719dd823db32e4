"""How alike the balls of one lesson are, and how many independent balls they are worth.

A player's good and bad days move all balls of a lesson together. How far lessons differ beyond
what chance would do gives the likeness of two balls of one lesson (an intra-class correlation,
estimated by moments over all rules together); from it follows by how much the balls of each rule
count less (the design effect of Kish 1965).
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Counts = NDArray[np.float64]
"""Balls by lesson."""


def likeness(broken: Sequence[Counts], met: Sequence[Counts]) -> float:
    """Return how alike two balls of one lesson are: 0 (not at all) to 1.

    broken, met: one entry a rule, each with its balls by lesson, shape (lessons,).
    """
    surplus, weight = 0.0, 0.0
    for hits, balls in zip(broken, met, strict=True):
        seen = balls > 0
        n, k = balls[seen], hits[seen]
        total, share = n.sum(), k.sum() / max(1.0, n.sum())
        if len(n) < 2 or share in (0.0, 1.0):
            continue
        surplus += float((((k - n * share) ** 2) / (n * share * (1 - share))).sum() - len(n) + 1)
        weight += float(((n - 1) * (1 - n / total)).sum())
    return 0.0 if weight <= 0 else min(1.0, max(0.0, surplus / weight))


def design_effect(balls: Counts, alike: float) -> float:
    """Return by how much balls count less than independent ones: 1 or more."""
    total = float(balls.sum())
    if not total:
        return 1.0
    a_lesson = float((balls * balls).sum()) / total
    return 1.0 + max(0.0, a_lesson - 1.0) * alike
