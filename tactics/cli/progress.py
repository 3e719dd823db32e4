"""How far a long calculation is: on the error stream, only after a second, only on a screen."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from tactics.flight.assumptions import DRAWS

_PATIENCE_S = 1.0


@contextmanager
def counting(what: str, of_all: int = DRAWS) -> Iterator[Callable[[int], None]]:
    """Give a function that is told how many are done; the line is wiped out at the end."""
    began = time.monotonic()
    is_screen = sys.stderr.isatty()
    line = ""

    def said(done: int) -> None:
        nonlocal line
        if is_screen and time.monotonic() - began >= _PATIENCE_S:
            line = f"{what}: {done} of {of_all} sets of assumptions (Ctrl-C keeps what is there)"
            print(f"\r{line}", end="", file=sys.stderr, flush=True)

    try:
        yield said
    finally:
        if line:
            print(f"\r{' ' * len(line)}\r", end="", file=sys.stderr, flush=True)
