"""Keys -> balls: nothing breaks it, what was charted is read back, and undo goes back."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.charting.entry import Entry, Page, Remove, Replace
from tactics.charting.fields import TAKE_OUT, fields_of, with_word
from tactics.charting.journal import Sheet, new_sheet, text_of, written
from tactics.charting.menu import menu_of
from tactics.charting.press import open_facts, press
from tactics.charting.question import OUTCOME
from tactics.model.known import word
from tactics.model.names import fold
from tactics.reading.charts import read_chart
from tactics.screens.charting import picked_grade, view_of
from tactics.screens.view import Size
from tactics.source import Source
from tests.charting.made import club, first_entry

KEYS = st.sampled_from(
    [*"abcdefghiklmnoprstuwy-? 12BRSAO", "enter", "back", "tab", "up", "paste:off the frame"]
)
SCREEN = Size(80, 24)


def charted(keys: list[str]) -> tuple[Entry, Sheet]:
    entry, sheet = first_entry(), new_sheet(club().vocabulary)
    for key in keys:
        step = press(entry, key)
        for write in step.writes:
            sheet = written(sheet, write, club().vocabulary)
        entry = step.entry
    return entry, sheet


@given(st.lists(KEYS, max_size=40))
@settings(max_examples=15)
def test_no_keys_break_it_and_the_file_says_what_the_screen_does(keys):
    entry, sheet = charted(keys)

    read = read_chart(Source(name="lesson.csv", text=text_of(sheet)), club().vocabulary)

    assert read.value is not None
    assert read.value.left_out == ()
    assert [(each.situation, each.choice) for each in read.value.balls] == [
        (each.situation, each.choice) for each in entry.balls
    ]
    view = view_of(entry, SCREEN)
    assert len(view.lines) == SCREEN.rows
    assert all(sum(len(piece.text) for piece in line) <= SCREEN.columns for line in view.lines)


@given(st.lists(st.sampled_from([*"bmcdfnstak-", "enter"]), min_size=1, max_size=12))
@settings(max_examples=15)
def test_one_back_undoes_one_answer(keys):
    entry = first_entry()
    for key in keys:
        before, step = entry, press(entry, key)
        entry = step.entry
        is_answer = len(entry.answers) == len(before.answers) + 1
        if is_answer and not step.writes:
            assert press(entry, "back").entry.answers == before.answers


def test_the_last_ball_is_taken_up_again_and_stays_on_disk_until_it_is_complete():
    entry, _ = charted(["B"])
    while not entry.balls:
        entry = press(entry, "-").entry

    again = press(entry, "back")

    assert again.writes == ()
    assert again.entry.taken_up == 0
    assert again.entry.balls == entry.balls
    done = press(again.entry, "-")
    assert all(isinstance(write, Replace) for write in done.writes)


def test_a_ball_is_taken_out_by_the_menu():
    entry, _ = charted(["B"])
    while not entry.balls:
        entry = press(entry, "-").entry
    entry = press(entry, "tab").entry
    assert entry.page is Page.MENU

    key = next(item.key for item in menu_of(entry) if "correct" in item.word)
    for each in (key, "1", "enter"):
        entry = press(entry, each).entry
    assert entry.page is Page.BALL

    out = next(
        field.key
        for field in fields_of(entry.balls[0], club().vocabulary)
        if field.name == TAKE_OUT
    )
    step = press(entry, out)

    assert step.writes == (Remove(place=0),)
    assert step.entry.balls == ()


def asked_for_the_outcome() -> Entry:
    entry, _ = charted(["b"])
    while entry.question is not None and entry.question.name != OUTCOME:
        entry = press(entry, "-").entry
    return entry


def pressed_word(entry: Entry, name: str) -> Entry:
    assert entry.question is not None
    (option,) = (each for each in entry.question.options if each.word == name)
    return press(entry, option.key).entry


@pytest.mark.parametrize("disturbance", ["net cord", "bad bounce", "gust"])
def test_a_ball_may_be_disturbed_and_still_become_something(disturbance: str):
    entry = pressed_word(asked_for_the_outcome(), disturbance)
    assert entry.balls == ()

    (ball,) = pressed_word(entry, "net").balls

    assert (ball.outcome.disturbed, ball.outcome.landed) == (disturbance, "net")


def test_a_let_ends_the_ball_at_once():
    (ball,) = pressed_word(asked_for_the_outcome(), "let").balls

    assert (ball.outcome.disturbed, ball.outcome.ending) == ("let", "let")


@pytest.mark.parametrize(
    ("word_on_screen", "response"),
    [("let go", "let go"), ("stopped before a call", "stopped before a call")],
)
def test_a_ball_without_a_stroke_is_charted_as_such(word_on_screen: str, response: str):
    entry = pressed_word(first_entry_in_a_rally(), word_on_screen)
    while not entry.balls:
        entry = press(entry, "-").entry

    (ball,) = entry.balls
    assert ball.choice.get("response") == word(response)
    assert ball.outcome.landed == "no stroke"


def first_entry_in_a_rally() -> Entry:
    entry, _ = charted(["b"])
    return entry


@pytest.mark.parametrize("opening", [["tab"], ["tab", "t"], ["tab", "t", "o"]])
def test_a_slip_of_the_finger_closes_no_page(opening: list[str]):
    entry, _ = charted(["b", *opening])

    slipped = press(entry, "z").entry

    assert slipped.page is entry.page
    assert slipped.notice == '"z" is no key here. Enter goes back.'
    assert press(slipped, "enter").entry.page is not entry.page


def test_a_letter_counts_as_it_stands_on_the_screen():
    entry, _ = charted(["s", "u"])
    assert entry.question is not None
    assert entry.question.name == "direction"

    after = press(entry, "T").entry

    assert after.noted.choice.get("direction") == word("T")


def test_an_answer_about_the_day_wipes_out_what_was_said_before():
    entry, _ = charted(["tab", "o", "paste:Lark", "enter", "z"])
    assert entry.notice.startswith('"z" is no key')

    assert press(entry, "r").entry.notice == ""


def test_a_ball_that_turns_out_not_to_be_played_loses_its_shot_and_gets_it_back_empty():
    played = pressed_word(asked_for_the_outcome(), "as wanted").balls[0]
    response = club().vocabulary.trait("response")

    let_go = with_word(played, response, "let go")

    assert let_go.choice.as_dict() == {"response": word("let go")}
    assert (let_go.outcome.landed, let_go.outcome.as_intended) == ("no stroke", "")
    again = with_word(let_go, response, "played")
    assert again.outcome.landed == ""


def test_where_the_rules_do_not_speak_only_the_choice_and_the_ball_are_asked():
    doubles = club().vocabulary.trait("format").value_of("doubles")
    assert doubles is not None
    entry = replace(first_entry(), standing=(*first_entry().standing, ("format", doubles)))
    asked = []
    while not entry.balls:
        assert entry.question is not None
        asked.append(entry.question.name)
        entry = press(entry, "-" if asked[1:] else "b").entry

    assert asked == ["game situation", "intent", "direction", OUTCOME]


def test_what_would_decide_an_undecided_ball_can_be_noted_afterwards():
    entry, _ = charted(["b"])
    while not entry.balls:
        entry = press(entry, "-").entry
    picked = replace(entry, page=Page.BALL, picked=0)

    names = [fold(field.name) for field in fields_of(entry.balls[0], club().vocabulary,
                                                     open_facts(picked))]  # fmt: skip

    assert open_facts(picked)
    assert set(open_facts(picked)) <= set(names)
    assert any(text.startswith("Ball 1: undecided") for text in picked_grade(picked))
