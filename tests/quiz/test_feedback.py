"""What is said to an answer, for every kind of question."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from textwrap import wrap

import pytest

from tactics.model.known import number, word
from tactics.model.scenario import Ask, Credit, Flip, Quiz, Scenario
from tactics.model.verdict import Grade
from tactics.quiz.feedback import COLUMNS, ROWS, WHY, Feedback, feedback, fitting, flip_words
from tactics.quiz.steps import (
    Event,
    Pick,
    QuizState,
    Saved,
    Skip,
    Sure,
    TimeOut,
    next_step,
    start,
)
from tests.golden import CASES, Golden
from tests.quiz.written_quizzes import SHIPPED, asked, source_of
from tests.screens.questions import HEIGHT, SHOT

NOON = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
KINDS = asked(source_of(CASES / "feedback" / "every-kind.yaml"), "kinds")[0]


def answered(scenario: Scenario, *events: Event) -> QuizState:
    """Return the state of a quiz of one question after these events, each answer kept."""
    quiz = Quiz(scenarios=(scenario,), seed="", rules_hash="", generator=0)
    state = start(quiz, NOON)
    for event in events:
        state = next_step(state, event, NOON)
        if state.unsaved is not None:
            state = next_step(state, Saved(), NOON)
    return state


def said_to(scenario: Scenario, *events: Event) -> Feedback:
    """Return what is said after these events."""
    said = feedback(answered(scenario, *events))
    assert said is not None
    return said


def picked(scenario: Scenario, place: int) -> Feedback:
    """Return what is said to a pick, which the player is sure of."""
    return said_to(scenario, Pick(number=place), Sure(is_sure=True))


def whole(scenario: Scenario, said: Feedback) -> Iterator[str]:
    """Yield everything a player sees of a question and of the feedback on it."""
    yield f"# {scenario.ask.value} [{scenario.rule}]"
    yield scenario.facts
    yield scenario.prompt
    yield said.heading
    for grade, text, is_picked, is_best in said.lines:
        yield f"  {'>' if is_picked else ' '} {grade}: {text}{' (best)' if is_best else ''}"
    for label, text in (("why", said.why), ("flip", said.flip), ("cue", said.cue),
                        ("then", said.then), ("note", scenario.note)):  # fmt: skip
        if text:
            yield f"{label}: {text}"


def test_every_kind_of_question_is_answered_like_this(golden: Golden) -> None:
    found = sorted(KINDS, key=lambda each: list(Ask).index(each.ask))
    texts = ["\n".join(whole(each, picked(each, (each.sound + 1) % 3))) for each in found]

    assert {each.ask for each in found} == set(Ask)
    golden("feedback/every-kind.txt", "\n\n".join(texts) + "\n")


@pytest.mark.parametrize(
    ("grade", "credit", "heading"),
    [
        (Grade.SOUND, Credit.FULL, "Sound. That is what the rules want here."),
        (Grade.ACCEPTABLE, Credit.HALF, "Acceptable. There is a better one."),
        (Grade.DOUBTFUL, Credit.NONE, "Doubtful. There is a better one."),
        (Grade.UNSOUND, Credit.NONE, "Unsound. A firm rule stands against it."),
    ],
)
def test_a_grade_has_its_credit_and_its_heading(grade: Grade, credit: Credit, heading: str) -> None:
    options = tuple(replace(option, grade=grade) for option in SHOT.options)

    said = picked(replace(SHOT, options=options), 0)

    assert (said.credit, said.heading) == (credit, heading)


def test_nothing_is_said_before_an_answer_is_kept() -> None:
    assert feedback(answered(SHOT)) is None
    assert feedback(answered(SHOT, Pick(number=0))) is None


@pytest.mark.parametrize("event", [Skip(), TimeOut()])
def test_leaving_it_open_earns_nothing_and_costs_nothing(event: Event) -> None:
    said = said_to(SHOT, event)

    assert said.credit is None
    assert "never costs" in said.heading
    assert not any(is_picked for _, _, is_picked, _ in said.lines)
    assert said.why == SHOT.because


def test_the_changed_picture_is_offered_after_a_miss_only() -> None:
    assert picked(SHOT, 0).can_twin
    assert not picked(SHOT, SHOT.sound).can_twin
    assert not picked(HEIGHT, 1).can_twin


def test_the_advised_target_is_shown_on_the_court() -> None:
    assert picked(SHOT, 0).target == SHOT.aim


def test_the_plan_names_the_fact_that_decides_and_the_right_answer() -> None:
    assert picked(SHOT, 0).then == (
        "IF both of us are back and I am wide on the forehand side "
        "THEN I buy time, crosscourt, 2.0 m over the net."
    )
    assert picked(HEIGHT, 1).then == ""


def test_an_own_fact_is_part_of_the_plan_where_it_is_a_word() -> None:
    assert SHOT.flip is not None
    flip = replace(SHOT.flip, fact="open roof", was=word("yes"), now=word("no"))
    in_words = picked(replace(SHOT, flip=flip), 0).then
    in_numbers = picked(replace(SHOT, flip=replace(flip, was=number(3), now=number(5))), 0).then

    assert in_words.startswith("IF both of us are back (open roof: yes) THEN I buy time")
    assert in_numbers == ""


def rows(text: str) -> int:
    return len(wrap(text, COLUMNS))


def test_a_long_reason_is_cut_after_a_sentence_else_after_a_word() -> None:
    sentence = "A high ball is in the air for longer and that pays for the run."
    endless = "and so on " * 40

    assert fitting(f"{sentence} {sentence} {sentence}", WHY) == f"{sentence} {sentence}"
    assert fitting(endless, WHY).endswith(" ...")
    assert rows(WHY + fitting(endless, WHY)) == ROWS
    assert rows(WHY + fitting("x" * 400, WHY)) <= ROWS


def test_a_long_option_is_named_by_its_number_in_the_flip() -> None:
    assert SHOT.flip is not None
    long = "Build the point, crosscourt, very deep, 1.3 m over the net, 1.2 m inside the line, 65 %"
    options = tuple(
        replace(option, text=long) if place == 2 else option
        for place, option in enumerate(SHOT.options)
    )
    change = "you are in the middle third of the court, well set and with all the time you need"
    said = f"Change one thing: {change}. Then: {long}."
    flip: Flip = replace(SHOT.flip, said=said)

    assert flip_words(replace(SHOT, options=options, flip=flip)).endswith("Then: answer 3.")


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_reason_and_change_of_shipped_questions_fit_two_rows(path: Path) -> None:
    for scenario in asked(source_of(path))[0]:
        said = picked(scenario, (scenario.sound + 1) % 3)
        assert rows(WHY + said.why) <= ROWS
        assert said.why == scenario.because
        assert rows(said.flip) <= ROWS
