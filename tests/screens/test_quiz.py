"""The full screen of the quiz: what each key does, with no terminal in sight."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.model.scenario import Credit
from tactics.model.verdict import Grade
from tactics.quiz.steps import Stage
from tactics.report.visible import cells
from tactics.screens.quiz_clock import Clock
from tactics.screens.view import LEAST, Size, View, text_of_line
from tests.screens.questions import SHOT, TO_SERVE, WHERE
from tests.screens.sittings import NOON, Behind, Hand, pressed, screen, seated


def text(view: View) -> str:
    return "\n".join(text_of_line(each) for each in view.lines)


def test_an_answer_is_kept_before_it_is_answered_back() -> None:
    seats = seated(SHOT)
    shown = screen(seats)

    pressed(shown.press, "2")
    before = (seats.sitting.reply, list(seats.notebook.kept))
    pressed(shown.press, "s")

    assert before == (None, [])
    assert seats.notebook.kept[0].credit is Credit.FULL
    assert seats.notebook.kept[0].sure is True
    assert seats.sitting.state.stage is Stage.FEEDBACK


def test_nothing_is_answered_back_where_nothing_could_be_kept() -> None:
    seats = seated(SHOT)
    seats.notebook.full = "The disk is full."
    shown = screen(seats)

    goes_on = pressed(shown.press, "2", "s")

    assert goes_on == [True, False]
    assert seats.sitting.trouble == "The disk is full."
    assert seats.sitting.reply is None


@pytest.mark.parametrize(
    ("keys", "picked", "sure"),
    [
        pytest.param(["1", "s"], 0, True, id="number"),
        pytest.param(["down", "enter", "enter"], 1, True, id="arrows"),
        pytest.param(["up", "enter", "down", "enter"], 2, False, id="round-the-top"),
        pytest.param(["1", "3", "n"], 2, False, id="changed-mind"),
        pytest.param(["x", "2", "x", "n"], 1, False, id="other-keys-do-nothing"),
    ],
)
def test_an_answer_is_picked_by_number_or_by_arrows(
    keys: list[str], picked: int, sure: bool
) -> None:
    seats = seated(SHOT)

    pressed(screen(seats).press, *keys)

    assert [(each.picked, each.sure) for each in seats.notebook.kept] == [(picked, sure)]


def test_a_question_left_open_earns_and_costs_nothing() -> None:
    seats = seated(SHOT)

    pressed(screen(seats).press, "l")

    assert [(each.picked, each.credit) for each in seats.notebook.kept] == [(None, None)]
    assert seats.sitting.state.stage is Stage.FEEDBACK


def test_a_target_is_moved_and_graded() -> None:
    seats = seated(WHERE)
    shown = screen(seats)
    shown.draw(LEAST)

    pressed(shown.press, *["up"] * 2, "right", "enter", "s")

    assert shown.spot is not None
    assert (shown.spot.x_m < -1.0, shown.spot.y_m > 8.0) == (True, True)
    assert seats.notebook.kept[0].grade is Grade.SOUND
    assert seats.notebook.kept[0].picked is None


def test_who_does_not_aim_can_pick_an_answer() -> None:
    seats = seated(WHERE)
    shown = screen(seats)

    pressed(shown.press, "a", "3", "s")

    assert seats.notebook.kept[0].picked == 2


def test_the_next_question_starts_at_its_first_answer() -> None:
    seats = seated(SHOT, TO_SERVE)
    shown = screen(seats)

    pressed(shown.press, "down", "enter", "s", "enter")

    assert shown.focus == 0
    assert "Question 2 of 2: where to serve" in text(shown.draw(LEAST))


def test_after_the_last_question_the_quiz_is_over() -> None:
    seats = seated(SHOT)

    said = pressed(screen(seats).press, "1", "s", "enter")

    assert said == [True, True, False]
    assert not seats.sitting.state.is_stopped


def test_the_twin_comes_after_a_miss_and_has_no_number_of_its_own() -> None:
    seats = seated(SHOT, TO_SERVE)
    shown = screen(seats)

    pressed(shown.press, "3", "s", "c")
    asked = text(shown.draw(LEAST))
    pressed(shown.press, "3", "s", "enter")

    assert "The same ball with one fact changed" in asked
    assert [each.is_twin for each in seats.notebook.kept] == [False, True]
    assert seats.notebook.kept[1].credit is Credit.FULL
    assert "Question 2 of 2" in text(shown.draw(LEAST))


def test_the_twin_says_what_changed_and_drops_the_note_on_the_first_ball() -> None:
    noted = replace(SHOT, note="Watch this ball climb.")
    shown = screen(seated(noted))

    pressed(shown.press, "3", "s")
    first = text(shown.draw(LEAST))
    pressed(shown.press, "c")
    asked = text(shown.draw(LEAST))
    pressed(shown.press, "1", "s")

    assert "Watch this ball climb." in first
    assert asked.count("Changed: ") == 1
    assert "Watch this ball climb." not in text(shown.draw(LEAST))


def test_there_is_no_twin_after_a_sound_answer() -> None:
    seats = seated(SHOT, TO_SERVE)
    shown = screen(seats)

    pressed(shown.press, "2", "s", "c")

    assert seats.sitting.state.stage is Stage.FEEDBACK
    assert "change one thing" not in text(shown.draw(LEAST))


def test_a_line_for_the_coach_is_typed_and_kept() -> None:
    seats = seated(SHOT)
    shown = screen(seats)

    pressed(shown.press, "1", "s", "i", *"too lowx", "back", "paste: for\nme", "enter")

    assert seats.notebook.remarks == ["too low for me"]
    assert "Kept for your coach." in text(shown.draw(LEAST))


def test_while_a_line_is_typed_its_letters_are_no_keys() -> None:
    seats = seated(SHOT)
    shown = screen(seats)

    goes_on = pressed(shown.press, "1", "s", "i", "q")
    typed = text(shown.draw(LEAST))
    pressed(shown.press, "back", "enter")

    assert all(goes_on)
    assert "I see it differently: q" in typed
    assert seats.notebook.remarks == []


def test_a_pasted_line_can_not_send_control_characters() -> None:
    seats = seated(SHOT)

    pressed(screen(seats).press, "1", "s", "i", "paste:\x1b[31mred\u202e", "enter")

    assert seats.notebook.remarks == ["\\x1b[31mred\\u202e"]


def test_stopping_keeps_what_was_answered() -> None:
    seats = seated(SHOT, TO_SERVE)

    said = pressed(screen(seats).press, "1", "s", "enter", "q")

    assert said[-1] is False
    assert seats.sitting.state.is_stopped
    assert len(seats.notebook.kept) == 1


def test_the_rest_is_begun_while_the_first_question_is_read_and_fetched_when_needed() -> None:
    behind = Behind((TO_SERVE,))
    seats = seated(SHOT, behind=behind, planned=2)
    shown = screen(seats)

    begun_at_first = behind.begun
    shown.tick()
    first = text(shown.draw(LEAST))
    pressed(shown.press, "1", "s", "enter")

    assert (begun_at_first, behind.begun) == (0, 1)
    assert "Question 1 of 2" in first
    assert "Question 2 of 2" in text(shown.draw(LEAST))


def test_fewer_questions_than_planned_end_the_quiz_in_good_order() -> None:
    seats = seated(SHOT, behind=Behind(()), planned=10)

    said = pressed(screen(seats).press, "1", "s", "enter")

    assert said[-1] is False
    assert not seats.sitting.state.is_stopped


def test_the_clock_counts_down_and_gives_more_time() -> None:
    seats = seated(SHOT)
    shown = screen(seats, limit_s=20)

    changed = [shown.tick()]
    seats.hand.moves(0.2)
    changed.append(shown.tick())
    seats.hand.moves(1.0)
    changed.append(shown.tick())
    left = text(shown.draw(LEAST))
    shown.press("+")

    assert changed == [True, False, True]
    assert "19 s left" in left
    assert "49 s left" in text(shown.draw(LEAST))


def test_time_that_ran_out_is_no_answer_and_never_wrong() -> None:
    seats = seated(SHOT)
    shown = screen(seats, limit_s=20)

    seats.hand.moves(20.1)
    changed = shown.tick()

    assert changed
    assert [(each.timed_out, each.credit) for each in seats.notebook.kept] == [(True, None)]


def test_the_clock_stands_while_the_window_is_too_small_and_after_the_answer() -> None:
    seats = seated(SHOT)
    shown = screen(seats, limit_s=20)

    shown.rest(True)
    seats.hand.moves(60)
    shown.rest(False)
    standing = text(shown.draw(LEAST))
    pressed(shown.press, "1")
    seats.hand.moves(60)

    assert "20 s left" in standing
    assert not shown.tick()


def test_there_is_no_clock_unless_it_is_asked_for() -> None:
    seats = seated(SHOT)
    shown = screen(seats)

    shown.rest(True)
    seats.hand.moves(3600)

    assert not shown.tick()
    assert "s left" not in text(shown.draw(LEAST))


def test_a_clock_set_back_takes_no_time_away() -> None:
    hand, clock = Hand(), Clock(left_s=20).started(NOON)

    hand.moves(-3600)

    assert clock.left(hand.now) == 20
    assert clock.stopped(hand.now).left(NOON) == 20


def test_each_question_has_the_whole_time() -> None:
    seats = seated(SHOT, TO_SERVE)
    shown = screen(seats, limit_s=20)

    seats.hand.moves(15)
    pressed(shown.press, "1", "s", "enter")

    assert "20 s left" in text(shown.draw(LEAST))


def test_long_feedback_is_scrolled_and_says_so() -> None:
    seats = seated(SHOT)
    shown = screen(seats)

    pressed(shown.press, "3", "s", "i", *"x" * 190, "enter")
    small = text(shown.draw(Size(80, 15)))
    pressed(shown.press, "page down", "page up", "page down")
    further = text(shown.draw(Size(80, 15)))

    assert "PgDn: more" in small
    assert "PgUp" not in small
    assert further != small
    assert further.splitlines()[-1].endswith("PgUp PgDn  q: stop")


def test_every_key_that_answers_is_named() -> None:
    shown = screen(seated(SHOT, WHERE))

    pressed(shown.press, "2")
    picked = text(shown.draw(LEAST))
    pressed(shown.press, "s", "enter", "up", "enter")
    aimed = text(shown.draw(LEAST))

    assert "1 2 3: change the answer" in picked
    assert "Your answer: the cross on the court" in aimed
    assert "1 2 3" not in aimed


KEYS = st.sampled_from(
    [*"123snlaciq+x ", "enter", "up", "down", "left", "right", "back", "page up", "page down",
     "paste:a line\x1b[2J"]
)  # fmt: skip


@given(keys=st.lists(KEYS, max_size=30), columns=st.integers(80, 130), rows=st.integers(24, 45))
def test_whatever_is_pressed_the_screen_fits_and_answers_are_kept(
    keys: list[str], columns: int, rows: int
) -> None:
    seats = seated(behind=Behind((SHOT,)), planned=5)
    shown = screen(seats, limit_s=20)

    for key in keys:
        view = shown.draw(Size(columns, rows))
        assert len(view.lines) == rows
        assert max(cells(text_of_line(each)) for each in view.lines) <= columns
        if not shown.press(key):
            break

    assert len(seats.notebook.kept) == len(seats.sitting.state.answers)
    assert all(remark.isprintable() for remark in seats.notebook.remarks)
