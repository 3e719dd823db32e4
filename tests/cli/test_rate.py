"""A second coach's sitting: what is shown, what is hidden, what is on disk, and what comes out."""

import io
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.charting.rating import KEYS, finish, pick, shuffled, start, typed, undo
from tactics.cli.files import SAMPLE_CHART
from tactics.cli.main import Exit, safely
from tactics.reading.ratings import (
    HEADER,
    RATINGS,
    Rating,
    first_line,
    rating_line,
    read_ratings,
)
from tactics.report.blind import Blind, BlindBalls
from tactics.screens.frame import Scene
from tactics.screens.rating import RatingTalk
from tactics.screens.view import Size, text_of_line
from tests.golden import CASES, Golden
from tests.screens.emulated import shown

ROOT = Path(__file__).parents[2]
RULES = str(CASES / "advice" / "club.yaml")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copy(SAMPLE_CHART, tmp_path / "lessons.csv")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def rate(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    answers: str,
    *more: str,
) -> str:
    monkeypatch.setattr(sys, "stdin", io.StringIO(answers))
    code = safely(["rate", "lessons.csv", "--seed", "court two", "--rules", RULES, *more])
    said = capsys.readouterr()
    return f"{said.out}--- said beside\n{said.err}--- exit code {int(code)}\n"


def test_a_short_sitting_prints_exactly_this(folder, monkeypatch, capsys, golden: Golden) -> None:
    answers = "sound\n\nu, flat from too low\nhm\nd\nwould wait\nundo\na still too early\nstop\n"

    golden("rates/short-sitting.txt", rate(monkeypatch, capsys, answers))
    golden("rates/short-sitting.ratings.csv", (folder / "lessons.ratings.csv").read_text("utf-8"))


def test_a_whole_sitting_says_how_far_both_agree(
    folder, monkeypatch, capsys, golden: Golden
) -> None:
    words = ("sound", "sound", "acceptable", "unsound", "sound", "doubtful", "cannot say")
    answers = "".join(f"{words[at % 7]}\nreason {at}\n" for at in range(189))

    rate(monkeypatch, capsys, answers)
    report = rate(monkeypatch, capsys, "", "--report")

    golden("rates/whole-sitting.txt", report[: report.index("second coach:")])


def test_what_the_first_coach_and_the_rules_say_is_not_shown(folder, monkeypatch, capsys) -> None:
    said = rate(monkeypatch, capsys, "s\n\n" * 188)
    asked = said[: said.index("Second coach and first coach")]

    assert "forced error" not in asked
    assert "as intended" not in asked
    notes = [line.rsplit(",", 1)[-1].strip('" ') for line in
             (folder / "lessons.csv").read_text("utf-8").splitlines()[1:]]  # fmt: skip
    assert not [note for note in notes if len(note) > 12 and note in asked]
    assert "Wren" not in asked


def test_the_same_seed_goes_on_where_the_sitting_was_left(folder, monkeypatch, capsys) -> None:
    rate(monkeypatch, capsys, "s\n\ns\n\nstop\n")
    monkeypatch.setattr(sys, "stdin", io.StringIO("stop\n"))
    safely(["rate", "lessons.csv", "--seed", "another", "--rules", RULES])
    said = capsys.readouterr().out

    assert "order: court two" in said
    assert "Ball 3 of 189" in said


def test_a_last_line_that_was_never_finished_is_cut_off(folder, monkeypatch, capsys) -> None:
    rate(monkeypatch, capsys, "s\n\nu\n\nstop\n")
    path = folder / "lessons.ratings.csv"
    whole = path.read_bytes()
    path.write_bytes(whole[:-9])

    said = rate(monkeypatch, capsys, "stop\n")

    assert "The last line was never finished and is cut off." in said
    assert "Ball 2 of 189" in said
    assert path.read_bytes() == whole[: whole[:-9].rindex(b"\n") + 1]


def test_a_file_that_holds_no_ratings_is_left_alone(folder, monkeypatch, capsys) -> None:
    before = (folder / "lessons.csv").read_bytes()

    said = rate(monkeypatch, capsys, "s\n\nstop\n", "--ratings", "lessons.csv")

    assert "holds no ratings" in said
    assert "exit code 2" in said
    assert (folder / "lessons.csv").read_bytes() == before


def test_a_ball_that_was_charted_anew_loses_its_rating_with_a_word(
    folder, monkeypatch, capsys
) -> None:
    rate(monkeypatch, capsys, "s\n\nstop\n")
    path = folder / "lessons.ratings.csv"
    path.write_text(path.read_text("utf-8").replace("\n", "\n0000000000,", 1), "utf-8")
    row = path.read_text("utf-8").splitlines()[1].split(",")
    path.write_text(f"{','.join(HEADER)}\n{','.join([row[0], *row[2:]])}\n", "utf-8")

    assert "1 rating left aside: the chart holds no such ball" in rate(
        monkeypatch, capsys, "", "--report"
    )


def test_nothing_acknowledged_is_lost_when_the_program_is_killed(folder: Path) -> None:
    path = folder / "lessons.ratings.csv"
    acknowledged = 0
    for sitting in range(4):
        with subprocess.Popen(
            [sys.executable, "-m", "tactics", "rate", "lessons.csv", "--plain", "--rules", RULES],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=folder, text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUNBUFFERED": "1"},
        ) as run:  # fmt: skip
            assert run.stdin is not None
            assert run.stdout is not None
            wait_for(run.stdout, "[c]annot say")
            for _ in range(2 + sitting):
                run.stdin.write("doubtful too soon\n")
                run.stdin.flush()
                wait_for(run.stdout, "[c]annot say")
                acknowledged += 1
            run.kill()
        found = read_ratings(path.read_text("utf-8"))
        assert found is not None
        assert len(found.ratings) == acknowledged
        assert found.bad == ()


def wait_for(stream, text: str) -> None:
    while text not in stream.readline():
        pass


# ---- the pieces


@given(count=st.integers(0, 200), seed=st.text(max_size=8))
def test_an_order_holds_every_ball_once_and_hangs_on_the_seed_alone(count: int, seed: str) -> None:
    order = shuffled(count, seed)

    assert sorted(order) == list(range(count))
    assert order == shuffled(count, seed)


def test_different_seeds_give_different_orders() -> None:
    assert len({shuffled(30, f"{seed}") for seed in range(20)}) == 20


RATED = st.builds(
    Rating, ball=st.text("0123456789abcdef", min_size=10, max_size=10),
    row=st.integers(2, 10**6), rating=st.sampled_from(RATINGS), reason=st.text(max_size=40),
)  # fmt: skip


@given(rated=st.lists(RATED, max_size=8, unique_by=lambda each: (each.ball, each.row)),
       seed=st.text("abc 7=", max_size=6), cut=st.integers(0, 40))  # fmt: skip
def test_ratings_are_read_back_whatever_the_reason_and_wherever_the_file_ends(
    rated: list[Rating], seed: str, cut: int
) -> None:
    lines = [first_line(), *(rating_line(each, seed) for each in rated)]
    text = "".join(lines)
    torn = text[: len(text) - cut]
    whole = torn.count("\n")

    found = read_ratings(torn)

    assert found is not None
    assert found.bad == ()
    tidy = [(each.ball, each.row, each.rating, " ".join(each.reason.split())) for each in rated]
    assert [(e.ball, e.row, e.rating, e.reason) for e in found.ratings] == tidy[: max(0, whole - 1)]


def test_undo_brings_the_ball_back_and_the_new_answer_counts() -> None:
    sitting = start((4, 2, 7), frozenset())
    first = finish(typed(pick(sitting, "sound"), "safe"))
    again = undo(first.sitting)
    second = finish(pick(again, "doubtful"))

    assert first.save is not None
    assert second.save is not None
    assert (first.save.place, second.save.place) == (4, 4)
    assert again.waiting == (4, 2, 7)
    assert second.sitting.waiting == (2, 7)
    assert undo(sitting) == sitting


BALLS = BlindBalls(
    throughout="own hand left",
    balls=tuple(Blind(situation=f"Serving; ball {at}.", choice="stroke serve") for at in range(3)),
)


def screen(talk: RatingTalk) -> str:
    return "\n".join(map(text_of_line, talk.draw(Size(80, 24)).lines))


def test_the_full_screen_takes_a_letter_a_reason_and_enter() -> None:
    saved = []
    talk = RatingTalk(start((1, 0, 2), frozenset()), BALLS, saved.append)

    assert "Ball 1 of 3" in screen(talk)
    assert "ball 1." in screen(talk)
    for key in ("x", "u", *"too loW", "back", "paste:w!", "enter"):
        assert talk.press(key)
    assert [(each.place, each.rating, each.reason) for each in saved] == [
        (1, "unsound", "too low!")
    ]
    assert "Ball 2 of 3" in screen(talk)

    for key in ("back", "d", "enter"):
        talk.press(key)
    assert [(each.place, each.rating) for each in saved] == [(1, "unsound"), (1, "doubtful")]
    assert talk.rated() == "1 of 3 balls rated"


def test_the_screen_fits_a_small_terminal_and_the_cursor_is_at_the_question() -> None:
    talk = RatingTalk(start((0,), frozenset()), BALLS, lambda _: None)
    view = talk.draw(Size(80, 24))

    assert len(view.lines) <= 24
    assert text_of_line(view.lines[view.cursor.row]) == "How good was the choice?"
    assert talk.press("s")
    assert text_of_line(talk.draw(Size(80, 24)).lines[talk.draw(Size(80, 24)).cursor.row]) == ">  "
    assert not talk.press("enter")


def test_the_screen_in_a_terminal_shows_the_ball_and_saves_what_is_typed() -> None:
    saved = []
    talk = RatingTalk(start((2, 0, 1), frozenset()), BALLS, saved.append)
    scene = Scene(draw=talk.draw, press=talk.press)

    frames = shown(scene, "d", "l", "o", "w", "enter", "up", "a", "enter")

    assert "[s]ound" in frames[0].text
    assert "> low" in frames[4].text
    assert frames[4].rows[frames[4].cursor_row].rstrip() == "> low"
    assert frames[4].cursor_column == 5
    assert "Ball 2 of 3" in frames[5].text
    assert frames[6].text == frames[5].text
    assert [(each.place, each.rating, each.reason) for each in saved] == [
        (2, "doubtful", "low"), (0, "acceptable", ""),
    ]  # fmt: skip


def test_every_word_has_its_own_key_taken_from_it() -> None:
    assert [word for _, word in KEYS] == list(RATINGS)
    assert len({key for key, _ in KEYS}) == len(RATINGS)
    assert all(key in word for key, word in KEYS)


def test_a_chart_without_balls_is_nothing_to_rate(tmp_path, monkeypatch, capsys) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "lessons.csv").write_text("game situation,intent\n", "utf-8")

    assert safely(["rate", "lessons.csv"]) == Exit.COULD_NOT_RUN
    assert "there is no ball to rate" in capsys.readouterr().err
    assert not (tmp_path / "lessons.ratings.csv").exists()
