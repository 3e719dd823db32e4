"""What the screen can show: emphasis, drawing characters, and who is on the other end."""

import os
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from select import select
from typing import TextIO

from tactics.report.court_text import DRAWN

_BOLD, _PLAIN = "\x1b[1m", "\x1b[0m"
_PATIENCE_S, _LISTENS_S = 1.0, 0.5


def heading_for(stream: TextIO) -> Callable[[str], str]:
    """Return how headings are emphasised: bold on a screen, plain in a pipe or where asked."""
    return _bold if has_emphasis(stream) else str


def has_emphasis(stream: TextIO) -> bool:
    """Say whether the stream is a screen that may show bold text (see no-color.org)."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM", "") in ("", "dumb"):
        return False
    return stream.isatty()


def can_draw(stream: TextIO) -> bool:
    """Say whether the stream can show lines and arrows beyond ASCII."""
    try:
        "".join(DRAWN.values()).encode(stream.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def is_conversation() -> bool:
    """Say whether somebody sits at both ends and can be asked."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def read_line(prompt: str = "") -> str:
    """Return the next line from the keyboard or a pipe, without its end; EOFError after the last.

    An interrupt that arrives in the moment before Python waits for a key is not lost: it is looked
    for again and again.
    """
    if os.name != "posix" or not sys.stdin.isatty():
        return input(prompt)
    print(prompt, end="", flush=True)
    while not select([sys.stdin], [], [], _LISTENS_S)[0]:
        pass
    return input()


@contextmanager
def announced(
    what: str, after_s: float = _PATIENCE_S, every_s: float = _PATIENCE_S
) -> Iterator[None]:
    """Say on a screen what is going on if it takes more than a second, with a dot a second."""
    done = threading.Event()
    teller = threading.Thread(target=_tell, args=(what, done, after_s, every_s), daemon=True)
    teller.start()
    try:
        yield
    finally:
        done.set()
        teller.join()


def _tell(what: str, done: threading.Event, after_s: float, every_s: float) -> None:
    if done.wait(after_s) or not sys.stderr.isatty():
        return
    print(what, end=" ", file=sys.stderr, flush=True)
    while not done.wait(every_s):
        print(".", end="", file=sys.stderr, flush=True)
    print(file=sys.stderr, flush=True)


def _bold(text: str) -> str:
    return f"{_BOLD}{text}{_PLAIN}"
