"""Disks that are full, folders that cannot be written to, files in use: a sentence each."""

import os
import resource
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tactics.quiz.boxes import Boxes
from tactics.quiz.kept import Trouble, player_file
from tactics.quiz.store import Store, erase, open_store, players
from tests.quiz.answered import answer, on, question, quiz

BOXES = Boxes()
NOBODY = 65534
ROOM = "See that the folder can be written to and that the disk has room."


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    found = open_store(tmp_path / "players", "Robin", on(0), wait_s=0.05)
    assert isinstance(found, Store)
    assert found.begin(quiz(question()), on(0)) == 1
    assert found.save(1, question(), answer(0), BOXES) is None
    with found:
        yield found


def saved(store: Store, times: int = 1) -> Trouble | None:
    """Return the first trouble of so many answers saved one after the other."""
    troubles = (store.save(1, question(), answer(day), BOXES) for day in range(times))
    return next((trouble for trouble in troubles if trouble is not None), None)


@contextmanager
def without_powers() -> Iterator[None]:
    """Be somebody whom permissions bind, where the tests are run by root."""
    is_root = os.geteuid() == 0
    if is_root:
        os.seteuid(NOBODY)
    try:
        yield
    finally:
        if is_root:
            os.seteuid(0)


def test_a_full_disk_is_said_and_loses_nothing(store: Store) -> None:
    pages = store.disk.rows("PRAGMA page_count")[0]["page_count"]
    store.disk.rows(f"PRAGMA max_page_count={pages}")

    trouble = saved(store, times=20)
    answers = store.answers()

    assert trouble == Trouble(
        sentence="The disk is full: what came last could not be kept.",
        hint="Everything before it is safe. Make room, then go on.",
    )
    assert not isinstance(answers, Trouble)
    store.disk.rows(f"PRAGMA max_page_count={pages + 50}")
    assert saved(store) is None
    assert len(store.answers()) == len(answers) + 1  # type: ignore[arg-type]


def test_a_disk_that_takes_no_more_bytes_is_said_and_loses_nothing(store: Store) -> None:
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (store.path.stat().st_size, hard))
    try:
        trouble = saved(store, times=20)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))

    assert trouble is not None
    assert trouble.sentence == f'The disk did not take what was written to "{store.path}".'
    assert trouble.hint == ROOM
    assert saved(store) is None


def test_a_file_that_became_read_only_is_said(store: Store) -> None:
    store.disk.rows("PRAGMA query_only=ON")

    assert saved(store) == Trouble(
        sentence=f'The file "{store.path}" cannot be written to.', hint=ROOM
    )


def test_a_folder_that_cannot_be_written_to_is_said() -> None:
    # not below tmp_path, whose folders are closed to others
    with TemporaryDirectory() as place:
        folder = Path(place)
        folder.chmod(0o555)
        with without_powers():
            found = open_store(folder, "Robin", on(0))

    assert found == Trouble(
        sentence=f'The file "{player_file(folder, "Robin")}" cannot be used: Permission denied.',
        hint=ROOM,
    )


def test_a_folder_that_is_a_file_is_said(tmp_path: Path) -> None:
    (tmp_path / "players").write_text("")

    found = open_store(tmp_path / "players" / "more", "Robin", on(0))

    assert isinstance(found, Trouble)
    assert found.sentence.endswith("cannot be used: Not a directory.")


def test_another_quiz_that_is_saving_is_waited_for_and_then_said(store: Store) -> None:
    other = sqlite3.connect(store.path, isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")

    trouble = saved(store)
    erased = erase(store.path.parent, "Robin", wait_s=0.05)
    opened = open_store(store.path.parent, "Robin", on(0), wait_s=0.05)
    other.execute("ROLLBACK")
    other.close()

    said = "Another quiz of this player is being saved right now."
    assert [each.sentence for each in (trouble, erased, opened) if isinstance(each, Trouble)] == [
        said, said, said,
    ]  # fmt: skip
    assert saved(store) is None


def test_answers_that_were_erased_meanwhile_are_said(store: Store) -> None:
    assert erase(store.path.parent, "Robin") is None

    trouble = saved(store)

    assert trouble is not None
    assert trouble.sentence == "What was kept of this player has been erased meanwhile."


def test_a_file_that_is_none_of_ours_is_said_left_alone_and_can_be_erased(tmp_path: Path) -> None:
    path = player_file(tmp_path, "Robin")
    path.write_bytes(b"a letter to grandmother, long enough for a header" * 40)
    before = path.read_bytes()

    found = open_store(tmp_path, "Robin", on(0))

    assert isinstance(found, Trouble)
    assert found.sentence == f'The file "{path}" is damaged or is no file of this program.'
    assert path.read_bytes() == before
    assert players(tmp_path) == ()
    assert erase(tmp_path, "Robin") is None
    assert not path.exists()
