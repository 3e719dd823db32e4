"""Copies of quiz pages, kept beside the players' answers: results are read with them."""

from pathlib import Path

from tactics.cli import files
from tactics.quiz.handout import Handout, packed, unpacked
from tactics.quiz.kept import player_file

_PAGES, _ENDING = "pages", ".txt"


def keep_page(folder: Path, handout: Handout) -> None:
    """Keep a copy that only this user can read."""
    there = folder / _PAGES
    there.mkdir(parents=True, exist_ok=True, mode=0o700)
    path = there / f"{handout.name}{_ENDING}"
    files.write_atomic(path, packed(handout).encode("ascii"))
    path.chmod(0o600)


def kept_page(folder: Path, name: str) -> Handout | None:
    """Return the papers of a page made on this computer, by its number."""
    path = folder / _PAGES / f"{name}{_ENDING}"
    return _read(path) if path.is_file() else None


def pages_for(folder: Path, nickname: str) -> tuple[Path, ...]:
    """Return the copies of pages that were made for a player."""
    whose = player_file(folder, nickname)
    there = folder / _PAGES
    found = []
    for path in sorted(there.glob(f"*{_ENDING}")) if there.is_dir() else ():
        page = _read(path)
        if page is not None and page.nickname and player_file(folder, page.nickname) == whose:
            found.append(path)
    return tuple(found)


def _read(path: Path) -> Handout | None:
    return unpacked(path.read_text("ascii", errors="replace"))
