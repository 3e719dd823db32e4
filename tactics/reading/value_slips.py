"""Values written in other ways than this format knows: `no smash`, `deep or mid`, `2 m (a lot)`."""

import re
from collections.abc import Callable

from tactics.model.trait import Trait
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.wording import quoted

_OTHER_ORDER = re.compile(
    r"(?P<word>.+?)\s+(?:or|and)\s+"
    r"(?:(?P<up>above|more|better|up|deeper|faster|greater)|(?P<down>below|less|worse|down|under))",
    re.IGNORECASE | re.DOTALL,
)
_PIECES = re.compile(r"\s+(?:or|and|nor)\s+|\s*[,/|;]\s*", re.IGNORECASE)
_OTHER_NOT = re.compile(
    r"(?:no|never|without|avoid|except|neither|none of|anything but|all but|don't|do not|!)\s*"
    r"(?P<word>.+)",
    re.IGNORECASE | re.DOTALL,
)
_NOTE = re.compile(r"(?P<value>.+?)\s*(?P<note>\(.*|//.*|\s-+\s.*|\s[\u2013\u2014]\s.*|;.*)")
_LONGEST = 120

_CURLY = "\u2018\u2019\u201a\u201c\u201d\u201e\u00ab\u00bb"
Holds = Callable[[str], bool]
"""A text -> whether it is a value of the row."""


def other_spelling(written: str, trait: Trait) -> Complaint | None:
    """Return what to say about `deep or more`, `deep or mid` and `no smash`, or None."""
    order = _OTHER_ORDER.fullmatch(written)
    word = trait.word_named(order["word"]) if order else None
    if order and word:
        wanted = f"{word.name} or {'higher' if order['up'] else 'lower'}"
        return _written_so(written, wanted)
    names = _words_in(written, trait)
    if len(names) > 1:
        return _written_so(written, f"[{', '.join(names)}]")
    negated = _OTHER_NOT.fullmatch(written)
    return shut_out(negated["word"], written, trait) if negated else None


def shut_out(words: str, written: str, trait: Trait) -> Complaint | None:
    """Return what to say about words shut out in another way than `not WORD`, or None."""
    names = _words_in(words.strip("[] "), trait)
    if len(names) == 1:
        return Complaint(
            code=Code.COMPARISON,
            sentence=f'{quoted(written)} is written with "not" here',
            hint=f"write not {names[0]}",
            replacement=f"not {names[0]}",
        )
    left = [word.name for word in trait.words if word.name not in names]
    if not names or not left:
        return None
    wanted = f"[{', '.join(left)}]" if len(left) > 1 else left[0]
    return Complaint(
        code=Code.COMPARISON,
        sentence=f"{quoted(written)} shuts out several words, and a value names those that may be",
        hint=f"write {wanted}",
        replacement=wanted,
    )


def unknown_piece(written: str, trait: Trait) -> str:
    """Return which of several words is none of the row's, where others are; else nothing."""
    pieces = [piece for piece in _PIECES.split(written.strip("[] ")) if piece]
    strange = [piece for piece in pieces if trait.word_named(piece) is None]
    return strange[0] if len(strange) < len(pieces) and strange else ""


def with_note(written: str, holds: Holds) -> Complaint | None:
    """Return what to say about `0.3 m (a racket head)`, a value with a note behind it, or None."""
    found = _NOTE.fullmatch(written) if len(written) <= _LONGEST else None
    if found is None or not holds(found["value"]):
        return None
    note = found["note"].strip()
    return Complaint(
        code=Code.COMPARISON,
        sentence=f"{quoted(note)} stands behind the value, and only a value can stand here",
        hint=f"write {found['value']}; a note for the reader begins with # at the end of the line",
        replacement=found["value"],
    )


def curly_quotes(written: str, holds: Holds) -> Complaint | None:
    """Return what to say about a value in the quotes of a text processor, or None."""
    bare = written.strip(_CURLY).strip()
    if bare == written or not holds(bare):
        return None
    return Complaint(
        code=Code.UNKNOWN_WORD,
        sentence=f"{quoted(written)} has curly quotes around it, which count as letters",
        hint=f"write {bare}",
        replacement=bare,
    )


def _words_in(written: str, trait: Trait) -> list[str]:
    """Return the words of a row that a text names with `or`, commas and the like, or none."""
    pieces = _PIECES.split(written)
    words = [trait.word_named(piece) for piece in pieces]
    return [word.name for word in words if word] if all(words) else []


def _written_so(written: str, wanted: str) -> Complaint:
    return Complaint(
        code=Code.COMPARISON,
        sentence=f"{quoted(written)} is not one of the ways to write several words",
        hint=f"write {wanted}",
        replacement=wanted,
    )
