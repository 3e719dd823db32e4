"""A question as rows of text: to scale, within the window, safe to show, and never cut short."""

import unicodedata
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.model.known import number, word
from tactics.model.scenario import Ask, Scenario
from tactics.model.standard import STANDARD
from tactics.report.court_picture import BASELINE_M, SINGLES_HALF_M, Picture, Spot
from tactics.report.quiz_court import ASCII, GLYPHS, Scale, court_rows, scale_for
from tactics.report.quiz_page import Page, Room
from tactics.report.quiz_places import picture_words, shown_picture, spot_words, target_words
from tactics.report.quiz_sheet import Ink, Row, text_of_row, width_of, wrapped_to
from tactics.report.quiz_side import height_words, side_words
from tactics.report.quiz_view import (
    Own,
    Shown,
    feedback_page,
    question_page,
    sure_page,
    typed_rows,
)
from tactics.report.visible import cells
from tests.screens.questions import ALL, HEIGHT, SHOT, TO_SERVE, WHERE, Said

ROOMS = [Room(), Room(columns=120, rows=40), Room(columns=200, rows=60), Room(columns=81, rows=25)]
MINE = Own(spot=Spot(x_m=1.0, y_m=9.0), text="To the middle, 3.1 m inside", grade="doubtful")
TEXTS = st.text(max_size=400)


def shown(room: Room = ROOMS[0], *, ascii_only: bool = False) -> Shown:
    return Shown(
        words=STANDARD,
        marks=ASCII if ascii_only else GLYPHS,
        room=room,
        title="Quiz for Robin   Question 3 of 10: which shot",
        keys="1 2 3: answer",
    )


def pages(scenario: Scenario, looks: Shown, said: Said) -> list[Page]:
    return [
        question_page(looks, scenario, 0),
        question_page(looks, scenario, 2, Spot(x_m=1.0, y_m=9.0)),
        sure_page(looks, scenario, 1, 0),
        feedback_page(looks, scenario, said, MINE),
    ]


def text(page: Page) -> str:
    return "\n".join(map(text_of_row, page.rows))


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: f"{room.columns}x{room.rows}")
@pytest.mark.parametrize("scenario", ALL, ids=lambda each: each.ask.value)
def test_every_page_fills_the_window_and_no_more(scenario: Scenario, room: Room) -> None:
    made = pages(scenario, shown(room), Said())

    assert {len(page.rows) for page in made} == {room.rows}
    assert max(width_of(row) for page in made for row in page.rows) <= room.columns
    assert not any(page.has_more for page in made)


@pytest.mark.parametrize("scenario", ALL, ids=lambda each: each.ask.value)
def test_with_plain_characters_nothing_else_is_drawn(scenario: Scenario) -> None:
    made = pages(scenario, shown(ascii_only=True), Said())

    assert all(text(page).isascii() for page in made)


@given(words=TEXTS, mark=st.characters())
def test_no_text_of_a_rule_file_moves_the_cursor_or_turns_a_line(words: str, mark: str) -> None:
    said = f"{words}{mark}"
    options = tuple(replace(option, text=said) for option in SHOT.options)
    scenario = replace(SHOT, prompt=said, facts=said, options=options, note=said)
    reply = Said(heading=said, why=said, flip=said, then=said, lines=(("sound", said, True, True),))

    made = pages(scenario, shown(), reply)

    drawn = "".join(text(page) for page in made).replace("\n", "")
    assert not {unicodedata.category(each) for each in drawn} & {"Cc", "Cf", "Zl", "Zp", "Cs"}
    assert max(width_of(row) for page in made for row in page.rows) <= 80


@given(TEXTS)
def test_wrapping_loses_no_word(words: str) -> None:
    lines = wrapped_to(words, 20, "  ")

    assert all(cells(line) <= 20 for line in lines)
    assert "".join("".join(lines).split()) == "".join(wrapped_to(words, 10_000)).replace(" ", "")


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        pytest.param("Build, 0.8 m over", ("Build,", "0.8 m", "over"), id="metres"),
        pytest.param("slow, 62 % pace", ("slow,", "62 %", "pace"), id="share"),
        pytest.param("I am 5 m. Then", ("I am", "5 m.", "Then"), id="at-the-end"),
        pytest.param("a m b", ("a m b",), id="no-number"),
    ],
)
def test_a_number_keeps_its_unit(words: str, rows: tuple[str, ...]) -> None:
    assert wrapped_to(words, 7) == rows


@pytest.mark.parametrize("half", [3, 4, 5, 6])
def test_the_court_is_in_proportion(half: int) -> None:
    scale = Scale(half=half)

    long = scale.column(BASELINE_M) - scale.column(-BASELINE_M)
    wide = 2 * (scale.row(SINGLES_HALF_M) - scale.row(-SINGLES_HALF_M))

    assert long / wide == pytest.approx(BASELINE_M / SINGLES_HALF_M, rel=0.05)


@given(st.integers(20, 300), st.integers(5, 100))
def test_the_largest_court_that_fits_is_drawn(columns: int, rows: int) -> None:
    scale = scale_for(columns, rows)

    fits = scale.columns <= columns and scale.rows <= rows
    assert fits or scale == Scale(half=3)


def test_the_cursor_is_on_the_answer_in_focus() -> None:
    page = question_page(shown(), SHOT, 1)

    assert text_of_row(page.rows[page.cursor_row]).startswith(" ► 2")


def test_the_cursor_is_on_the_target_while_it_is_moved() -> None:
    page = question_page(shown(), WHERE, 0, Spot(x_m=0.0, y_m=9.0))

    assert row_text(page.rows[page.cursor_row])[page.cursor_column] == GLYPHS["cursor"]


def row_text(row: Row) -> str:
    return "".join(part for _, part in row)


@pytest.mark.parametrize("behind_m", [0.0, 0.3, 2.0])
def test_a_bounce_at_the_players_feet_is_not_hidden(behind_m: float) -> None:
    picture = Picture(
        player=Spot(x_m=1.0, y_m=-10.0 - behind_m),
        opponent=Spot(x_m=0.0, y_m=12.0),
        source=Spot(x_m=0.0, y_m=12.0),
        bounce=Spot(x_m=1.0, y_m=-10.0),
    )

    drawn = "\n".join(map(row_text, court_rows(picture, Scale(half=3), GLYPHS)))

    assert drawn.count(GLYPHS["bounce"]) == drawn.count(GLYPHS["player"]) == 1


def test_the_target_is_drawn_only_after_the_answer() -> None:
    asked, answered = question_page(shown(), SHOT, 0), feedback_page(shown(), SHOT, Said())

    assert GLYPHS["aim"] not in text(asked)
    assert GLYPHS["aim"] in text(answered)


@given(st.floats(0.5, 17), st.floats(-6, 6), st.floats(0.5, 17), st.floats(-6, 6), st.booleans())
def test_both_players_always_have_their_names(
    depth_m: float, width_m: float, their_depth_m: float, their_width_m: float, ascii_only: bool
) -> None:
    picture = Picture(
        player=Spot(x_m=width_m, y_m=-depth_m),
        opponent=Spot(x_m=their_width_m, y_m=their_depth_m),
        source=Spot(x_m=their_width_m, y_m=their_depth_m),
    )

    rows = court_rows(picture, Scale(half=3), ASCII if ascii_only else GLYPHS)

    drawn = "\n".join(map(row_text, rows))
    assert "you" in drawn
    assert "opp." in drawn


def test_the_box_a_serve_has_to_find_is_dotted() -> None:
    asked = text(question_page(shown(), TO_SERVE, 0)).splitlines()[1:11]

    dotted = [place for place, row in enumerate(asked) if "· · · ·" in row[:45]]
    middle = next(place for place, row in enumerate(asked) if "├" in row)
    assert dotted
    assert max(dotted) < middle  # served from the right: the box on the left


def test_a_target_is_drawn_inside_the_court() -> None:
    far = replace(SHOT, aim=(("depth", number(12.4)), ("direction", word("straight")),
                             ("inside line", number(-0.5))))  # fmt: skip

    picture = shown_picture(far, is_answered=True, words=STANDARD)

    assert picture.target is not None
    assert picture.target.y_m < BASELINE_M
    assert abs(picture.target.x_m) < SINGLES_HALF_M


def test_a_fact_that_changed_stands_out_on_the_twin() -> None:
    twin = replace(SHOT, facts=SHOT.facts.replace("moving", "set"))

    page = question_page(replace(shown(), before=SHOT.facts), twin, 0)

    strong = [text for row in page.rows for ink, text in row if ink is Ink.STRONG]
    assert any(each.startswith("Changed: You are set") for each in strong)
    assert not any(each.startswith("The opponent") for each in strong)


def test_no_ball_comes_in_at_a_serve() -> None:
    picture = shown_picture(TO_SERVE, is_answered=False, words=STANDARD)

    assert picture.source is None
    assert picture.opponent is not None


def test_heights_on_offer_stand_over_the_net_in_their_order() -> None:
    page = question_page(shown(), HEIGHT, 0)
    rows = [text_of_row(row)[46:] for row in page.rows[:10]]

    places = {each: next(n for n, row in enumerate(rows) if each in row.split()) for each in "123"}

    assert places["1"] < places["3"] < places["2"]


def test_what_does_not_fit_can_be_scrolled_to() -> None:
    long = replace(SHOT, note="one two three four five six seven eight nine ten " * 20 + "end")

    first = feedback_page(shown(), long, Said())
    last = feedback_page(replace(shown(), scrolled=50), long, Said())

    assert first.has_more
    assert not last.has_more
    assert "end" in text(last)


def test_a_long_list_of_answers_scrolls_to_the_one_in_focus() -> None:
    options = tuple(replace(each, text="a word " * 60) for each in SHOT.options)

    page = question_page(shown(), replace(SHOT, options=options), 2)

    assert text_of_row(page.rows[-2]).strip()
    assert any(row_text(row).startswith(" ► 3") for row in page.rows)


def test_facts_that_fit_nowhere_else_come_last() -> None:
    long = replace(SHOT, facts=SHOT.facts * 2)

    page = feedback_page(shown(), long, Said())

    assert page.has_more
    assert text(page).index("THEN I lift it") < text(page).index("Baseline rally")


def test_a_line_being_written_has_the_cursor_behind_it() -> None:
    rows = typed_rows(shown(), "I see it differently: ", "too far")

    page = feedback_page(shown(), SHOT, Said(), heard=rows)

    assert page.cursor_column == len("I see it differently: too far")


@pytest.mark.parametrize(
    ("height_m", "short", "said"),
    [
        pytest.param(0.914, "ball level with the net", "level with the net", id="level"),
        pytest.param(
            1.57, "ball 65 cm over the net", "about 65 cm over the top of the net", id="over"
        ),
        pytest.param(
            0.3, "ball 60 cm below the net", "about 60 cm below the top of the net", id="under"
        ),
    ],
)
def test_heights_are_told_against_the_net(height_m: float, short: str, said: str) -> None:
    assert (side_words(height_m), height_words(height_m)) == (short, said)


@pytest.mark.parametrize(
    ("spot", "said"),
    [
        pytest.param(Spot(x_m=0.1, y_m=9.0), "in the middle, 2.9 m inside the baseline",
                     id="middle"),
        pytest.param(Spot(x_m=-2.6, y_m=10.0), "1.5 m inside the left sideline, 1.9 m inside the "
                     "baseline", id="left"),
        pytest.param(Spot(x_m=5.1, y_m=3.0), "1.0 m outside the right sideline, 3.0 m past the "
                     "net", id="outside"),
    ],
)  # fmt: skip
def test_a_place_has_words(spot: Spot, said: str) -> None:
    assert spot_words(spot) == said


def test_the_picture_is_told_thing_by_thing() -> None:
    picture = shown_picture(SHOT, is_answered=True, words=STANDARD)

    told = picture_words(SHOT, picture, STANDARD)

    assert told == (
        "You are 1.5 m behind the baseline, 4.6 m to your forehand side (your right), outside "
        "the singles line.",
        "The opponent is on their baseline, 0.4 m to their forehand side (their right).",
        "The ball bounces 9.6 m from the net on your side.",
        "You meet it about 65 cm over the top of the net.",
    )
    assert target_words(SHOT, picture) == (
        "The target is 1.5 m inside the left sideline, 1.9 m inside the baseline."
    )


@pytest.mark.parametrize("ask", [Ask.AFTER, Ask.PLAY_ON, Ask.NAME])
def test_what_is_no_stroke_has_no_target(ask: Ask) -> None:
    picture = shown_picture(replace(SHOT, ask=ask), is_answered=True, words=STANDARD)

    assert picture.target is None
    assert target_words(SHOT, picture) == ""


def test_the_height_of_the_ball_is_left_to_a_side_view() -> None:
    picture = shown_picture(SHOT, is_answered=False, words=STANDARD)

    told = picture_words(SHOT, picture, STANDARD, with_height=False)

    assert told == picture_words(SHOT, picture, STANDARD)[:-1]


def test_a_left_hander_is_told_the_mirrored_side() -> None:
    mirrored = replace(SHOT, situation=SHOT.situation.mirrored())

    picture = shown_picture(mirrored, is_answered=True, words=STANDARD)

    assert (
        "4.6 m to your forehand side (your left)" in picture_words(mirrored, picture, STANDARD)[0]
    )
    assert "1.5 m inside the right sideline" in target_words(SHOT, picture)


@pytest.mark.parametrize(
    ("depth_m", "said"),
    [
        pytest.param(11.8, "on the baseline", id="on"),
        pytest.param(9.0, "2.9 m inside the baseline", id="inside"),
        pytest.param(3.0, "3.0 m from the net", id="net"),
    ],
)
def test_depths_are_told_from_the_nearest_line(depth_m: float, said: str) -> None:
    moved = replace(SHOT, situation=SHOT.situation.with_facts({"court depth": number(depth_m)}))

    picture = shown_picture(moved, is_answered=False, words=STANDARD)

    assert f"You are {said}," in picture_words(moved, picture, STANDARD)[0]
