"""How alike the balls of one lesson are, and how many independent balls they are worth.

A player's good and bad days move all balls of a lesson together. How far lessons differ beyond
what chance would do gives the likeness of two balls of one lesson (an intra-class correlation,
estimated by moments over all rules together); from it follows by how much the balls of each rule
count less (the design effect of Kish 1965).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tactics.review.ledger import Heading, Ledger, Rows

Counts = NDArray[np.float64]
"""Balls by lesson."""
Lessons = slice | NDArray[np.bool_]
"""Some of the lessons."""


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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spread:
    """Balls of several headings by lesson, shape (headings, lessons), and how alike they are.

    Where the lessons differ no more than chance would have it, `alike` is 0 and balls count fully.
    """

    broken: Counts
    met: Counts
    alike: float

    def worth(self, heading: int, lessons: Lessons = slice(None)) -> float:
        """Return how many independent balls those of one heading are worth in these lessons."""
        balls = self.met[heading][lessons]
        return float(balls.sum()) / design_effect(balls, self.alike)

    def worth_of(self, headings: Sequence[int]) -> float:
        """Return the same for some headings together, each with its own lessons."""
        some = self.met[list(headings)]
        totals = some.sum(axis=1)
        total = float(totals.sum())
        a_lesson = (some * some).sum(axis=1) / np.maximum(totals, 1.0)
        effects = 1.0 + np.maximum(0.0, a_lesson - 1.0) * self.alike
        lost = float((totals * effects).sum())
        return total * total / lost if lost else 0.0


def spread_of(ledger: Ledger, headings: Sequence[Heading]) -> Spread:
    """Return the balls of these headings lesson by lesson."""
    lessons = len(ledger.sessions)

    def by_lesson(rows: Rows) -> Counts:
        return np.bincount(ledger.session[rows], minlength=lessons).astype(np.float64)

    empty = np.zeros((0, lessons))
    broken = np.array([by_lesson(each.broken) for each in headings]) if headings else empty
    kept = np.array([by_lesson(each.kept) for each in headings]) if headings else empty
    met = broken + kept
    return Spread(broken=broken, met=met, alike=likeness(list(broken), list(met)))
