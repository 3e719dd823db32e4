"""Line by line: for pipes, plain terminals and screen readers. Knows nothing of full screens."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from tactics.report.visible import visible
from tactics.screens.view import End, in_ascii

_PLAIN_TERMINALS = frozenset({"", "dumb"})


class Stream(Protocol):
    """What has to be known of standard input and output."""

    def isatty(self) -> bool:
        """Say whether a terminal is at the other end."""


def wants_lines(
    source: Stream, screen: Stream, environment: Mapping[str, str], *, asked: bool = False
) -> bool:
    """Say whether to go line by line: asked for, no terminal at one end, or one that cannot draw.

    To be asked before `screens.frame` is imported.
    """
    if asked or not source.isatty() or not screen.isatty():
        return True
    return environment.get("TERM", "") in _PLAIN_TERMINALS


@dataclass(frozen=True, slots=True, kw_only=True)
class Talk:
    """A conversation in lines.

    ask: the lines to be said before the next answer, in reading order, the question last.
    take: takes one line of answer; returns False when it is the last one.
    """

    ask: Callable[[], Iterable[str]]
    take: Callable[[str], bool]
    plain_signs: bool = False


def run_talk(talk: Talk, say: Callable[[str], None], read: Callable[[], str]) -> End:
    """Return how the conversation ended; `read` raises EOFError at the end of its input."""
    while True:
        for text in talk.ask():
            say(visible(in_ascii(text) if talk.plain_signs else text))
        try:
            answer = read()
        except (EOFError, KeyboardInterrupt):
            return End.STOPPED
        if not talk.take(answer.strip()):
            return End.FINISHED
