"""Rules that only warn are counted over the balls of their situation."""

import pytest

from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.ball import Ball, Chart
from tactics.review.ledger import Heading
from tactics.review.left_alone import only_warns
from tactics.review.seasons import season
from tactics.source import Span
from tests.engine.small_sets import choice, rules, situation

WARNING = """
not-straight: {concern: feasibility, strength: should, when: {game situation: baseline rally},
  unless: [{balance: set}], if choosing: {direction: straight},
  advise: {direction: [crosscourt, middle]}}
other: {concern: feasibility, strength: should, when: {game situation: baseline rally},
  advise: {pace: at most 90 %}}
"""


def club(written: str) -> Advisor:
    return compile_rules(rules(written))


def heading(advisor: Advisor, *balls: tuple[str, str]) -> Heading | None:
    charted = tuple(
        Ball(situation=situation(facts), choice=choice(chosen), span=Span(file="c", line=2))
        for facts, chosen in balls
    )
    ledger = season([Chart(name="c", balls=charted)], advisor)
    return next((each for each in ledger.by_rule() if each.name == "not-straight"), None)


RALLY = "balance: moving"


def test_a_warning_is_kept_by_leaving_alone_what_it_warns_of() -> None:
    found = heading(
        club(WARNING),
        (RALLY, "direction: straight; pace: 60 %"),
        (RALLY, "direction: crosscourt; pace: 60 %"),
        (RALLY, "direction: middle; pace: 60 %"),
    )

    assert found is not None
    assert (found.broken.tolist(), found.kept.tolist()) == ([0], [1, 2])


@pytest.mark.parametrize(
    ("facts", "chosen"),
    [
        ("game situation: serving", "direction: wide; pace: 60 %"),
        ("balance: set", "direction: crosscourt; pace: 60 %"),
        ("", "direction: crosscourt; pace: 60 %"),
        (RALLY, "pace: 60 %"),
        (RALLY, "response: let go"),
    ],
    ids=["elsewhere", "exception", "exception unseen", "direction unseen", "no stroke"],
)
def test_a_ball_outside_its_situation_or_not_seen_is_not_counted(facts: str, chosen: str) -> None:
    found = heading(club(WARNING), (facts, chosen))

    assert found is None or not len(found.kept)


@pytest.mark.parametrize(
    ("choosing", "advise", "warns"),
    [
        ("{direction: straight}", "{direction: [crosscourt, middle]}", True),
        ("{direction: [straight, middle]}", "{direction: [crosscourt, middle]}", False),
        ("{direction: straight}", "{height over net: at least 0.8 m}", False),
        ("{direction: straight, pace: at least 80 %}", "{pace: at most 70 %}", True),
        (
            "{any: [{intent: drop}, {stroke: drop shot}]}",
            "{intent: build, stroke: forehand}",
            True,
        ),
        ("{any: [{intent: drop}, {stroke: drop shot}]}", "{intent: build}", False),
    ],
)
def test_which_rules_only_warn(choosing: str, advise: str, warns: bool) -> None:
    advisor = club(
        f"only: {{concern: feasibility, strength: should, if choosing: {choosing}, "
        f"advise: {advise}}}"
    )

    (ready,) = advisor.program.ready

    assert only_warns(ready, advisor.program) is warns


def test_warnings_are_not_among_the_others_a_rule_is_compared_with() -> None:
    advisor = club(WARNING)
    ledger = season([Chart(name="c", balls=())], advisor)

    assert ledger.warnings == {"not-straight"}
