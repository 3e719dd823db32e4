"""Text from a file made safe to show: nothing in it can move the cursor or turn a line round."""

import unicodedata

from wcwidth import wcwidth

_TAB = "→   "
_HIDDEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp", "Zs"})


def visible(text: str) -> str:
    """Return the text with every character that has no shape of its own spelt out."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(shape, text))


def shape(character: str) -> str:
    """Return what is shown for one character: itself, an arrow for a tab, or its number."""
    if character == "\t":
        return _TAB
    if character == " " or unicodedata.category(character) not in _HIDDEN:
        return character
    number = ord(character)
    return f"\\x{number:02x}" if number < 0x100 else f"\\u{number:04x}"


def cells(text: str) -> int:
    """Return how many columns of a terminal a visible text takes."""
    return sum(max(0, wcwidth(character)) for character in text)
