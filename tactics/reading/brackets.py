"""Which brackets are open at a spot of a line."""

import re

_CLOSER = {"[": "]", "{": "}"}
_OPENER = {"]": "[", "}": "{"}
_PIECE = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'|[\[\]{}]")


def unclosed_before(line: str, stop: int) -> str:
    """Return the brackets opened and not closed before an index: `{a: [b` -> `{[`."""
    opened: list[str] = []
    for piece in _PIECE.finditer(line, 0, stop):
        mark = piece.group()
        if mark in _CLOSER:
            opened.append(mark)
        elif opened and mark == _CLOSER[opened[-1]]:
            opened.pop()
    return "".join(opened)


def unopened(text: str) -> str:
    """Return the brackets closed and never opened: `a, b]}` -> `]}`."""
    opened: list[str] = []
    extra = ""
    for piece in _PIECE.finditer(text):
        mark = piece.group()
        if mark in _CLOSER:
            opened.append(mark)
        elif mark in _OPENER and opened and _CLOSER[opened[-1]] == mark:
            opened.pop()
        elif mark in _OPENER:
            extra += mark
    return extra


def openers(closed: str) -> str:
    """Return what opens these brackets, the outermost first: `]}` -> `{[`."""
    return "".join(_OPENER[mark] for mark in reversed(closed))


def closers(opened: str) -> str:
    """Return what closes these brackets, the innermost first: `{[` -> `]}`."""
    return "".join(_CLOSER[mark] for mark in reversed(opened) if mark in _CLOSER)
