"""One SQLite file on disk, and what its troubles mean for a player.

The only module that knows sqlite3. A change is whole and on disk once it returns.
"""

import os
import shutil
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, TypeVar

from tactics.quiz.kept import Trouble
from tactics.quiz.tables import statements

T = TypeVar("T")
Row = dict[str, Any]
Value = str | int | None

WAIT_S: Final = 5.0
_OLDEST_SQLITE = (3, 37, 0)
_PRAGMAS = ("journal_mode=DELETE", "synchronous=FULL", "foreign_keys=ON", "secure_delete=ON")
_BESIDE = ("-journal", "-wal", "-shm")
"""Endings of the files that SQLite may leave beside a file whose program was ended."""
_IN_USE = frozenset((sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED))

_ROOM: Final = "See that the folder can be written to and that the disk has room."
_OTHER_QUIZ: Final = Trouble(
    sentence="Another quiz of this player is being saved right now.",
    hint="Wait until it is done, or stop it, then try again.",
)
_FULL: Final = Trouble(
    sentence="The disk is full: what came last could not be kept.",
    hint="Everything before it is safe. Make room, then go on.",
)
_ERASED: Final = Trouble(
    sentence="What was kept of this player has been erased meanwhile.",
    hint="A new quiz starts anew.",
)


def tried(path: Path, work: Callable[[], T]) -> T | Trouble:
    """Return what the work returns, or the trouble it met."""
    try:
        return work()
    except sqlite3.Error as error:
        return _trouble(error, path)
    except OSError as error:
        return Trouble(
            sentence=f'The file "{path}" cannot be used: {error.strerror or error}.', hint=_ROOM
        )


def _code(error: sqlite3.Error) -> int:
    """Return the primary code of an error; 0 where it has none."""
    return getattr(error, "sqlite_errorcode", 0) & 0xFF


def _trouble(error: sqlite3.Error, path: Path) -> Trouble:
    match _code(error):
        case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
            return _OTHER_QUIZ
        case sqlite3.SQLITE_FULL:
            return _FULL
        case sqlite3.SQLITE_CONSTRAINT:
            return _ERASED
        case sqlite3.SQLITE_READONLY | sqlite3.SQLITE_CANTOPEN | sqlite3.SQLITE_PERM:
            return Trouble(sentence=f'The file "{path}" cannot be written to.', hint=_ROOM)
        case sqlite3.SQLITE_IOERR:
            return Trouble(
                sentence=f'The disk did not take what was written to "{path}".', hint=_ROOM
            )
        case sqlite3.SQLITE_NOTADB | sqlite3.SQLITE_CORRUPT:
            return Trouble(
                sentence=f'The file "{path}" is damaged or is no file of this program.',
                hint="Put it aside, or bring back a copy; a new one is made without it.",
            )
        case _:
            return Trouble(sentence=f'The file "{path}" cannot be used: {error}.', hint=_ROOM)


@dataclass(slots=True, kw_only=True)
class Disk:
    """A file that is open."""

    path: Path
    connection: sqlite3.Connection

    def close(self) -> None:
        """Let go of the file."""
        self.connection.close()

    def rows(self, statement: str, values: Sequence[Value] = ()) -> list[Row]:
        """Return what a question finds."""
        return [dict(row) for row in self.connection.execute(statement, values)]

    def add(self, statement: str, values: Sequence[Value] = ()) -> int:
        """Run a statement inside a change, and return the number of the row it made."""
        return self.connection.execute(statement, values).lastrowid or 0

    @contextmanager
    def change(self) -> Iterator[None]:
        """Do everything inside, or nothing of it."""
        self.connection.execute("BEGIN IMMEDIATE")
        try:
            yield
            self.connection.execute("COMMIT")
        except BaseException:
            if self.connection.in_transaction:
                self.connection.execute("ROLLBACK")
            raise

    @property
    def version(self) -> int:
        """Return how many steps made the tables; 0 for a new file."""
        return int(self.connection.execute("PRAGMA user_version").fetchone()[0])

    def bring_up(self, steps: Sequence[str]) -> Trouble | None:
        """Bring the tables to this version, after a copy; refuse a file of a later one."""
        found = self.version
        if found > len(steps):
            return Trouble(
                sentence=f'The file "{self.path}" was made by a later version of this program '
                f"(its form is {found}, this program knows {len(steps)}).",
                hint="Use that version, or another nickname. Nothing in it was changed.",
            )
        if 0 < found < len(steps):
            shutil.copy2(self.path, self.path.with_name(f"{self.path.name}.version-{found}"))
        if found < len(steps):
            with self.change():
                # asked again: another program may have been quicker
                for step in steps[self.version :]:
                    for statement in statements(step):
                        self.connection.execute(statement)
                self.connection.execute(f"PRAGMA user_version={len(steps)}")
        return None


def open_disk(path: Path, wait_s: float = WAIT_S) -> Disk | Trouble:
    """Return the file, made where there is none: for its owner only, as is a new folder."""
    if sqlite3.sqlite_version_info < _OLDEST_SQLITE:
        return Trouble(
            sentence=f"SQLite {sqlite3.sqlite_version} is too old to keep answers safely.",
            hint="A newer Python brings a newer one.",
        )
    return tried(path, lambda: _opened(path, wait_s))


def _opened(path: Path, wait_s: float) -> Disk:
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
    path.chmod(0o600)
    return Disk(path=path, connection=_connected(path, wait_s))


def _connected(path: Path, wait_s: float) -> sqlite3.Connection:
    address = f"{path.resolve().as_uri()}?mode=rw"
    connection = sqlite3.connect(address, uri=True, timeout=wait_s, isolation_level=None)
    connection.row_factory = sqlite3.Row
    try:
        for pragma in _PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")
    except BaseException:
        connection.close()
        raise
    return connection


def read_one(path: Path, statement: str) -> Row | None:
    """Return the first row that a question finds in a file; None where it cannot be read."""

    def work() -> Row | None:
        connection = _connected(path, WAIT_S)
        try:
            row = connection.execute(statement).fetchone()
        finally:
            connection.close()
        return None if row is None else dict(row)

    found = tried(path, work)
    return None if isinstance(found, Trouble) else found


def wipe(path: Path, statement: str, wait_s: float = WAIT_S) -> Trouble | None:
    """Overwrite what a statement deletes, then take away the file and all that stands beside it."""
    return tried(path, lambda: _wipe(path, statement, wait_s))


def _wipe(path: Path, statement: str, wait_s: float) -> None:
    try:
        _overwrite(path, statement, wait_s)
    except sqlite3.Error as error:
        # a file that cannot be read is taken away all the same; one in use is not
        if _code(error) in _IN_USE:
            raise
    for beside in (*_BESIDE, *(copy.name.removeprefix(path.name) for copy in _copies(path))):
        path.with_name(path.name + beside).unlink(missing_ok=True)
    path.unlink()


def _copies(path: Path) -> list[Path]:
    """Return the copies made before the tables were brought to a later version."""
    return [each for each in path.parent.iterdir() if each.name.startswith(f"{path.name}.version-")]


def _overwrite(path: Path, statement: str, wait_s: float) -> None:
    connection = _connected(path, wait_s)
    try:
        connection.execute(statement)
        connection.execute("VACUUM")
    finally:
        with suppress(sqlite3.Error):
            connection.close()
