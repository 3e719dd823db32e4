"""A line from the keyboard: an interrupt is heard even where the wait for a key hides it."""

import sys

import pexpect

DEAF = """
import signal
from tactics.cli.terminal import read_line

signal.signal(signal.SIGINT, signal.default_int_handler)
signal.siginterrupt(signal.SIGINT, False)  # as if it had come just before the wait began
print("ready", flush=True)
print("read", read_line("> "))
"""


def test_an_interrupt_is_heard_while_a_line_is_awaited() -> None:
    asked = pexpect.spawn(sys.executable, ["-c", DEAF], timeout=20, encoding="utf-8")
    asked.expect("ready")

    asked.sendintr()
    asked.expect(pexpect.EOF)
    asked.close()

    assert "KeyboardInterrupt" in str(asked.before)


def test_a_line_that_is_typed_is_returned_without_its_end() -> None:
    asked = pexpect.spawn(sys.executable, ["-c", DEAF], timeout=20, encoding="utf-8")
    asked.expect("> ")

    asked.sendline("two")
    asked.expect(pexpect.EOF)
    asked.close()

    assert str(asked.before).split() == ["two", "read", "two"]
