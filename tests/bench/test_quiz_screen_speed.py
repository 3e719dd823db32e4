"""How soon the quiz answers a key at 80 by 24, and how soon its first question is there."""

import os
import signal
import sys
import time
from io import StringIO
from pathlib import Path

import pexpect
import pytest
from prompt_toolkit.application import get_app
from prompt_toolkit.data_structures import Size as TerminalSize
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import ColorDepth
from prompt_toolkit.output.vt100 import Vt100_Output

from tactics.screens.frame import Scene, run_scene
from tactics.screens.view import Size, View
from tests.screens.questions import SHOT, WHERE
from tests.screens.sittings import screen, seated

KEYS = 200
# an installed program has its modules compiled; the warm-up round does that for a checkout
ENVIRONMENT = {n: v for n, v in os.environ.items() if n != "PYTHONDONTWRITEBYTECODE"}


def painted(keys: str) -> int:
    """Run a quiz on a terminal of 80 by 24, one paint a key; return how many there were."""
    quiz = screen(seated(WHERE, SHOT))
    left, paints = list(keys), 0

    def draw(size: Size) -> View:
        if not paints:
            get_app().after_render += after
        return quiz.draw(size)

    def after(_: object) -> None:
        nonlocal paints
        paints += 1
        if left:
            source.send_text({"r": "\x1b[C", "l": "\x1b[D"}[left.pop()])
        else:
            source.send_text("q")

    with create_pipe_input() as source:
        output = Vt100_Output(
            StringIO(),
            lambda: TerminalSize(rows=24, columns=80),
            term="xterm",
            default_color_depth=ColorDepth.DEPTH_4_BIT,
            enable_cpr=False,
        )
        run_scene(Scene(draw=draw, press=quiz.press), source, output)
    return paints


@pytest.mark.benchmark(timer=time.process_time)
def test_a_key_is_painted_within_16_ms(benchmark) -> None:
    # processor time: a key waits for nothing, and other work on the machine is not ours
    paints = benchmark.pedantic(painted, args=("rl" * (KEYS // 2),), rounds=3, warmup_rounds=1)

    each_ms = benchmark.stats.stats.min / paints * 1000
    print(f"\nkey to paint: {each_ms:.1f} ms a key over {paints} keys")
    assert paints >= KEYS
    assert each_ms < 16


def first_question(folder: Path) -> None:
    """Start the program on a terminal and wait until its first question is painted."""
    quiz = pexpect.spawn(
        sys.executable,
        ["-m", "tactics", "quiz", "--player", "robin", "--folder", str(folder)],
        env={**ENVIRONMENT, "TERM": "xterm"},
        dimensions=(24, 80),
        timeout=30,
    )
    quiz.expect("q: stop")
    quiz.ptyproc.delayafterclose = quiz.ptyproc.delayafterterminate = 0
    quiz.kill(signal.SIGKILL)  # `close` would wait a while, and the time be counted


def test_the_first_question_is_there_within_600_ms(benchmark, tmp_path: Path) -> None:
    benchmark.pedantic(first_question, args=(tmp_path,), rounds=7, warmup_rounds=2)

    soonest_s = benchmark.stats.stats.min
    print(f"\nstart to first question: {soonest_s:.2f} s at best")
    assert soonest_s < 0.6
