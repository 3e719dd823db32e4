"""Seasons of invented players: which rules a ball meets is real, who breaks them is drawn.

Balls come from invented lessons, drills and points as they follow one another, and were judged by
the rules: so every rule is met as often, and together with such others, as it would be. Whether a
player breaks a rule on a ball it meets is then drawn with a known chance, from a seed.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.ball import Ball, Chart
from tactics.review.ledger import Ledger
from tactics.review.seasons import season
from tactics.source import Span
from tests.charting.lessons import lesson_balls

POOL = 4_000
BLOCK = (8, 20)
"""Balls that follow one another in a drill or in points."""

Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Player:
    """How often every rule is broken where it is met, and how far lessons go up and down.

    day_sd: of a whole lesson, rule_day_sd: of one rule in one lesson, both in log odds; 0.5 takes
    a rate of 20 % to between 13 and 29 % in two lessons of three. weak: a rule broken more often
    by `gap`, met on so many balls (`weak_balls`).
    """

    rate: float = 0.2
    day_sd: float = 0.0
    rule_day_sd: float = 0.0
    weak: str = ""
    gap: float = 0.25
    weak_balls: int = 150
    balls: int = 1_000
    lessons: int = 10


@cache
def club() -> Advisor:
    """Return the singles rules of the project, ready."""
    rules = load_rules((), with_drills=False).reading.value
    assert rules is not None
    return compile_rules(rules)


@cache
def pool() -> Ledger:
    """Return many judged balls of invented lessons."""
    words = club().vocabulary
    balls = tuple(
        Ball(situation=b.situation, choice=b.choice, span=Span(file="pool.csv", line=2 + row))
        for row, b in enumerate(lesson_balls(POOL, 3, words))
    )
    return season([Chart(name="pool.csv", balls=balls)], club())


def season_of(player: Player, rng: np.random.Generator) -> Ledger:
    """Return one season of a player, as the counting part sees it."""
    met, lesson = _met(player, rng)
    chance = _chances(player, rng)[:, lesson]
    broken = met & (rng.random(met.shape) < chance)
    return _ledger(met, broken, lesson, player.lessons)


def _met(player: Player, rng: np.random.Generator) -> tuple[Flags, NDArray[np.intp]]:
    """Return which rules each ball meets, shape (rules, balls), and the lesson of each ball."""
    rows, lesson = _blocks(player.balls, player.lessons, rng)
    met = pool().met[:, rows]
    if not player.weak:
        return met, lesson
    place = pool().rules.index(player.weak)
    others = ~met[place]
    own = rng.choice(np.flatnonzero(pool().met[place]), player.weak_balls)
    drills = np.sort(rng.integers(0, player.lessons, player.weak_balls))
    return (
        np.concatenate((met[:, others], pool().met[:, own]), axis=1),
        np.concatenate((lesson[others], drills)),
    )


def _blocks(
    balls: int, lessons: int, rng: np.random.Generator
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    count = len(pool().balls)
    starts = rng.integers(0, count, 2 * balls // BLOCK[0])
    lengths = rng.integers(*BLOCK, len(starts))
    days = rng.integers(0, lessons, len(starts))
    rows = np.concatenate(
        [np.arange(s, s + n) % count for s, n in zip(starts, lengths, strict=True)]
    )
    return rows[:balls], np.repeat(days, lengths)[:balls]


def _chances(player: Player, rng: np.random.Generator) -> NDArray[np.float64]:
    """Return how likely each rule is broken in each lesson, shape (rules, lessons).

    The player's own rate holds over many lessons, whatever the ups and downs.
    """
    rules = pool().rules
    rates = np.array([player.rate + player.gap * (rule == player.weak) for rule in rules])
    spread = rng.normal(0.0, 1.0, player.lessons) * player.day_sd
    own = rng.normal(0.0, 1.0, (len(rules), player.lessons)) * player.rule_day_sd
    total_sd = float(np.hypot(player.day_sd, player.rule_day_sd))
    middles = {rate: _middle(rate, total_sd) for rate in set(rates.tolist())}
    centre = np.array([middles[rate] for rate in rates.tolist()])
    return 1.0 / (1.0 + np.exp(-(centre[:, None] + spread + own)))


@cache
def _middle(rate: float, sd: float) -> float:
    """Return the log odds around which lessons vary so that their mean share is `rate`."""
    nodes, weights = np.polynomial.hermite_e.hermegauss(40)
    low, high = -12.0, 12.0
    for _ in range(60):
        middle = (low + high) / 2
        share = float((weights / (1 + np.exp(-(middle + sd * nodes)))).sum() / weights.sum())
        low, high = (middle, high) if share < rate else (low, middle)
    return (low + high) / 2


def _ledger(met: Flags, broken: Flags, lesson: NDArray[np.intp], lessons: int) -> Ledger:
    whole = pool()
    count = met.shape[1]
    bad = broken.any(axis=0)
    absent = np.full(count, -1, np.int8)
    return Ledger(
        rule_set=whole.rule_set,
        charts=(),
        balls=(whole.balls[0],) * count,
        not_covered=(),
        assumed=(),
        sessions=tuple(("Wren", f"2026-01-{day + 1:02}", "") for day in range(lessons)),
        session=lesson,
        kept=bad.astype(np.int8),
        grade=absent,
        situation=absent,
        cause=absent,
        cause_is_proposed=np.zeros(count, np.bool_),
        parts={},
        rules=whole.rules,
        met=met,
        broken=broken,
        waiting=np.zeros(met.shape, np.bool_),
        warnings=whole.warnings,
    )
