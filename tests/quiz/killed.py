"""Saves answers in process after process and kills each in the middle: what was promised, is there?

Run as a script with a folder and a number of kills; prints one line: kills, answers acknowledged,
answers lost, files damaged. Processes are forked from this one, which has loaded everything.
"""

import os
import random
import select
import signal
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from tactics.model.scenario import Credit
from tactics.quiz.book import rebuild
from tactics.quiz.boxes import Boxes
from tactics.quiz.store import Store, open_store
from tests.quiz.answered import answer, on, question, quiz

AT_ONCE = 4
LONGEST_S = 0.3
KILLS_A_FILE = 5
BOXES = Boxes()


def play(folder: Path, nickname: str, run: int, pipe: int) -> None:
    """Save answers for ever, and say each one once it is promised to be kept."""
    store = open_store(folder, nickname, on(run))
    assert isinstance(store, Store)
    number = store.begin(quiz(question()), on(run))
    assert isinstance(number, int)
    took = 0
    while True:
        took += 1
        given = answer(run, random.choice(tuple(Credit)), rule=f"rule-{run}-{took}")
        assert store.save(number, question(given.rule), given, BOXES) is None
        os.write(pipe, f"{given.rule}\n".encode())


def killed(folder: Path, nickname: str, run: int) -> Iterator[None]:
    """Start a player, and kill it once asked again; return what it had acknowledged."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        try:
            play(folder, nickname, run, writing)
        finally:
            os._exit(1)
    os.close(writing)
    yield
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    said = b""
    while select.select([reading], [], [])[0] and (more := os.read(reading, 65536)):
        said += more
    os.close(reading)
    ACKNOWLEDGED.setdefault(nickname, set()).update(said.decode().split())


ACKNOWLEDGED: dict[str, set[str]] = {}


def is_sound(folder: Path, nickname: str) -> bool:
    """Say whether a file is whole, and its memory in step with its answers."""
    store = open_store(folder, nickname, on(99))
    assert isinstance(store, Store)
    with store:
        whole = store.disk.rows("PRAGMA integrity_check") == [{"integrity_check": "ok"}]
        memory = {row["rule"]: row["state"] for row in store.disk.rows("SELECT * FROM memory")}
        book = rebuild(store.answers(), BOXES)  # type: ignore[arg-type]  # no trouble here
    return whole and memory == {key[0]: page.memory.state for key, page in book.pages.items()}


def lost(folder: Path, nickname: str) -> int:
    """Return how many acknowledged answers are not there."""
    store = open_store(folder, nickname, on(99))
    assert isinstance(store, Store)
    with store:
        there = {each.rule for each in store.answers()}  # type: ignore[union-attr]  # nor here
    return len(ACKNOWLEDGED.get(nickname, set()) - there)


def main(folder: Path, kills: int) -> None:
    """Kill so many players, a few at a time."""
    random.seed(20260302)
    for start in range(0, kills, AT_ONCE):
        names = [f"player {(start + place) // AT_ONCE // KILLS_A_FILE}-{place}"
                 for place in range(min(AT_ONCE, kills - start))]  # fmt: skip
        running = [killed(folder, name, start) for name in names]
        for each in running:
            next(each)
        for each in running:
            time.sleep(random.uniform(0, LONGEST_S) / AT_ONCE)
            next(each, None)
    names = sorted(ACKNOWLEDGED)
    said = sum(map(len, ACKNOWLEDGED.values()))
    gone = sum(lost(folder, name) for name in names)
    damaged = sum(not is_sound(folder, name) for name in names)
    print(
        f"{kills} kills, {said} answers acknowledged, {gone} lost, "
        f"{damaged} of {len(names)} damaged"
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
