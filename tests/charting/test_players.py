"""Two players in one chart, a ball taken up again, the coach's mark, and answers nobody knows."""

from dataclasses import replace

import pytest

from tactics.charting.entry import Entry, Sitting, begin, for_player
from tactics.charting.menu import chosen
from tactics.charting.press import press
from tactics.charting.summary import differing_lines, grade_lines, later_lines, verdict_on
from tactics.model.ball import Ball
from tactics.model.known import word
from tactics.model.verdict import Grade
from tactics.screens.charting import Charting, so_far
from tactics.screens.charting_lines import Lines
from tests.charting.made import club, first_entry, form


def pressed(entry: Entry, *keys: str) -> Entry:
    for key in keys:
        entry = press(entry, key).entry
    return entry


def with_a_ball(*keys: str) -> Entry:
    """Return a sitting with one ball: these keys, then nothing seen."""
    entry = pressed(first_entry(), *keys)
    while not entry.balls:
        entry = press(entry, "-").entry
    return entry


def hard_and_straight() -> Ball:
    return with_a_ball("b", "f", "s", "a", "b", "b").balls[0]


def test_what_is_known_of_one_player_is_not_taken_for_another() -> None:
    kept = with_a_ball("b").balls
    sitting = Sitting(form=form(), date="2026-03-14")

    same = begin(sitting, kept)
    other = begin(sitting, kept, player="Lark")

    assert same.player == "Wren"
    assert same.standing_open == ()
    assert dict(other.standing) == {}
    assert "own hand" in other.standing_open


def test_another_player_keeps_the_court_and_is_asked_about_the_rest() -> None:
    entry = pressed(chosen(with_a_ball("b"), "other player").entry, *"Lark", "enter")

    assert entry.player == "Lark"
    assert dict(entry.standing).keys() == {"surface", "stage", "format"}
    assert "restricted today" in entry.standing_open
    back = for_player(entry, "Wren")
    assert dict(back.standing)["own hand"] == word("right")
    assert "restricted today" not in back.standing_open


def test_enter_alone_stays_with_the_player() -> None:
    before = with_a_ball("b")

    after = pressed(chosen(before, "other player").entry, "enter")

    assert (after.player, after.standing) == (before.player, before.standing)


def test_a_ball_taken_up_again_keeps_the_wind_it_was_played_in() -> None:
    entry = with_a_ball("b")
    turned = replace(entry, standing=(*entry.standing, ("wind", word("against"))))

    again = press(turned, "back").entry
    while again.taken_up is not None:
        again = press(again, "-").entry

    assert again.balls[0].situation.get("wind") == word("none")


def test_the_cue_stands_right_under_the_grade() -> None:
    lines = grade_lines(1, hard_and_straight(), club())

    assert lines[0].startswith("Ball 1: ")
    assert lines[1].startswith("  Cue: ")
    assert len(lines) > 2


def test_the_coachs_mark_stands_beside_the_grade_and_the_difference_is_said() -> None:
    ball = hard_and_straight()
    verdict = verdict_on(ball, club())
    assert verdict is not None
    assert verdict.grade is Grade.UNSOUND
    theirs = [replace(ball, mark=mark) for mark in (None, Grade.UNSOUND, Grade.SOUND)]

    assert differing_lines(theirs, 4, club()) == ("Your mark and the rules differ: ball 6.",)
    assert "Your mark: sound" in " ".join(later_lines(theirs, 4, club()))


@pytest.mark.parametrize(("written", "taken"), [("forhand", 0), ("force xyz crosscourt", 1)])
def test_a_word_nobody_knows_is_never_taken_for_its_first_letter(written: str, taken: int) -> None:
    lines = Lines(Charting(pressed(first_entry(), "b"), [].append))
    before = len(lines.charting.entry.answers)

    assert lines.take(written)

    assert len(lines.charting.entry.answers) == before + taken
    assert "is no answer here" in lines.charting.entry.notice


def test_that_the_rules_do_not_speak_about_such_balls_is_said_before_the_first() -> None:
    def said(format_: str) -> str:
        entry = first_entry()
        standing = {**dict(entry.standing), "format": word(format_)}
        return " ".join(so_far(replace(entry, standing=tuple(standing.items()))))

    assert "kept, not graded" in said("doubles")
    assert "graded" not in said("singles")


def test_a_note_takes_no_control_characters() -> None:
    entry = pressed(chosen(with_a_ball("b"), "note").entry, "paste:late\x1b[2J\tagain", "enter")

    assert entry.balls[0].note == "late [2J again"
