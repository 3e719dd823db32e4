"""The ratings of a second coach: a small CSV file that only ever grows."""

import csv
import io
from dataclasses import dataclass
from hashlib import sha256

from tactics.model.ball import Ball
from tactics.model.trait import Role
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_writing import columns, guard_text, unguard_text, write_row

HEADER = ("ball", "row", "rating", "reason", "seed")
CANNOT_SAY = "cannot say"
RATINGS = ("sound", "acceptable", "doubtful", "unsound", CANNOT_SAY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """One ball as the second coach sees it. ball: its mark, see `mark_of`; row: of the chart."""

    ball: str
    row: int
    rating: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingFile:
    """What a file of ratings holds.

    seed: that of the shuffle, "" in an empty file. kept: how much of the text stands; what is
    behind it was being written when the program was stopped. bad: lines that say nothing known.
    """

    ratings: tuple[Rating, ...] = ()
    seed: str = ""
    kept: str = ""
    bad: tuple[int, ...] = ()


def mark_of(ball: Ball, words: Vocabulary) -> str:
    """Return a short mark of situation and choice, the same on every machine; no names in it."""
    judged = [
        cell
        for trait, cell in zip(columns(words), write_row(ball, words), strict=True)
        if trait.role in (Role.FACT, Role.PART)
    ]
    return sha256("\n".join(judged).encode("utf-8")).hexdigest()[:10]


def read_ratings(text: str) -> RatingFile | None:
    """Return the ratings in a text, the later of two for one ball; None where it is none."""
    kept = text[: text.rfind("\n") + 1]
    if not kept:
        return RatingFile()
    rows = list(csv.reader(io.StringIO(kept)))
    if tuple(rows[0]) != HEADER:
        return None
    found: dict[tuple[str, int], Rating] = {}
    bad, seed = [], ""
    for number, row in enumerate(rows[1:], start=2):
        if len(row) != len(HEADER) or row[2] not in RATINGS or not row[1].isdecimal():
            bad.append(number)
            continue
        rating = Rating(ball=row[0], row=int(row[1]), rating=row[2], reason=unguard_text(row[3]))
        found.pop((rating.ball, rating.row), None)
        found[rating.ball, rating.row] = rating
        seed = row[4]
    return RatingFile(ratings=tuple(found.values()), seed=seed, kept=kept, bad=tuple(bad))


def rating_line(rating: Rating, seed: str) -> str:
    """Return one rating as a line, with its line end."""
    reason = guard_text(" ".join(rating.reason.split()))
    return _line((rating.ball, str(rating.row), rating.rating, reason, guard_text(seed)))


def first_line() -> str:
    """Return the header."""
    return _line(HEADER)


def _line(cells: tuple[str, ...]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerow(cells)
    return out.getvalue()
