"""The whole program: answers through a pipe, keys on a real terminal, and every way to stop."""

import re
import signal
from pathlib import Path

import pexpect
import pyte

from tests.screens.quiz_process import HOSTILE, endings, kept, on_a_terminal, piped

CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


def read_until(quiz: "pexpect.spawn[str]", screen: pyte.Stream, pattern: str) -> None:
    quiz.expect(pattern)
    screen.feed(f"{quiz.before}{quiz.after}")


def test_a_whole_quiz_through_a_pipe(tmp_path: Path) -> None:
    said = piped(tmp_path, "2\ns\n\n" * 3, "--count", "3")

    assert said.returncode == 0, said.stderr
    assert CONTROL.search(said.stdout) is None
    assert said.stdout.count("How sure are you?") == 3
    assert "That is enough for today. 3 questions:" in said.stdout
    assert "Seed of this quiz: monday" in said.stdout
    assert len(kept(tmp_path)) == 3
    assert endings(tmp_path) == ["done"]


def test_an_input_that_ends_is_a_quiz_that_was_stopped(tmp_path: Path) -> None:
    said = piped(tmp_path, "1\nn\n", "--ascii")

    assert said.returncode == 130
    assert "Stopped; every answer is kept. 1 question:" in said.stdout
    assert said.stdout.isascii()
    assert "Traceback" not in said.stderr
    assert len(kept(tmp_path)) == 1


def test_nothing_that_is_read_sends_anything_to_the_terminal(tmp_path: Path) -> None:
    rules = tmp_path / "hostile.yaml"
    rules.write_text(HOSTILE, encoding="utf-8")

    said = piped(tmp_path, "1\ns\n\n" * 2, "--rules", str(rules), "--count", "2")

    assert said.returncode == 2
    assert "a character that cannot be seen stands here" in said.stderr
    assert CONTROL.search(said.stdout + said.stderr) is None


def test_keys_on_a_real_terminal(tmp_path: Path) -> None:
    quiz = on_a_terminal(tmp_path)
    screen = pyte.Screen(80, 24)
    stream = pyte.Stream(screen)

    read_until(quiz, stream, r"q: stop")
    first = list(screen.display)
    quiz.send("l")
    read_until(quiz, stream, r"Left open")
    quiz.setwinsize(20, 60)
    quiz.expect("80 by 24")
    quiz.setwinsize(24, 80)
    quiz.expect("Left open")
    quiz.sendcontrol("c")
    quiz.expect(pexpect.EOF)
    quiz.close()

    assert "Question 1 of 10" in first[0]
    assert "Stopped; every answer is kept. 1 question: 1 left open." in str(quiz.before)
    assert quiz.exitstatus == 130
    assert len(kept(tmp_path)) == 1
    assert endings(tmp_path) == ["stopped"]


def test_an_interrupt_gives_the_terminal_back(tmp_path: Path) -> None:
    quiz = on_a_terminal(tmp_path)
    quiz.expect("q: stop")

    quiz.kill(signal.SIGINT)
    quiz.expect(pexpect.EOF)
    quiz.close()

    assert "\x1b[?1049l" in str(quiz.before)
    assert "Stopped before the first answer. Nothing is lost." in str(quiz.before)
    assert quiz.exitstatus == 130


def test_a_terminal_that_can_not_draw_gets_plain_lines(tmp_path: Path) -> None:
    quiz = on_a_terminal(tmp_path, term="dumb")
    quiz.expect("Type 1, 2 or 3")
    asked = str(quiz.before)
    quiz.sendintr()
    quiz.expect(pexpect.EOF)
    quiz.close()

    assert max(map(len, asked.splitlines())) < 80  # broken between words, not by the terminal
    assert "\x1b" not in asked + str(quiz.before)
    assert quiz.exitstatus == 130
