"""Lessons of one stroke each, written as charts: the whole way from a file to the priorities."""

import numpy as np

from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.reading.charts import read_chart
from tactics.reading.rules import read_rules
from tactics.review.ledger import Ledger
from tactics.review.seasons import season
from tactics.source import Source

DEPTHS = ("short", "mid", "deep", "very deep")
BALANCES = ("set", "moving")
KINDS = tuple(f"{depth} {balance}".replace(" ", "-") for depth in DEPTHS for balance in BALANCES)
HEADER = "date,player,game situation,incoming depth,balance,height over net"

_RULE = """
  {id}:
    title: Air on a {id} ball
    concern: feasibility
    strength: should
    when: {{game situation: baseline rally, incoming depth: {depth}, balance: {balance}}}
    advise: {{height over net: at least 0.8 m}}
    because: The net is in the way.
    cue: More air
"""


def advisor() -> Advisor:
    """Return rules that ask for height, one for each kind of ball."""
    rules = "".join(
        _RULE.format(id=f"{depth} {balance}".replace(" ", "-"), depth=depth, balance=balance)
        for depth in DEPTHS
        for balance in BALANCES
    )
    text = f"rule set: Air\nauthor: the tests\nprecedence: [feasibility]\nrules:{rules}"
    reading = read_rules(Source(name="air.yaml", text=text))
    assert reading.value is not None, reading.problems
    return compile_rules(reading.value)


def written(
    rng: np.random.Generator,
    *,
    rate: float = 0.2,
    weak: str = "",
    each: int = 75,
    lessons: int = 10,
    day_sd: float = 0.0,
) -> list[str]:
    """Return the rows of a season: `each` balls of every kind, 150 of the weak one."""
    days = rng.normal(0.0, day_sd, lessons)
    rows = []
    for kind in KINDS:
        share = rate + 0.25 * (kind == weak)
        depth, balance = kind.rsplit("-", 1)
        for _ in range(150 if kind == weak else each):
            day = int(rng.integers(lessons))
            odds = share / (1 - share) * np.exp(days[day])
            height = "0.4 m" if rng.random() < odds / (1 + odds) else "1.2 m"
            place = depth.replace("-", " ")
            rows.append(f"2026-01-{day + 1:02},Wren,baseline rally,{place},{balance},{height}")
    return rows


def season_in_files(club: Advisor, *files: list[str]) -> Ledger:
    """Return the season read from charts, one file for each list of rows."""
    charts = []
    for number, rows in enumerate(files, start=1):
        text = "\n".join((HEADER, *rows)) + "\n"
        read = read_chart(Source(name=f"file-{number}.csv", text=text), club.vocabulary)
        assert read.value is not None
        charts.append(read.value)
    return season(charts, club)
