"""Something that takes long says so on a screen, and only there."""

import io
import sys
import threading

import pytest

from tactics.cli.terminal import announced


class Screen(io.StringIO):
    """A stream that notes the first dot."""

    def __init__(self, is_screen: bool = True) -> None:
        super().__init__()
        self.dotted = threading.Event()
        self._is_screen = is_screen

    def isatty(self) -> bool:
        return self._is_screen

    def write(self, text: str) -> int:
        if text == ".":
            self.dotted.set()
        return super().write(text)


def test_a_long_job_is_named_and_shows_that_it_goes_on(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)

    with announced("judging 100000 balls", after_s=0.0, every_s=0.001):
        assert screen.dotted.wait(10)

    said = screen.getvalue()
    assert said.startswith("judging 100000 balls .")
    assert said.endswith(".\n")


def test_a_short_job_says_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)

    with announced("reading"):
        pass

    assert screen.getvalue() == ""


def test_nothing_is_said_where_nobody_looks(monkeypatch: pytest.MonkeyPatch) -> None:
    pipe = Screen(is_screen=False)
    monkeypatch.setattr(sys, "stderr", pipe)

    with announced("judging", after_s=0.0, every_s=0.001):
        assert not pipe.dotted.wait(0.01)

    assert pipe.getvalue() == ""


def test_ctrl_c_goes_through_and_ends_the_line(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)

    with pytest.raises(KeyboardInterrupt), announced("judging", after_s=0.0, every_s=0.001):
        assert screen.dotted.wait(10)
        raise KeyboardInterrupt

    assert screen.getvalue().endswith("\n")
    assert threading.active_count() == 1 or not any(
        "_tell" in thread.name for thread in threading.enumerate()
    )
