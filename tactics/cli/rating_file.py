"""Ratings on disk: each is flushed and synced before the next ball is asked."""

import os
import sys
from dataclasses import dataclass
from pathlib import Path

from tactics.charting.rating import Rated
from tactics.cli import files
from tactics.model.ball import Chart
from tactics.model.vocabulary import Vocabulary
from tactics.reading.ratings import (
    Rating,
    RatingFile,
    first_line,
    mark_of,
    rating_line,
    read_ratings,
)
from tactics.report.layout import counted


@dataclass(slots=True, kw_only=True)
class Keeper:
    """The ratings of one chart. rated: number of the ball in the chart -> its rating."""

    path: Path
    seed: str
    marks: tuple[str, ...]
    rows: tuple[int, ...]
    rated: dict[int, Rating]

    def save(self, rated: Rated) -> None:
        """Put a rating on disk; OSError where the disk does not take it."""
        rating = Rating(
            ball=self.marks[rated.place],
            row=self.rows[rated.place],
            rating=rated.rating,
            reason=rated.reason,
        )
        is_new = not self.path.exists() or self.path.stat().st_size == 0
        with self.path.open("ab") as file:
            text = (first_line() if is_new else "") + rating_line(rating, self.seed)
            file.write(text.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        self.rated[rated.place] = rating


def open_keeper(path: Path, chart: Chart, words: Vocabulary, seed: str) -> Keeper | None:
    """Return the ratings kept so far, or None with the reason said.

    The seed of a file that is there already goes on. A last line that was never finished is cut
    off: nobody was told that it was safe.
    """
    data = files.read_bytes(path) if path.exists() else b""
    found = read_ratings(data.decode("utf-8", "replace"))
    if found is None:
        print(
            f'tactics: "{files.shown(path)}" is there already and holds no ratings; name another '
            "file with --ratings",
            file=sys.stderr,
        )
        return None
    whole = data[: data.rfind(b"\n") + 1]
    if whole != data:
        files.write_atomic(path, whole)
        print("The last line was never finished and is cut off.", file=sys.stderr)
    marks = tuple(mark_of(ball, words) for ball in chart.balls)
    rows = tuple(ball.span.line for ball in chart.balls)
    keeper = Keeper(path=path, seed=found.seed or seed, marks=marks, rows=rows, rated={})
    _place(keeper, found)
    return keeper


def _place(keeper: Keeper, found: RatingFile) -> None:
    """Give each rating its ball: that of its row, else the only one that looks the same."""
    by_row = {
        (mark, row): at
        for at, (mark, row) in enumerate(zip(keeper.marks, keeper.rows, strict=True))
    }
    lost = 0
    for rating in found.ratings:
        at = by_row.get((rating.ball, rating.row))
        alike = [place for place, mark in enumerate(keeper.marks) if mark == rating.ball]
        if at is None and len(alike) == 1:
            at = alike[0]
        if at is None:
            lost += 1
        else:
            keeper.rated[at] = rating
    if lost:
        print(
            f"{counted(lost, 'rating')} left aside: the chart holds no such ball (any more)",
            file=sys.stderr,
        )
    if found.bad:
        print(
            f"{counted(len(found.bad), 'line')} of the ratings could not be read, the first is "
            f"line {found.bad[0]}",
            file=sys.stderr,
        )
