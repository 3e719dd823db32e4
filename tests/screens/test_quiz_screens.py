"""The quiz as it stands on a terminal: an emulator reads what the frame sends."""

from dataclasses import replace

import pytest

from tactics.report.quiz_court import ASCII, GLYPHS
from tactics.screens.frame import Scene
from tactics.screens.view import LEAST, End, Size
from tests.golden import Golden
from tests.screens.emulated import Frame, Terminal, shown
from tests.screens.questions import HEIGHT, SHOT, TO_SERVE, WHERE
from tests.screens.sittings import Set, screen, seated

SIZES = [LEAST, Size(120, 40)]
LONG = replace(
    SHOT,
    note="Try this pattern ten times with a feed to the corner, and tell me what you saw.",
    because="You owe four steps or more. A ball that hangs for about two seconds pays for them, "
    "and the diagonal has the most room of all.",
)


def scene(seats: Set, *, limit_s: float | None = None, ascii_only: bool = False) -> Scene:
    quiz = screen(seats, limit_s, ascii_only=ascii_only)
    return Scene(
        draw=quiz.draw, press=quiz.press, tick=None, rest=quiz.rest, plain_signs=ascii_only
    )


def pictures(frames: list[Frame]) -> str:
    rule = "=" * 20
    return "".join(f"{rule}\n{frame.text}" for frame in frames)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size.columns}x{size.rows}")
def test_a_question_its_answer_and_the_reply(size: Size, golden: Golden) -> None:
    frames = shown(scene(seated(LONG)), "down", "down", "enter", "n", size=size)

    golden(f"quiz_screens/shot-{size.columns}x{size.rows}.txt", pictures(frames))


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size.columns}x{size.rows}")
def test_a_target_is_moved_over_the_court(size: Size, golden: Golden) -> None:
    frames = shown(scene(seated(WHERE)), "up", "up", "right", "enter", "s", size=size)

    golden(f"quiz_screens/aim-{size.columns}x{size.rows}.txt", pictures(frames[2:]))


@pytest.mark.parametrize(
    ("name", "scenario"), [("height", HEIGHT), ("serve", TO_SERVE)], ids=["height", "serve"]
)
def test_other_questions(name: str, scenario: object, golden: Golden) -> None:
    frames = shown(scene(seated(scenario)), "1", "s")  # type: ignore[arg-type]

    golden(f"quiz_screens/{name}.txt", pictures([frames[0], frames[-1]]))


def test_with_plain_characters(golden: Golden) -> None:
    frames = shown(scene(seated(WHERE), ascii_only=True), "up", "up", "enter", "s")

    golden("quiz_screens/ascii.txt", pictures([frames[0], frames[-1]]))
    assert all(frame.text.isascii() for frame in frames)


def test_a_window_that_is_too_small_says_so_and_the_quiz_comes_back(golden: Golden) -> None:
    frames = shown(scene(seated(SHOT)), "down", Size(60, 20), "1", LEAST)

    golden("quiz_screens/too-small.txt", pictures([frames[2]]))
    assert frames[-1].text == frames[1].text


def test_a_larger_window_is_used_at_once() -> None:
    frames = shown(scene(seated(SHOT)), Size(120, 40))

    assert frames[1].text == shown(scene(seated(SHOT)), size=Size(120, 40))[0].text


def test_without_colour_looks_remain_and_marks_carry_the_meaning(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    coloured = shown(scene(seated(SHOT)), "3", "s")
    monkeypatch.setenv("NO_COLOR", "1")

    plain = shown(scene(seated(SHOT)), "3", "s")

    assert [frame.text for frame in plain] == [frame.text for frame in coloured]
    assert {frame.colours for frame in plain} == {frozenset({"default"})}
    assert {"reverse", "bold"} <= plain[0].looks
    assert {"blue"} < coloured[0].colours


def test_red_never_stands_against_green() -> None:
    frames = shown(scene(seated(SHOT)), "3", "s")

    assert not {"red", "green"} & {colour for frame in frames for colour in frame.colours}


def test_the_cursor_follows_what_is_to_be_read() -> None:
    frames = shown(scene(seated(SHOT)), "down", "enter", "down", "enter")

    read = [frame.rows[frame.cursor_row].strip() for frame in frames]
    assert [each.split(maxsplit=1)[-1][:14] for each in read[:4]] == [
        "1  Force, stra", "2  Buy time, c", "s  sure", "n  not sure",
    ]  # fmt: skip
    assert "sound" in read[4].casefold()


def test_the_cursor_stands_on_the_moving_target() -> None:
    frames = shown(scene(seated(WHERE)), "left", "down")

    marks = [frame.rows[frame.cursor_row][frame.cursor_column] for frame in frames]
    assert marks == [GLYPHS["cursor"]] * 3
    assert ASCII["cursor"].isascii()


def test_text_of_a_rule_file_can_not_move_the_cursor_or_turn_the_line() -> None:
    evil = "\x1b[2J\x9b31m\u202eolleh\u2066\r\n\x07"
    options = tuple(replace(option, text=evil) for option in SHOT.options)
    spoilt = replace(
        SHOT, prompt=evil, facts=evil, options=options, because=evil, note=evil, cue=evil
    )

    frames = shown(scene(seated(spoilt)), "1", "s")

    assert all("Quiz for Robin" in frame.rows[0] for frame in frames)
    assert all("\\x1b[2J" in frame.text for frame in frames)
    assert not any("\u202e" in frame.text for frame in frames)


@pytest.mark.parametrize("key", ["stop", "end"], ids=["ctrl-c", "ctrl-d"])
def test_ctrl_c_and_ctrl_d_end_the_quiz_at_once(key: str) -> None:
    seats = seated(SHOT, TO_SERVE)
    terminal = Terminal(scene(seats), ["1", "s", "enter", key], LEAST)

    end = terminal.run()

    assert end is End.STOPPED
    assert len(seats.notebook.kept) == 1


def test_a_whole_quiz_through_its_keys() -> None:
    seats = seated(SHOT, HEIGHT, WHERE, TO_SERVE)
    keys = ["3", "s", "c", "3", "n", "enter"]
    keys += ["1", "s", "i", *"higher", "enter", "enter"]
    keys += ["up", "up", "up", "enter", "s", "enter"]
    keys += ["l", "enter"]
    terminal = Terminal(scene(seats), keys, LEAST)

    end = terminal.run()

    assert end is End.FINISHED
    assert [each.grade for each in seats.notebook.kept] == [
        "doubtful", "sound", "sound", "sound", None,
    ]  # fmt: skip
    assert seats.notebook.remarks == ["higher"]


def test_the_clock_is_shown_only_where_it_is_asked_for() -> None:
    with_clock = shown(scene(seated(SHOT), limit_s=60))[0]
    without = shown(scene(seated(SHOT)))[0]

    assert "60 s left (+: more time)" in with_clock.rows[0]
    assert "left" not in without.rows[0]
