"""Where serves went, what they won, and what is still needed to compare the roads."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chi2_contingency

from tactics.model.ball import Ball
from tactics.model.choice import Choice, Outcome
from tactics.model.known import word
from tactics.model.situation import Situation
from tactics.report.layout import text_of
from tactics.report.serves import serve_section
from tactics.review.serves import ServeGroup, ServeSays, even_mix, serves
from tactics.source import Span
from tests.golden import Golden

COUNTS = tuple[int, int]
"""Points won, points played."""


def served(**roads: COUNTS) -> list[Ball]:
    """Return first serves to the deuce side between right-handers, over three lessons."""
    names = {"wide": "wide", "body": "at body", "T": "T"}
    return [
        Ball(
            situation=Situation.of(
                {
                    "game situation": word("serving"), "serve number": word("first"),
                    "serve side": word("deuce"), "own hand": word("right"),
                    "opponent hand": word("right"),
                }
            ),
            choice=Choice.of({"direction": word(names[road])}),
            outcome=Outcome(point_won="yes" if place < won else "no"),
            date=f"2026-03-{1 + place % 3:02}",
            span=Span(file="c.csv", line=2),
        )
        for road, (won, played) in roads.items()
        for place in range(played)
    ]  # fmt: skip


def group(**roads: COUNTS) -> ServeGroup:
    return serves(served(**roads)).groups[0]


def test_not_enough_serves_says_what_is_still_needed(golden: Golden) -> None:
    golden(
        "serves/not-enough.txt", text_of([serve_section(serves(served(wide=(8, 12), T=(20, 31))))])
    )


def test_enough_serves_give_the_mix_that_makes_them_equal(golden: Golden) -> None:
    balls = served(wide=(30, 40), body=(12, 40), T=(26, 40))

    golden("serves/uneven.txt", text_of([serve_section(serves(balls))]))


@pytest.mark.parametrize(
    ("roads", "says"),
    [
        ({"wide": (20, 29), "T": (5, 30)}, ServeSays.NOT_ENOUGH),
        ({"wide": (20, 60)}, ServeSays.NOT_ENOUGH),
        ({"wide": (20, 30), "T": (19, 30)}, ServeSays.EVEN),
        ({"wide": (28, 30), "T": (8, 30)}, ServeSays.UNEVEN),
    ],
)
def test_what_is_said_of_the_roads(roads: dict[str, COUNTS], says: ServeSays) -> None:
    assert group(**roads).says is says


@given(*[st.tuples(st.integers(1, 29), st.just(30))] * 3)
def test_the_chance_is_that_of_a_table_test_with_all_groups_allowed_for(
    wide: COUNTS, body: COUNTS, to_the_t: COUNTS
) -> None:
    found = group(wide=wide, body=body, T=to_the_t)
    table = [[won, played - won] for won, played in (wide, body, to_the_t)]

    # two groups are looked at, serves by number and by number, side and hands: both are these
    alone = chi2_contingency(table, correction=False).pvalue
    assert found.chance == pytest.approx(min(1.0, 2 * alone), abs=1e-6)


SEEN = st.lists(st.tuples(st.floats(0.05, 1), st.floats(0.05, 0.95)), min_size=2, max_size=3)


@given(SEEN, st.sampled_from([0.25, 0.5, 1.0]))
def test_an_even_mix_wins_equally_on_every_road_it_uses(
    drawn: list[tuple[float, float]], lean: float
) -> None:
    whole = sum(share for share, _ in drawn)
    seen = [(share / whole, won) for share, won in drawn]

    mix = even_mix(seen, lean)

    assert sum(mix) == pytest.approx(1.0)
    assert min(mix) >= -1e-12
    level = [won - lean * (new - old) for new, (old, won) in zip(mix, seen, strict=True)]
    used = [each for each, new in zip(level, mix, strict=True) if new > 1e-9]
    assert max(used) - min(used) < 1e-9
    assert all(each <= max(used) + 1e-9 for each in level)
