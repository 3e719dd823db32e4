"""What is kept of a player: one file each, for the player's own computer only.

An answer is on disk before `save` returns; trouble with the disk comes back as a value with a
sentence for the player. The answers are the truth; the memory beside them can be worked out anew.
"""

import json
import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Self, TypeVar

from tactics.model.scenario import Answer, Quiz, Scenario
from tactics.quiz.book import Book, rebuild
from tactics.quiz.disk import WAIT_S, Disk, open_disk, read_one, tried, wipe
from tactics.quiz.kept import ENDING, Trouble, check_nickname, player_file, tidy
from tactics.quiz.record import Json, answer_in, answer_out, scenario_out
from tactics.quiz.schedule import Scheduler
from tactics.quiz.tables import ANSWER, HELD, STEPS

T = TypeVar("T")


def open_store(
    folder: Path, nickname: str, day: date, wait_s: float = WAIT_S, steps: Sequence[str] = STEPS
) -> "Store | Trouble":
    """Return the store of a player, made where there is none, or why it cannot be used.

    day: the study day. wait_s: how long to wait where another quiz of the player is writing.
    """
    trouble = check_nickname(nickname)
    if trouble is not None:
        return trouble
    disk = open_disk(player_file(folder, nickname), wait_s)
    if isinstance(disk, Trouble):
        return disk
    found = tried(disk.path, lambda: _prepared(disk, tidy(nickname), day, steps))
    if isinstance(found, Trouble):
        disk.close()
    return found


def _prepared(disk: Disk, nickname: str, day: date, steps: Sequence[str]) -> "Store | Trouble":
    trouble = disk.bring_up(steps)
    if trouble is not None:
        return trouble
    if not disk.rows(_PLAYER):
        with disk.change():
            disk.add(
                "INSERT INTO player SELECT ?, ?, ? WHERE NOT EXISTS (SELECT * FROM player)",
                (nickname, day.isoformat(), os.urandom(8).hex()),
            )
    player = disk.rows(_PLAYER)[0]
    return Store(disk=disk, day=day, nickname=player["nickname"], seed=player["seed"])


_PLAYER = "SELECT nickname, seed FROM player"


@dataclass(slots=True, kw_only=True)
class Store:
    """The answers of one player. Use it in a `with` block, or close it.

    day: the study day. seed: a word of this player's own, drawn by chance.
    """

    disk: Disk
    day: date
    nickname: str
    seed: str

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def path(self) -> Path:
        """Return the file."""
        return self.disk.path

    def close(self) -> None:
        """Let go of the file."""
        self.disk.close()

    def _changed(self, work: Callable[[], T]) -> T | Trouble:
        """Return what the work returns once all of it is on disk."""

        def whole() -> T:
            with self.disk.change():
                return work()

        return tried(self.path, whole)

    def begin(self, quiz: Quiz, day: date) -> int | Trouble:
        """Note that a quiz begins and return its number."""
        return self._changed(lambda: self._new_quiz(quiz, day, None))

    def _new_quiz(self, quiz: Quiz, day: date, paper: str | None) -> int:
        return self.disk.add(
            "INSERT INTO quiz (player, day, rules_hash, generator, seed, source, paper) "
            "VALUES (?, ?, ?, ?, ?, ?, ?)",
            (self.nickname, day.isoformat(), quiz.rules_hash, quiz.generator, quiz.seed,
             quiz.source, paper),
        )  # fmt: skip

    def save(
        self, quiz: int, scenario: Scenario, answer: Answer, scheduler: Scheduler
    ) -> Trouble | None:
        """Put an answer, with its question, and the memory of its rule on disk, both or neither."""

        def work() -> None:
            self._add(quiz, scenario, answer)
            self._remember(answer.rule, answer.revision, scheduler)

        return self._changed(work)

    def save_paper(
        self,
        paper: str,
        quiz: Quiz,
        answered: Sequence[tuple[Scenario, Answer]],
        scheduler: Scheduler,
    ) -> bool | Trouble:
        """Put all answers of a paper on disk or none; False where they are there already."""

        def work() -> bool:
            if self.disk.rows("SELECT id FROM quiz WHERE paper = ?", (paper,)):
                return False
            day = min((answer.day for _, answer in answered), default=self.day)
            number = self._new_quiz(quiz, day, paper)
            for scenario, answer in answered:
                self._add(number, scenario, answer)
            for rule, revision in sorted({(each.rule, each.revision) for _, each in answered}):
                self._remember(rule, revision, scheduler)
            self._end(number, "done")
            return True

        return self._changed(work)

    def _add(self, quiz: int, scenario: Scenario, answer: Answer) -> None:
        before = self.disk.rows("SELECT count(*) AS count FROM answer WHERE quiz = ?", (quiz,))
        row = {**answer_out(answer), "number": before[0]["count"]}
        marks = ", ".join("?" for _ in ANSWER)
        self.disk.add(
            f"INSERT INTO answer (quiz, scenario, {', '.join(ANSWER)}) VALUES (?, ?, {marks})",
            (quiz, json.dumps(scenario_out(scenario)), *(row[name] for name in ANSWER)),
        )

    def _remember(self, rule: str, revision: str, scheduler: Scheduler) -> None:
        """Write the memory of a rule anew from its answers."""
        rows = self.disk.rows(
            f"SELECT {', '.join(ANSWER)} FROM answer WHERE rule = ? AND revision = ? ORDER BY id",
            (rule, revision),
        )
        page = rebuild(map(answer_in, rows), scheduler, self.day).page(rule, revision)
        if page is not None:
            memory = page.memory
            self.disk.add(
                "INSERT OR REPLACE INTO memory VALUES (?, ?, ?, ?, ?, ?, ?)",
                (self.nickname, rule, revision, memory.scheduler, memory.state,
                 memory.last.isoformat(), memory.due.isoformat()),
            )  # fmt: skip

    def disagree(self, quiz: int, text: str) -> Trouble | None:
        """Keep a line to the coach with the last answer of a quiz."""

        def work() -> None:
            self.disk.add(
                "UPDATE answer SET disagrees = ? "
                "WHERE id = (SELECT max(id) FROM answer WHERE quiz = ?)",
                (text.strip(), quiz),
            )

        return self._changed(work)

    def finish(self, quiz: int, *, stopped: bool) -> Trouble | None:
        """Note that a quiz is over."""
        return self._changed(lambda: self._end(quiz, "stopped" if stopped else "done"))

    def _end(self, quiz: int, ended: str) -> None:
        self.disk.add("UPDATE quiz SET ended = ? WHERE id = ?", (ended, quiz))

    def answers(self) -> tuple[Answer, ...] | Trouble:
        """Return all answers in the order in which they came in."""
        asked = f"SELECT {', '.join(ANSWER)} FROM answer ORDER BY id"
        return tried(self.path, lambda: tuple(map(answer_in, self.disk.rows(asked))))

    def book(self, scheduler: Scheduler) -> Book | Trouble:
        """Return what the answers say about each rule."""
        found = self.answers()
        return found if isinstance(found, Trouble) else rebuild(found, scheduler, self.day)

    def neighbours(self) -> frozenset[frozenset[str]] | Trouble:
        """Return the pairs of rules that a question asked so far stood between."""
        asked = (
            "SELECT DISTINCT rule, json_extract(scenario, '$.neighbour') AS other FROM answer "
            "WHERE other <> '' AND other <> rule"
        )
        return tried(
            self.path, lambda: frozenset(frozenset(row.values()) for row in self.disk.rows(asked))
        )

    def export(self) -> Json | Trouble:
        """Return everything that is held about the player."""
        return tried(self.path, self._export)

    def _export(self) -> Json:
        held = {name: self.disk.rows(f"SELECT * FROM {name}") for name in HELD}
        for row in held["answer"]:
            row["scenario"] = json.loads(row["scenario"])
        return {"format": self.disk.version, **held}


def erase(folder: Path, nickname: str, wait_s: float = WAIT_S) -> Trouble | None:
    """Erase everything that is held about a player; nothing where there is nothing."""
    path = player_file(folder, nickname)
    return wipe(path, "DELETE FROM player", wait_s) if path.exists() else None


def players(folder: Path) -> tuple[str, ...]:
    """Return the nicknames of the players whose files can be read, by name."""
    paths = folder.glob(f"*{ENDING}") if folder.is_dir() else ()
    found = (read_one(path, "SELECT nickname FROM player") for path in paths)
    return tuple(sorted(str(row["nickname"]) for row in found if row is not None))
