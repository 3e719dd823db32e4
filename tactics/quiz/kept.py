"""Whose answers are kept, in which file, and what is said where that does not work."""

import unicodedata
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from tactics.model.names import fold
from tactics.report.visible import visible

ENDING = ".sqlite3"
LONGEST_NICKNAME = 24
_SIGNS = frozenset("abcdefghijklmnopqrstuvwxyz0123456789-")
_SHOWN = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Why something could not be kept or read, and what may help."""

    sentence: str
    hint: str = ""


def tidy(nickname: str) -> str:
    """Return a nickname as it is kept: one form for each letter, single spaces."""
    return " ".join(unicodedata.normalize("NFC", nickname).split())


def player_file(folder: Path, nickname: str) -> Path:
    """Return the file of a player; names that differ in case or spaces only are one player.

    Nothing in a nickname can lead out of the folder or make a name that a system reserves.
    """
    name = fold(tidy(nickname))
    plain = "".join(sign for sign in name.replace(" ", "-") if sign in _SIGNS)[:LONGEST_NICKNAME]
    mark = sha256(name.encode(errors="backslashreplace")).hexdigest()[:8]
    return folder / f"{plain.strip('-') or 'player'}-{mark}{ENDING}"


def check_nickname(nickname: str) -> Trouble | None:
    """Return what is wrong with a nickname, or None."""
    name = tidy(nickname)
    if not name:
        return Trouble(sentence="A nickname is needed.", hint="One word will do.")
    if len(name) > LONGEST_NICKNAME:
        return Trouble(
            sentence=f"The nickname has {len(name)} characters; {LONGEST_NICKNAME} are the most.",
            hint="A short nickname is better than a full name.",
        )
    if visible(name) != name:
        return Trouble(
            sentence=f'The nickname "{visible(name)[:_SHOWN]}" holds a character that cannot be '
            "shown.",
            hint="Letters, figures and most signs can be used.",
        )
    return None
