"""Margins in multiples of the player's own sideways scatter."""

from tactics.engine.advise import advise
from tactics.engine.audit import judge_balls
from tactics.engine.compile import compile_rules
from tactics.engine.judge import judge
from tactics.engine.scatter_rules import usual_scatter_m
from tactics.model import condition
from tactics.model.ball import Ball
from tactics.model.choice import Choice
from tactics.model.known import ScatterWithin, at_least, number, word
from tactics.model.rule import Rule, RuleSet, Strength
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.model.verdict import Grade
from tactics.source import Span

ROOM = RuleSet(
    name="Room",
    precedence=("court position",),
    rules=(
        Rule(
            id="room-for-scatter",
            title="Aim where your misses are still in",
            concern="court position",
            strength=Strength.SHOULD,
            when=condition.Test(name="game situation", allowed=word("baseline rally")),
            advice=(("inside line", ScatterWithin((at_least(1.4),))),),
            span=Span(file="room", line=1),
        ),
    ),
    vocabulary=STANDARD,
    span=Span(file="room", line=1),
)
RALLY = {"game situation": word("baseline rally")}


def ball(level: str, inside_line_m: float) -> Ball:
    return Ball(
        situation=Situation.of({**RALLY, "level": word(level)}),
        choice=Choice.of({"inside line": number(inside_line_m)}),
        span=ROOM.span,
    )


def test_the_same_margin_is_enough_for_one_level_and_too_little_for_another() -> None:
    advisor = compile_rules(ROOM)

    verdicts = judge_balls(advisor, [ball("performance", 1.6), ball("beginner", 1.6)])

    assert [verdict.grade for verdict in verdicts] == [Grade.SOUND, Grade.DOUBTFUL]


def test_a_measured_scatter_counts_for_every_level() -> None:
    advisor = compile_rules(ROOM, one_scatter_m=1.0)

    verdicts = judge_balls(advisor, [ball("performance", 1.3), ball("beginner", 1.5)])

    assert [verdict.grade for verdict in verdicts] == [Grade.DOUBTFUL, Grade.SOUND]


def test_without_a_level_a_club_players_scatter_is_taken() -> None:
    advisor = compile_rules(ROOM)
    advice = advise(advisor, Situation.of(RALLY))
    enough = round(1.4 * usual_scatter_m("club"), 2)

    at_it = judge(Choice.of({"inside line": number(enough)}), advice)
    short = judge(Choice.of({"inside line": number(enough - 0.05)}), advice)

    assert (at_it.grade, short.grade) == (Grade.SOUND, Grade.DOUBTFUL)
