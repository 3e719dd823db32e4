"""Files on disk: the only place that opens them. Finds what ships with the package."""

import os
from collections.abc import Iterator
from errno import EISDIR, ENOENT
from pathlib import Path

from tactics.model.names import slug

_PACKAGE = Path(__file__).resolve().parent.parent
_ROOTS = (_PACKAGE / "data", _PACKAGE.parent)
"""In a wheel the data lie inside the package, in a checkout beside it."""

RULES, DRILLS, SAMPLES, PAGES = "rules", "rules/drills", "samples", "pages"
DEFAULT_RULES = "singles-club"
SAMPLE_CHART = _PACKAGE / SAMPLES / "three-lessons.csv"


class NoFolderError(OSError):
    """A file was to be written into a folder that is not there; `filename` is the folder."""


def must_be_writable(path: Path) -> None:
    """Name the file or folder that was asked for, not a draft, where no file can be written."""
    if path.is_dir():
        raise IsADirectoryError(EISDIR, os.strerror(EISDIR), str(path))
    if not path.parent.is_dir():
        raise NoFolderError(ENOENT, os.strerror(ENOENT), str(path.parent))


def read_bytes(path: Path, most: int = -1) -> bytes:
    """Return the bytes of a file, at most so many; OSError where it cannot be read."""
    with path.open("rb") as file:
        return file.read(most)


def read_text(path: Path) -> str:
    """Return the text of a file that ships with the package."""
    return path.read_text(encoding="utf-8")


def write_atomic(path: Path, data: bytes) -> None:
    """Write a file so that a crash leaves the old one or the new one, never half of it."""
    must_be_writable(path)
    handle, draft = _draft_of(path)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except BaseException:
        Path(draft).unlink()
        raise
    Path(draft).chmod(_mode_of(path))
    Path(draft).replace(path)


def _draft_of(path: Path) -> tuple[int, str]:
    """Return an open file beside the one that is wanted, and its name."""
    from tempfile import mkstemp  # only here: it takes long to load

    try:
        return mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except PermissionError as error:  # the file asked for is what the user knows about
        raise PermissionError(error.errno, error.strerror, str(path)) from error


def _mode_of(path: Path) -> int:
    """Return the permissions a file has, or those the user's umask gives a new one."""
    if path.exists():
        return path.stat().st_mode & 0o777
    umask = os.umask(0)
    os.umask(umask)
    return 0o666 & ~umask


def shipped(folder: str, ending: str) -> tuple[Path, ...]:
    """Return the files of one kind that ship with the package, by name."""
    return tuple(sorted(_shipped_in(folder, ending), key=lambda path: path.name))


def _shipped_in(folder: str, ending: str) -> Iterator[Path]:
    inside = _PACKAGE / folder
    roots = [inside] if inside.is_dir() else [root / folder for root in _ROOTS]
    found = next((root for root in roots if root.is_dir()), None)
    if found is not None:
        yield from found.glob(f"*{ending}")


def find_rules(written: str, beside: Path | None = None) -> Path:
    """Return the file meant: a path (from the folder `beside`), else a shipped rule set's name."""
    path = Path(written) if beside is None else beside / written
    if path.exists():
        return path
    return find_shipped(RULES, written, ".yaml") or path


def find_shipped(folder: str, name: str, ending: str) -> Path | None:
    """Return the shipped file of that name in any spelling, or None."""
    wanted = slug(name.removesuffix(ending))
    there = (*shipped(folder, ending), *shipped(f"{folder}/variants", ending))
    return next((path for path in there if slug(path.stem) == wanted), None)


def shipped_rules() -> tuple[str, ...]:
    """Return the names of the rule sets that ship with the package, the variants last."""
    there = (*shipped(RULES, ".yaml"), *shipped(f"{RULES}/variants", ".yaml"))
    return tuple(path.stem for path in there)


def shown(path: Path) -> str:
    """Return a path as messages name it: from the current folder, or from where the data ship."""
    whole = path.resolve()
    if whole.is_relative_to(_PACKAGE):
        return str(whole.relative_to(_PACKAGE.parent))
    if whole.is_relative_to(Path.cwd()):
        return str(whole.relative_to(Path.cwd()))
    if any(whole.is_relative_to(_PACKAGE.parent / folder) for folder in (RULES, "quizzes")):
        return str(whole.relative_to(_PACKAGE.parent))
    return str(path)
