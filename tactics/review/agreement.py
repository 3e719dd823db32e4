"""How far two people (or a person and the rules) give the same balls the same word.

Cohen's kappa with its large-sample error (Cohen 1960 and 1968; Fleiss, Cohen and Everitt 1969).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt

from tactics.review.rates import Z_95, wilson

FEWEST = 20
"""Balls below which no figure is given: kappa moves by a third for one ball."""

Table = tuple[tuple[int, ...], ...]
"""Counts: how often the first said the word of the row and the second that of the column."""

Weight = Callable[[int, int], float]
"""How far apart two places in the order of the words are; 0 for the same."""


def apart_or_not(row: int, column: int) -> float:
    """Return 1 for different words, however near."""
    return float(row != column)


def steps(row: int, column: int) -> float:
    """Return how many words lie between: linear weights."""
    return float(abs(row - column))


def squared_steps(row: int, column: int) -> float:
    """Return the square of it: quadratic weights."""
    return float((row - column) ** 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Kappa:
    """Agreement beyond chance: 1 always the same, 0 as often as chance would have it.

    error: its standard error, 0 where nothing differed; then there is no interval to give.
    """

    value: float
    error: float

    @property
    def interval(self) -> tuple[float, float] | None:
        """Return the 95 % interval from the large-sample error, or None without any difference."""
        if not self.error:
            return None
        low, high = self.value - Z_95 * self.error, self.value + Z_95 * self.error
        return (max(-1.0, low), min(1.0, high))


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """Two columns of words side by side. kappas are None where both used one word only."""

    table: Table
    n: int
    same: int
    plain: Kappa | None
    ordered: Kappa | None

    @property
    def is_enough(self) -> bool:
        """Say whether there are enough balls for figures."""
        return self.n >= FEWEST

    @property
    def interval(self) -> tuple[float, float]:
        """Return the Wilson 95 % interval of the share of balls with the same word."""
        return wilson(self.same, self.n)


def agreement(pairs: Sequence[tuple[str, str]], words: Sequence[str]) -> Agreement:
    """Return how two raters agree. words: in their order, which the weighted kappa goes by."""
    place = {word: at for at, word in enumerate(words)}
    counts = [[0] * len(words) for _ in words]
    for one, other in pairs:
        counts[place[one]][place[other]] += 1
    table = tuple(map(tuple, counts))
    return Agreement(
        table=table,
        n=len(pairs),
        same=sum(table[at][at] for at in range(len(words))),
        plain=kappa(table, apart_or_not),
        ordered=kappa(table, steps),
    )


def kappa(table: Table, weight: Weight) -> Kappa | None:
    """Return kappa of a square table, or None where chance alone would give full agreement.

    weight: how much each kind of difference counts; only ratios between weights matter.
    """
    size, n = range(len(table)), sum(map(sum, table))
    most = max((weight(i, j) for i in size for j in size), default=0.0)
    if not n or not most:
        return None
    share = [[table[i][j] / n for j in size] for i in size]
    rows = [sum(share[i]) for i in size]
    columns = [sum(share[i][j] for i in size) for j in size]
    good = [[1 - weight(i, j) / most for j in size] for i in size]
    seen = sum(share[i][j] * good[i][j] for i in size for j in size)
    chance = sum(rows[i] * columns[j] * good[i][j] for i in size for j in size)
    if 1 - chance < 1e-12:
        return None
    value = (seen - chance) / (1 - chance)
    by_row = [sum(columns[j] * good[i][j] for j in size) for i in size]
    by_column = [sum(rows[i] * good[i][j] for i in size) for j in size]
    spread = sum(
        share[i][j] * (good[i][j] - (by_row[i] + by_column[j]) * (1 - value)) ** 2
        for i in size
        for j in size
    )
    variance = (spread - (value - chance * (1 - value)) ** 2) / (n * (1 - chance) ** 2)
    return Kappa(value=value, error=sqrt(variance) if variance > 1e-12 else 0.0)
