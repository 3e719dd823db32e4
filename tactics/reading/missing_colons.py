"""Lines that have their value in their name: `balance set`, `pace:78 %`."""

import re

from tactics.reading.codes import Code
from tactics.reading.keywords import is_known_name, known_start
from tactics.reading.notes import Notes
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Scalar

_SIGN = re.compile(r"\s*[:;=]|\s[-\u2013]\s")
_LEADING_SIGN = re.compile(r"^\s*(?:[:;=]|[-\u2013]\s)?\s*")


def glued_name(text: str) -> str:
    """Return the name that a text begins with, or nothing: `balance set`, `pace:78 %`."""
    tight = _SIGN.split(text, maxsplit=1)[0]
    if tight != text and is_known_name(tight):
        return tight
    name = known_start(text)
    return name if len(name) < len(text.rstrip()) else ""


def missing_colon(written: Scalar, name: str, notes: Notes) -> None:
    """Note a line that has its value in its name: `balance set`, `pace:78 %`."""
    rest = written.text[len(name) :]
    wanted = f"{name}: {_LEADING_SIGN.sub('', rest)}"
    notes.add(
        Code.MISSING_COLON,
        written,
        f"the colon behind {quoted(name)} needs a space behind it"
        if rest.startswith(":")
        else f"there is no colon behind {quoted(name)}",
        f"write {wanted}",
        replacement=wanted,
    )
