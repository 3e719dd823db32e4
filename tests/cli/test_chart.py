"""`tactics chart` as a process: pipes, a real terminal, a file that is there already."""

import csv
import io
import os
import signal
import subprocess
import sys
from pathlib import Path

import pexpect
import pytest

from tactics.charting.entry import Append, Replace
from tactics.charting.questions import standing_questions
from tactics.cli.chart_file import alone_with, open_chart
from tactics.cli.main import Exit, safely
from tactics.model.standard import STANDARD
from tests.charting.killed import ball
from tests.charting.made import form

DAY = ("--date", "2026-03-14", "--player", "Wren")
ONE_BALL = "\n" * len(standing_questions(form(), {})) + "b\n" + "\n" * 9
"""Nothing about the day, a baseline rally, and whatever is asked left open."""


def piped(path: Path, answers: str, *more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "tactics", "chart", str(path), *DAY, *more],
        input=answers, capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip


def rows_of(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_text("utf-8"))))


def test_a_ball_through_a_pipe_stands_in_the_file(tmp_path):
    path = tmp_path / "lesson.csv"

    done = piped(path, ONE_BALL)

    assert "\x1b" not in done.stdout
    assert done.returncode == Exit.FINE
    assert "What was the ball meant to do?" in done.stdout
    assert [row["game situation"] for row in rows_of(path)][:1] == ["baseline rally"]
    assert safely(["audit", str(path)]) == Exit.FINE


def test_a_chart_goes_on_and_keeps_what_nobody_knows(tmp_path):
    path = tmp_path / "lesson.csv"
    path.write_text(
        "date,player,game situation,court,balls\n"
        "2026-03-07,Wren,baseline rally,4,new\n2026-03-07,Wren,no such word,5,old\n",
        "utf-8",
    )

    piped(path, ONE_BALL)

    rows = rows_of(path)
    assert len(rows) >= 3
    assert [row["court"] for row in rows[:2]] == ["4", "5"]
    assert rows[1]["game situation"] == "no such word"
    assert rows[2]["date"] == "2026-03-14"


def test_a_line_that_was_never_finished_is_cut_off(tmp_path):
    path = tmp_path / "lesson.csv"
    piped(path, ONE_BALL)
    whole = path.read_text("utf-8")
    path.write_text(whole + "2026-03-14,Wr", "utf-8")

    done = piped(path, "")

    assert "The last line broke off" in done.stderr
    assert path.read_text("utf-8") == whole


def test_two_windows_do_not_chart_into_one_file(tmp_path, capsys):
    path = tmp_path / "lesson.csv"
    with alone_with(path) as is_alone:
        assert is_alone
        assert safely(["chart", str(path), "--plain"]) == Exit.COULD_NOT_RUN

    assert "is being charted in another window" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("lesson.xlsx", b"PK\x03\x04rest", "is a spreadsheet"),
        ("lesson.csv", b"once upon a time\nthere was\n", "cannot be read as a chart"),
    ],
)
def test_a_file_that_is_no_chart_is_left_alone(tmp_path, capsys, name, data, said):
    path = tmp_path / name
    path.write_bytes(data)

    assert safely(["chart", str(path), "--plain"]) == Exit.COULD_NOT_RUN
    assert said in capsys.readouterr().err
    assert path.read_bytes() == data


def test_a_blank_sheet_is_written_and_never_over_another(tmp_path, capsys):
    path = tmp_path / "blank.xlsx"

    assert safely(["chart", "--blank", str(path)]) == Exit.FINE
    assert safely(["audit", str(path)]) in (Exit.FINE, Exit.PROBLEMS, Exit.COULD_NOT_RUN)
    assert safely(["chart", "--blank", str(path)]) == Exit.COULD_NOT_RUN
    assert "is there already" in capsys.readouterr().err


@pytest.mark.parametrize("arguments", [[], ["no/such/folder/lesson.csv"]])
def test_where_nothing_can_be_written_that_is_said(arguments, capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)

    assert safely(["chart", *arguments]) == Exit.COULD_NOT_RUN
    assert capsys.readouterr().err.startswith("tactics: ")


def test_a_full_disk_ends_it_with_a_sentence(tmp_path):
    path = tmp_path / "lesson.csv"
    piped(path, "")
    size = path.stat().st_size
    script = (
        "import resource, sys; from tactics.cli.main import safely; "
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({size + 5}, {size + 5})); "
        "import signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN); "
        "sys.exit(safely(sys.argv[1:]))"
    )

    done = subprocess.run(
        [sys.executable, "-c", script, "chart", str(path), *DAY],
        input=ONE_BALL, capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip

    assert done.returncode == Exit.COULD_NOT_RUN
    assert done.stderr.startswith("tactics: ")
    assert path.stat().st_size == size


def test_on_a_real_terminal_ctrl_c_leaves_a_whole_file(tmp_path):
    path = tmp_path / "lesson.csv"
    child = pexpect.spawn(
        sys.executable, ["-m", "tactics", "chart", str(path), *DAY],
        dimensions=(24, 80), encoding="utf-8", timeout=20,
        env={**os.environ, "TERM": "xterm"},
    )  # fmt: skip
    child.expect("Charting")
    for _ in range(12):
        child.send("-")
    child.sendcontrol("c")
    child.expect("On disk")
    child.expect(pexpect.EOF)
    child.close()

    assert child.exitstatus == Exit.STOPPED
    assert path.read_text("utf-8").endswith("\n")


def on_a_terminal(path: Path) -> "pexpect.spawn[str]":
    return pexpect.spawn(
        sys.executable, ["-m", "tactics", "chart", str(path), *DAY, *KNOWN],
        dimensions=(24, 80), encoding="utf-8", timeout=20,
        env={**os.environ, "TERM": "xterm"},
    )  # fmt: skip


KNOWN = (
    "own hand=left", "opponent hand=right", "backhand grip=two-handed", "level=club",
    "stage=full court", "format=singles", "surface=slow", "wind=none", "restricted today=no",
)  # fmt: skip


def test_a_kill_on_a_real_terminal_loses_nothing_and_the_same_command_goes_on(tmp_path):
    path = tmp_path / "lesson.csv"
    child = on_a_terminal(path)
    child.expect("What is going on in the point")
    child.send("b" + "g" + "y")  # a rally ball that was let go, and could have been reached
    child.expect("Ball 1: ")

    child.kill(signal.SIGKILL)
    child.wait()

    assert [row["response"] for row in rows_of(path)] == ["let go"]
    assert [row["own hand"] for row in rows_of(path)] == ["left"]
    again = piped(path, "", *KNOWN)
    assert again.returncode == Exit.FINE
    assert "ball 2" in again.stdout


def test_what_is_no_fact_of_the_day_is_refused(tmp_path, capsys):
    path = tmp_path / "lesson.csv"

    assert safely(["chart", str(path), "balance=set"]) == Exit.COULD_NOT_RUN
    assert "balance is asked at every ball" in capsys.readouterr().err
    assert safely(["chart", str(path), "own hand=purple"]) == Exit.COULD_NOT_RUN
    assert "purple" in capsys.readouterr().err
    assert not path.exists()


def test_a_file_another_program_has_saved_meanwhile_is_not_written_over(tmp_path):
    path = tmp_path / "lesson.csv"
    file = open_chart(path, STANDARD)
    assert file is not None
    file.save(Append(ball=ball("mine")))
    theirs = path.read_text("utf-8").replace("mine", "theirs, in another program")
    path.write_text(theirs, "utf-8")

    for write in (Append(ball=ball("new")), Replace(place=0, ball=ball("corrected"))):
        with pytest.raises(OSError, match="another program has changed the file"):
            file.save(write)
    assert path.read_text("utf-8") == theirs


def test_grades_wait_until_the_end_where_that_is_wanted(tmp_path):
    now = piped(tmp_path / "now.csv", "b\ng\ny\ng\ny\nstop\n", *KNOWN)
    assert now.stdout.index("Ball 1: ") < now.stdout.rindex("What was the ball meant to do?")

    done = piped(tmp_path / "later.csv", "b\ng\ny\ng\ny\nstop\n", "--later", *KNOWN)

    _, _, end = done.stdout.rpartition("What was the ball meant to do?")
    assert done.stdout.count("Ball 1: ") == end.count("Ball 1: ") == 1
    assert "Ball 2: " in end
    assert "2 balls: " in end


def test_a_ball_that_was_only_begun_is_never_said_to_be_on_disk(tmp_path):
    path = tmp_path / "lesson.csv"

    done = piped(path, "b\ng\ny\nb\nbuild\n", *KNOWN)

    assert "Ball 2 was begun and not finished, so it is not on disk." in done.stdout
    assert len(rows_of(path)) == 1


def test_balls_the_rules_do_not_speak_about_name_the_rules_that_do(tmp_path):
    known = [each.replace("singles", "doubles") for each in KNOWN]

    done = piped(tmp_path / "lesson.csv", "b\nbuild\nc\nas wanted\n", *known)

    assert "1 ball: 1 not covered." in done.stdout
    assert "--rules doubles-club" in done.stdout
