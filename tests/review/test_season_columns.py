"""The columns of a season are those of judging ball by ball, and order changes no number."""

from collections.abc import Sequence
from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.engine.audit import audit
from tactics.engine.compile import compile_rules
from tactics.model.ball import Ball, Chart
from tactics.model.rule import RuleSet
from tactics.review.ledger import Heading, Ledger
from tactics.review.priorities import priorities
from tactics.review.seasons import season
from tactics.review.trend import trend
from tactics.source import Span
from tests.engine.rule_sets import choices_for, rule_sets, situations_for
from tests.engine.small_sets import choice, situation
from tests.engine.small_sets import rules as rules_of
from tests.review.rally_lessons import KINDS, advisor, season_in_files, written
from tests.review.whole_verdicts import ledger_of
from tests.strategies import outcomes

CLUB = advisor()


@st.composite
def charted(draw: st.DrawFn) -> tuple[RuleSet, list[Ball]]:
    rules = draw(rule_sets())
    ball = st.builds(
        Ball,
        situation=situations_for(rules),
        choice=choices_for(rules),
        outcome=outcomes(rules.vocabulary),
        date=st.sampled_from(["", "2026-03-14", "2026-03-21"]),
        span=st.just(Span(file="c.csv", line=2)),
    )
    return rules, draw(st.lists(ball, min_size=1, max_size=6))


@given(charted())
def test_a_season_counts_what_whole_verdicts_say(drawn: tuple[RuleSet, list[Ball]]) -> None:
    rules, balls = drawn
    club = compile_rules(rules)
    charts = [Chart(name="c.csv", balls=tuple(balls))]

    fast, slow = season(charts, club), ledger_of(audit(charts, club))

    for one, other in zip(columns(fast), columns(slow), strict=True):
        assert one.tolist() == other.tolist()
    parts = {part: codes.tolist() for part, codes in fast.parts.items() if (codes >= 0).any()}
    assert parts == {part: codes.tolist() for part, codes in slow.parts.items()}
    assert counted(fast.by_rule(), but=fast.warnings) == counted(slow.by_rule(), but=fast.warnings)
    for warning in fast.by_rule():
        whole = {each.name: each for each in slow.by_rule()}.get(warning.name)
        assert warning.broken.tolist() == ([] if whole is None else whole.broken.tolist())


def columns(ledger: Ledger) -> tuple[np.ndarray, ...]:
    return (
        ledger.kept, ledger.grade, ledger.situation, ledger.cause, ledger.cause_is_proposed,
        ledger.session,
    )  # fmt: skip


def counted(headings: Sequence[Heading], but: frozenset[str] = frozenset()) -> set[tuple]:
    return {
        (each.name, tuple(each.kept), tuple(each.broken), tuple(each.open), each.lessons)
        for each in headings
        if each.name not in but
    }


def test_every_ball_is_judged_by_the_margins_of_its_own_level() -> None:
    club = compile_rules(
        rules_of(
            "room: {concern: feasibility, strength: should, "
            "when: {game situation: baseline rally}, advise: {inside line: at least 1 scatter}}"
        )
    )
    balls = [
        Ball(
            situation=situation(f"level: {level}"),
            choice=choice("inside line: 1.4 m"),
            span=Span(file="c.csv", line=2),
        )
        for level in ("beginner", "performance", "club")
    ]
    charts = [Chart(name="c.csv", balls=tuple(balls))]

    fast, slow = season(charts, club), ledger_of(audit(charts, club))

    assert fast.grade.tolist() == slow.grade.tolist()
    assert len(set(fast.grade.tolist())) > 1


ROWS = written(np.random.default_rng(41), weak=KINDS[0], each=12, lessons=6, day_sd=0.4)


def numbers(ledger: Ledger) -> tuple:
    found, change = priorities(ledger, CLUB.rules), trend(ledger)
    assert change is not None
    return (
        [(e.rule, e.sureness, e.broken, e.rest, e.chance, e.alone, e.before) for e in found.chosen],
        [(e.name, e.before, e.after, e.interval, e.chance, e.needed) for e in change.changes],
        sorted((h.name, len(h.kept), len(h.broken), h.lessons) for h in ledger.by_rule()),
    )


WHOLE = numbers(season_in_files(CLUB, ROWS))


@pytest.mark.parametrize("seed", range(4))
def test_the_order_of_rows_and_files_changes_no_number(seed: int) -> None:
    rows, random = list(ROWS), Random(seed)
    random.shuffle(rows)
    cut = random.randint(1, len(rows) - 1)

    assert numbers(season_in_files(CLUB, rows[cut:], rows[:cut])) == close_to(WHOLE)


def test_one_file_is_the_same_as_a_file_for_every_date() -> None:
    days = sorted({row[:10] for row in ROWS})

    files = [[row for row in ROWS if row.startswith(day)] for day in days]

    assert len(files) == 6
    assert numbers(season_in_files(CLUB, *files)) == close_to(WHOLE)


def close_to(found: tuple) -> tuple:
    """Return numbers that may differ in the last bit, as sums in another order do."""
    return tuple(_close(each) for each in found)


def _close(value: object) -> object:
    if isinstance(value, float):
        return pytest.approx(value, abs=1e-9)
    if isinstance(value, tuple | list):
        return type(value)(_close(each) for each in value)
    return value


def test_balls_of_another_player_change_no_number_of_this_one() -> None:
    others = [row.replace("Wren", "Robin").replace("1.2 m", "0.3 m") for row in ROWS[::2]]
    ledger = season_in_files(CLUB, [*ROWS[:50], *others, *ROWS[50:]])
    charts = [
        replace(chart, balls=tuple(ball for ball in chart.balls if ball.player == "Wren"))
        for chart in ledger.charts
    ]

    assert set(ledger.players) == {"Wren", "Robin"}
    assert numbers(season(charts, CLUB)) == close_to(WHOLE)


def test_every_number_opens_to_its_balls() -> None:
    ledger = season_in_files(CLUB, ROWS)
    first = priorities(ledger, CLUB.rules).chosen[0]

    lines = [ledger.balls[row].span.line for row in first.heading.broken]

    depth, balance = KINDS[0].rsplit("-", 1)
    wanted = [
        line for line, row in enumerate(ROWS, start=2)
        if f",{depth},{balance},0.4 m" in row
    ]  # fmt: skip
    assert first.rule == KINDS[0]
    assert lines == wanted
    assert first.broken.count == len(wanted)
