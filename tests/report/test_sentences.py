"""Situations and choices in a coach's sentence."""

import pytest
from hypothesis import given

from tactics.model.choice import Choice
from tactics.model.known import NOT_SEEN, OneOf, Within, at_least, number
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.report.phrases import OPENINGS, PHRASES
from tactics.report.sentences import choice_words, facts_words, situation_sentence
from tests.strategies import choices, situations


def situation(**facts: object) -> Situation:
    """Return a situation from words (bands looked up) and sets."""
    return Situation.of(
        {
            trait.folded: trait.value_of(value) if type(value) is str else value
            for name, value in facts.items()
            for trait in [STANDARD.trait(name)]
        }
    )


@pytest.mark.parametrize(
    ("facts", "sentence"),
    [
        pytest.param({}, "Nothing was seen.", id="nothing"),
        pytest.param({"balance": "set"}, "The player is set.", id="one-fact"),
        pytest.param(
            {"game_situation": "serving", "serve_number": "second", "serve_side": "ad"},
            "Serving; second serve, ad side.", id="serve",
        ),
        pytest.param(
            {"game_situation": "baseline rally", "incoming_depth": "deep", "incoming_time": "fast",
             "ball_line": "inside", "wing": "backhand", "contact_height": "level",
             "court_depth": "behind", "court_width": "wide backhand"},
            "Baseline rally, both players back; a fast, deep, inside ball, met on the backhand, "
            "level with the net; the player is behind the baseline, wide on the backhand side.",
            id="rally",
        ),
        pytest.param(
            {"incoming_depth": number(8.0), "contact_height": number(0.7),
             "court_depth": number(12.0)},
            "The ball, landing 8 m from the net, met 0.7 m off the ground; the player is 12 m "
            "from the net.", id="numbers",
        ),
        pytest.param(
            {"opponent_depth": Within((at_least(9.1),)), "opponent_movement": "recovering"},
            "The opponent is at least 9.1 m from the net, recovering.", id="many-bands",
        ),
        pytest.param(
            {"balance": OneOf(frozenset({"set", "moving"}))}, "The player is set or moving.",
            id="two-words",
        ),
        pytest.param(
            {"incoming_depth": "short", "score_state": "break point", "wind": "across"},
            "A short ball. Also: score state break point, wind across.", id="other-facts",
        ),
        pytest.param(
            {"incoming_depth": "short", "restricted_today": "no", "hands": "same"},
            "A short ball.", id="what-needs-no-word",
        ),
        pytest.param(
            {"ball_line": "outside", "incoming_spin": "heavy top", "balance": NOT_SEEN},
            "An outside ball, with heavy topspin.", id="an",
        ),
    ],
)  # fmt: skip
def test_a_situation_reads_as_a_sentence(facts: dict, sentence: str) -> None:
    assert situation_sentence(situation(**facts), STANDARD) == sentence


def test_a_player_can_be_spoken_to() -> None:
    said = situation_sentence(situation(balance="stretched"), STANDARD, "you")

    assert said == "You are stretched."


def test_a_choice_reads_as_its_parts_in_the_order_of_the_vocabulary() -> None:
    chosen = Choice.of(
        {
            "pace": STANDARD.trait("pace").value_of("all-out"),
            "direction": STANDARD.trait("direction").value_of("straight"),
        }
    )

    assert choice_words(chosen, STANDARD) == "direction straight, pace all-out"
    assert choice_words(Choice(), STANDARD) == "nothing was charted of the choice"


def test_facts_can_be_listed_without_a_sentence() -> None:
    facts = situation(court_width="wide forehand", balance="set")

    assert facts_words(facts, STANDARD) == "court width wide forehand, balance set"


def test_every_game_situation_has_an_opening() -> None:
    assert list(OPENINGS) == [word.name for word in STANDARD.trait("game situation").words]


@pytest.mark.parametrize("phrase", PHRASES, ids=lambda phrase: phrase.fact)
def test_a_phrase_speaks_only_of_words_its_fact_has(phrase: object) -> None:
    words = {word.name for word in STANDARD.trait(phrase.fact).words}  # type: ignore[attr-defined]

    assert set(phrase.exceptions) <= words  # type: ignore[attr-defined]


@given(situations())
def test_every_situation_reads_as_sentences_that_end(facts: Situation) -> None:
    said = situation_sentence(facts, STANDARD)

    assert said[0].isupper()
    assert said.endswith(".")
    assert "{}" not in said


@given(choices())
def test_every_choice_reads(chosen: Choice) -> None:
    assert choice_words(chosen, STANDARD)
