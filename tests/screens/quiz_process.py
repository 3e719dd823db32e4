"""`tactics quiz` as a process of its own: through pipes, and on a real terminal."""

import os
import signal
import subprocess
import sys
from datetime import date
from pathlib import Path

import pexpect

from tactics.model.scenario import Answer
from tactics.quiz.kept import Trouble
from tactics.quiz.store import Store, open_store

ARGUMENTS = ("-m", "tactics", "quiz", "--player", "robin", "--seed", "monday")
HOSTILE = """\
rule set: "Hostile \\e[2J set"
author: A test
precedence: [feasibility]
rules:
  high-when-wide:
    title: "Title \\e]0;owned\\a end"
    concern: feasibility
    strength: should
    when: {game situation: baseline rally, court width: [wide forehand, wide backhand]}
    advise: {height over net: at least 1.3 m}
    aim: {height over net: 2 m}
    because: "Because \\e[31mred\\e[0m \\u202Ereversed\\u202C \\x9b5m."
    cue: "Cue \\u2066\\x07 up"
    examples:
      - {given: {court width: wide forehand}, choose: {height over net: 0.3 m}, grade: doubtful}
      - {given: {court width: wide forehand}, choose: {height over net: 2 m}, grade: sound}
  low-when-central:
    title: "Title \\r two"
    concern: feasibility
    strength: should
    when: {game situation: baseline rally, court width: [middle third]}
    advise: {height over net: at most 1.2 m}
    aim: {height over net: 0.8 m}
    because: "Plain \\x1b[?1049l words."
    cue: "Cue \\e[H two"
    examples:
      - {given: {court width: middle third}, choose: {height over net: 3 m}, grade: doubtful}
      - {given: {court width: middle third}, choose: {height over net: 0.8 m}, grade: sound}
"""


def environment(folder: Path, **more: str) -> dict[str, str]:
    """Return the environment of a player whose home is a folder of the test."""
    kept = {name: value for name, value in os.environ.items() if name != "NO_COLOR"}
    return {**kept, "HOME": str(folder), "XDG_DATA_HOME": str(folder / "data"), **more}


def piped(folder: Path, answers: str, *more: str) -> subprocess.CompletedProcess[str]:
    """Return what a quiz says to answers that come through a pipe."""
    return subprocess.run(
        [sys.executable, *ARGUMENTS, "--folder", str(folder / "kept"), *more],
        input=answers,
        capture_output=True,
        encoding="utf-8",
        env=environment(folder, PYTHONIOENCODING="utf-8", TERM="xterm-256color"),
        timeout=60,
        check=False,
    )


def on_a_terminal(folder: Path, *more: str, term: str = "xterm") -> "pexpect.spawn[str]":
    """Return a quiz on a terminal of 80 by 24."""
    return pexpect.spawn(
        sys.executable,
        [*ARGUMENTS, "--folder", str(folder / "kept"), *more],
        env=environment(folder, TERM=term),
        dimensions=(24, 80),
        encoding="utf-8",
        timeout=20,
        # whoever runs the tests in the background has made them deaf to Ctrl-C
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )


def kept(folder: Path) -> tuple[Answer, ...]:
    """Return the answers that are on disk."""
    store = open_store(folder / "kept", "robin", date(2026, 3, 14))
    assert isinstance(store, Store)
    with store:
        answers = store.answers()
    assert isinstance(answers, tuple)
    return answers


def endings(folder: Path) -> list[str]:
    """Return how each quiz that is on disk came to its end."""
    store = open_store(folder / "kept", "robin", date(2026, 3, 14))
    assert isinstance(store, Store)
    with store:
        held = store.export()
    assert not isinstance(held, Trouble)
    return [quiz["ended"] for quiz in held["quiz"]]
