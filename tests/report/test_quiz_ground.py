"""Small courts and doubles in a question: metres as they are on the court the player stands on."""

from dataclasses import replace

import pytest

from tactics.engine.compile import compile_rules
from tactics.flight.court import STAGES, Stage
from tactics.model.choice import Choice
from tactics.model.known import Allowed, Known, OneOf, Within, number, word
from tactics.model.scenario import Scenario
from tactics.model.standard import STANDARD
from tactics.model.verdict import Grade
from tactics.quiz.aiming import graded_spot, moved
from tactics.reading.rules import combine
from tactics.report.court_picture import BASELINE_M, DOUBLES_HALF_M, SINGLES_HALF_M, Spot
from tactics.report.quiz_ground import ground_of
from tactics.report.quiz_places import picture_words, shown_picture, target_words
from tactics.source import Source
from tests.quiz.test_aiming import RULES
from tests.screens.questions import SHOT, TO_SERVE, WIDE


def on(**facts: Known) -> Scenario:
    """Return the wide ball with other facts (`_` for a space)."""
    named = {name.replace("_", " "): known for name, known in facts.items()}
    return replace(SHOT, situation=WIDE.with_facts(named))


def aimed(scenario: Scenario, **parts: OneOf | Within) -> Scenario:
    """Return a question whose target has these parts, none of which an answer says."""
    named: dict[str, Allowed] = {name.replace("_", " "): known for name, known in parts.items()}
    options = tuple(replace(each, choice=Choice()) for each in scenario.options)
    return replace(scenario, aim=tuple(sorted(named.items())), options=options)


def target_of(scenario: Scenario) -> str:
    return target_words(scenario, shown_picture(scenario, is_answered=True, words=STANDARD))


@pytest.mark.parametrize("stage", Stage)
@pytest.mark.parametrize("form", ["singles", "doubles"])
def test_small_courts_have_the_size_the_flight_model_knows(stage: Stage, form: str) -> None:
    size = STAGES[stage]
    wide_m = size.singles_width_m if form == "singles" else size.doubles_width_m
    ground = ground_of(WIDE.with_facts({"stage": word(str(stage)), "format": word(form)}))

    assert ground.along_m(BASELINE_M) == pytest.approx(size.length_m / 2, abs=0.01)
    assert ground.aside_m(ground.half_m) == pytest.approx(wide_m / 2, abs=0.01)
    assert ground.net_m == pytest.approx(size.strap_height_m, abs=0.01)


def test_on_a_small_court_metres_and_net_are_the_childs_own() -> None:
    orange = on(stage=word("orange"), contact_height=number(1.2))
    picture = shown_picture(orange, is_answered=True, words=STANDARD)

    assert picture_words(orange, picture, STANDARD) == (
        "You are 1.2 m behind the baseline, 3.6 m to your forehand side (your right), outside "
        "the singles line.",
        "The opponent is on their baseline, 0.3 m to their forehand side (their right).",
        "The ball bounces 7.4 m from the net on your side.",
        "You meet it about 40 cm over the top of the net.",
    )
    assert target_words(orange, picture).startswith("The target is 1.5 m inside the left sideline")


def test_in_doubles_a_margin_counts_from_the_outer_sideline() -> None:
    doubles = on(format=word("doubles"))
    target = shown_picture(doubles, is_answered=True, words=STANDARD).target

    assert target is not None
    assert abs(target.x_m) == pytest.approx(DOUBLES_HALF_M - 1.5)
    assert target_of(doubles).startswith("The target is 1.5 m inside the left sideline")


def test_in_doubles_a_target_may_lie_in_the_alley() -> None:
    doubles = aimed(on(format=word("doubles")), direction=word("straight"),
                    inside_line=number(0.0))  # fmt: skip
    target = shown_picture(doubles, is_answered=True, words=STANDARD).target

    assert target is not None
    assert SINGLES_HALF_M < abs(target.x_m) < DOUBLES_HALF_M


@pytest.mark.parametrize(
    ("intent", "advised_m", "said"),
    [
        pytest.param("lob", 4.5, "1.0 m inside the baseline", id="lob-beside-a-short-aim"),
        pytest.param("lob", 11.0, "0.9 m inside the baseline", id="lob-as-advised"),
        pytest.param("drop", 10.0, "2.0 m past the net", id="drop-beside-a-deep-aim"),
        pytest.param("dip at the feet", 10.0, "4.5 m past the net", id="dip-beside-a-deep-aim"),
        pytest.param("build", 10.0, "1.9 m inside the baseline", id="any-other-intent"),
    ],
)
def test_a_target_lies_where_a_ball_of_its_intent_lands(
    intent: str, advised_m: float, said: str
) -> None:
    asked = aimed(SHOT, direction=word("middle"), intent=word(intent), depth=number(advised_m))

    assert target_of(asked).endswith(f"{said}.")


def test_a_depth_that_the_answer_says_is_where_it_is_drawn() -> None:
    asked = aimed(SHOT, direction=word("middle"), intent=word("lob"), depth=number(5.0))
    options = tuple(
        replace(each, choice=Choice((("depth", number(5.0)),))) for each in asked.options
    )

    assert target_of(replace(asked, options=options)).endswith("5.0 m past the net.")


def test_in_doubles_a_target_of_ones_own_may_lie_in_the_alley() -> None:
    rules = combine([Source(name="aims.yaml", text=RULES)], lambda _: None).value
    assert rules is not None
    advisor = compile_rules(rules, "matcher")
    spot = Spot(x_m=-3.5, y_m=10.5)
    singles = on()
    doubles = on(format=word("doubles"))
    half_m = ground_of(doubles.situation).half_m
    for _ in range(9):
        spot = moved(spot, 0, -1, half_m)

    assert -DOUBLES_HALF_M < spot.x_m < -SINGLES_HALF_M
    near = Spot(x_m=-3.9, y_m=10.5)
    assert graded_spot(advisor, replace(singles, context=Choice()), near).grade is Grade.DOUBTFUL
    assert graded_spot(advisor, replace(doubles, context=Choice()), near).grade is Grade.SOUND


@pytest.mark.parametrize(
    ("depth_m", "facts", "said"),
    [
        pytest.param(12.6, "You are set, on the baseline.", "on the baseline", id="by-name"),
        pytest.param(12.6, "You are set, 0.7 m behind the baseline.", "0.7 m behind the baseline",
                     id="by-number"),
    ],
)  # fmt: skip
def test_the_picture_is_told_like_the_facts(depth_m: float, facts: str, said: str) -> None:
    asked = replace(on(court_depth=number(depth_m)), facts=facts)
    picture = shown_picture(asked, is_answered=False, words=STANDARD)

    assert f"You are {said}," in picture_words(asked, picture, STANDARD)[0]


@pytest.mark.parametrize(
    ("road", "inside_m", "said"),
    [
        pytest.param("wide", 0.5, "0.5 m inside the sideline", id="wide"),
        pytest.param("T", 0.3, "0.3 m from the centre line", id="T"),
        pytest.param("at body", 0.5, "2.1 m inside the sideline", id="at-the-body"),
    ],
)
def test_a_serve_is_aimed_as_far_inside_its_line_as_asked(
    road: str, inside_m: float, said: str
) -> None:
    serve = aimed(TO_SERVE, direction=word(road), inside_line=number(inside_m))

    assert f"in the left box, {said}, " in target_of(serve)
