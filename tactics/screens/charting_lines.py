"""Charting line by line: what is said before each answer, and what a written answer means."""

from collections.abc import Iterator
from dataclasses import replace

from tactics.charting.entry import Entry, Page
from tactics.charting.press import field_question, phases_of
from tactics.model.names import fold
from tactics.report.layout import wrapped
from tactics.screens.charting import (
    Charting,
    asked,
    explained,
    heading_of,
    last_balls,
    last_grade,
    pairs_of,
    picked_grade,
    so_far,
)
from tactics.screens.choices import listed, plain_choice

_HOW = (
    "Write a word, its beginning or the letter in brackets; several answers may stand in one line. "
    'Empty line: as shown, else not seen. "undo": one answer back. "menu": everything else. '
    '"?": what the words mean. "stop" or the end of the input: that is all.'
)
_STOP = "stop"
_UNSEEN = frozenset({"-", "not seen"})
_TYPING = frozenset({Page.TEXT, Page.PICKING})


class Lines:
    """A sitting as a conversation."""

    def __init__(self, charting: Charting) -> None:
        self.charting = charting
        self._said_how = False
        self._graded = len(charting.entry.balls)

    def ask(self) -> Iterator[str]:
        """Yield what is to be said: the last grade, the question, its words."""
        entry = self.charting.entry
        if not self._said_how:
            self._said_how = True
            yield from (heading_of(entry), *wrapped(_HOW), "")
        if entry.notice:
            yield entry.notice
        if entry.page is Page.PAUSED:
            yield "Paused. Everything is on disk. An empty line goes on."
            return
        if entry.page is Page.ASKING and entry.is_at_start:
            yield from self._last_grade(entry)
            yield from so_far(entry)
        if entry.page is Page.BALL:
            yield from picked_grade(entry)
        yield from asked(entry)
        yield from _words(entry)

    def _last_grade(self, entry: Entry) -> Iterator[str]:
        if self._graded != len(entry.balls):
            self._graded = len(entry.balls)
            yield from (*last_grade(entry), "")

    def take(self, written: str) -> bool:
        """Take a line; return whether charting goes on. OSError where the disk fails."""
        entry = self.charting.entry
        if entry.page in _TYPING:
            return self._press_all((*["back"] * len(entry.text), f"paste:{written}", "enter"))
        if fold(written) == _STOP:
            return False
        whole = key_for(entry, written)
        if whole is not None:
            return self._press_all((whole,))
        return self._several(written.split())

    def _several(self, answers: list[str]) -> bool:
        """Take answer after answer up to one that means nothing: guessing would chart nonsense."""
        for each in answers:
            entry = self.charting.entry
            key = key_for(entry, each)
            if key is None and len(each) > 1:
                self.charting.entry = replace(entry, notice=_not_taken(entry, each))
                return True
            if not self.charting.press(each if key is None else key):
                return False
        return True

    def _press_all(self, keys: tuple[str, ...]) -> bool:
        return all(self.charting.press(key) for key in keys)


def key_for(entry: Entry, written: str) -> str | None:
    """Return the key that a written answer stands for, or None where it is no single answer."""
    said = fold(written)
    if not said:
        return _empty(entry)
    if said in _UNSEEN:
        return "-"
    if said in ("?", "menu", "undo"):
        return {"?": "?", "menu": "tab", "undo": "back"}[said]
    if entry.page in (Page.ASKING, Page.FIELD):
        return _answer(entry, written)
    pairs = pairs_of(entry)
    return next((key for key, word in pairs if said in (fold(word), key)), None)


def _empty(entry: Entry) -> str:
    question = entry.question
    if entry.page is Page.ASKING and (question is None or not question.shown):
        return "-"
    return "enter"


def _not_taken(entry: Entry, written: str) -> str:
    question = field_question(entry) if entry.page is Page.FIELD else entry.question
    found = () if question is None else question.options_named(written)
    several = " or ".join(each.word for each in found)
    said = f"may be {several}" if len(found) > 1 else "is no answer here"
    return f'"{written}" {said}; nothing was taken from there on.'


def _answer(entry: Entry, written: str) -> str | None:
    question = field_question(entry) if entry.page is Page.FIELD else entry.question
    found = () if question is None else question.options_named(written)
    if len(found) == 1 and not _is_capital(entry, written):
        return found[0].key
    phase = next((key for key, name in phases_of(entry) if written in (key, name)), None)
    if phase is not None and entry.is_at_start:
        return phase
    return None


def _is_capital(entry: Entry, written: str) -> bool:
    return entry.is_at_start and any(written == key for key, _ in phases_of(entry))


def _words(entry: Entry) -> Iterator[str]:
    if entry.page is Page.PICKING:
        yield from last_balls(entry)
        return
    rows = explained(entry)
    if rows:
        for key, word, says in rows:
            yield f"  {plain_choice(key, word)}: {says}" if says else f"  {plain_choice(key, word)}"
        return
    yield from wrapped(listed(pairs_of(entry)), "  ", "  ")
