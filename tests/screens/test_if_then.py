"""The plan at the end of feedback: plain words, nobody named twice, no raw names of facts."""

from dataclasses import replace

import pytest

from tactics.model.known import Known, number, word
from tactics.model.scenario import Ask, Scenario
from tactics.quiz.if_then import if_then
from tests.screens.questions import SHOT


def turned_by(
    fact: str, was: Known, now: Known, phase: str = "baseline rally", **facts: str
) -> Scenario:
    """Return the wide ball turned by a fact. before, after: the sentence that tells it."""
    assert SHOT.flip is not None
    situation = SHOT.situation.with_facts({"game situation": word(phase)})
    told = f"Baseline rally; you are set. {facts.get('before', '')}"
    after = f"Baseline rally; you are set. {facts.get('after', '')}"
    flip = replace(SHOT.flip, fact=fact, was=was, now=now, facts=after)
    return replace(SHOT, situation=situation, facts=told, flip=flip)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        pytest.param(
            turned_by("balance", word("moving"), word("set")),
            "IF both of us are back and I am moving THEN",
            id="balance",
        ),
        pytest.param(
            turned_by("balance", word("set"), word("moving"), "approaching or at net"),
            "IF I am coming in or at the net and am set THEN",
            id="me-once",
        ),
        pytest.param(
            turned_by("opponent depth", number(4.7), number(7.0), "opponent at net"),
            "IF the opponent is at the net or on the way and is in the forecourt THEN",
            id="the-opponent-once",
        ),
        pytest.param(
            turned_by("incoming spin", word("slice"), word("top")),
            "IF both of us are back and the ball comes with slice THEN",
            id="ball",
        ),
        pytest.param(
            turned_by("body height", number(0.4), number(0.6)),
            "IF both of us are back and the ball is met at thigh height THEN",
            id="height",
        ),
        pytest.param(
            turned_by("opponent hand", word("left"), word("right"), "serving"),
            "IF I serve and the opponent plays with the left hand THEN",
            id="hand",
        ),
        pytest.param(
            turned_by(
                "own last ball", word("neutral"), word("strong"),
                before="Your last ball was neutral.", after="Your last ball was strong.",
            ),
            "IF both of us are back and my last ball was neutral THEN",
            id="told-alone",
        ),
        pytest.param(
            turned_by(
                "reachable", word("yes"), word("no"), "returning",
                before="You can reach the ball.", after="You cannot reach the ball.",
            ),
            "IF I return and I can reach the ball THEN",
            id="yes-or-no",
        ),
        pytest.param(
            turned_by(
                "wind", word("with"), word("against"),
                before="The wind is behind you.", after="The wind is against you.",
            ),
            "IF both of us are back and the wind is behind me THEN",
            id="behind-me",
        ),
        pytest.param(
            turned_by("partner moves", word("stays"), word("in")),
            "IF both of us are back (partner moves: stays) THEN",
            id="own-fact",
        ),
    ],
)  # fmt: skip
def test_the_fact_that_decides_is_said_plainly(asked: Scenario, said: str) -> None:
    assert if_then(asked).startswith(f"{said} I buy time")


@pytest.mark.parametrize(
    ("ask", "text", "said"),
    [
        pytest.param(Ask.SHOT, "Keep in play, straight, 60 % pace",
                     "THEN I keep the ball in play, straight, 60 % pace.", id="shot"),
        pytest.param(Ask.SHOT, "Slice, straight", "THEN I play: slice, straight.", id="stroke"),
        pytest.param(Ask.AIM, "Sharp angle, 2.2 m inside the line",
                     "THEN I aim at a sharp angle, 2.2 m inside the line.", id="aim"),
        pytest.param(Ask.AFTER, "Recover to your place", "THEN I recover to my place.", id="after"),
        pytest.param(Ask.PLAY_ON, "Let the ball go past you", "THEN I let the ball go past me.",
                     id="play-on"),
    ],
)  # fmt: skip
def test_the_answer_is_a_plan_of_mine(ask: Ask, text: str, said: str) -> None:
    options = tuple(replace(each, text=text) for each in SHOT.options)

    assert if_then(replace(SHOT, ask=ask, options=options)).endswith(said)


def test_without_a_change_there_is_no_plan() -> None:
    assert if_then(replace(SHOT, flip=None)) == ""
