"""The store of a player: whole answers, one file each, all of it given back and taken away."""

import json
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tactics.model.scenario import Answer, Credit
from tactics.quiz.boxes import Boxes
from tactics.quiz.kept import Trouble, player_file
from tactics.quiz.memory_fsrs import FsrsScheduler
from tactics.quiz.record import scenario_in
from tactics.quiz.store import Store, erase, open_store, players
from tactics.quiz.tables import ANSWER, STEPS
from tests.quiz.answered import answer, histories, on, question, quiz
from tests.screens.questions import SHOT

BOXES = Boxes()


def opened(folder: Path, nickname: str = "Robin", day: int = 0, **more: object) -> Store:
    store = open_store(folder, nickname, on(day), **more)  # type: ignore[arg-type]
    assert isinstance(store, Store), store
    return store


def begun(store: Store) -> int:
    number = store.begin(quiz(question()), on(0))
    assert isinstance(number, int)
    return number


def test_answers_come_back_as_they_were_given(tmp_path: Path) -> None:
    given_ = (answer(0), answer(0, Credit.NONE, confused_with="wide-go-high"), answer(0, None))

    with opened(tmp_path) as store:
        number = begun(store)
        troubles = [store.save(number, question(), each, BOXES) for each in given_]
    with opened(tmp_path) as again:
        answers = again.answers()

    assert troubles == [None, None, None]
    assert answers == given_


@settings(max_examples=10, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(histories, st.sampled_from((BOXES, FsrsScheduler())))
def test_the_memory_beside_the_answers_is_what_a_replay_gives(
    tmp_path: Path, history: list[Answer], scheduler: Boxes
) -> None:
    erase(tmp_path, "Robin")

    with opened(tmp_path, day=400) as store:
        # the whole history at once: one write to the disk instead of forty
        store.save_paper("paper", quiz(), [(question(), each) for each in history], scheduler)
        book, held = store.book(scheduler), store.export()

    assert not isinstance(book, Trouble)
    assert not isinstance(held, Trouble)
    kept = {
        (row["rule"], row["revision"]): (row["state"], row["due_day"]) for row in held["memory"]
    }
    pages = book.pages.items()
    assert kept == {key: (page.memory.state, str(page.memory.due)) for key, page in pages}


def test_the_whole_question_can_be_shown_again(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        store.save(begun(store), SHOT, answer(0), BOXES)
        held = store.export()

    assert not isinstance(held, Trouble)
    assert scenario_in(json.loads(json.dumps(held))["answer"][0]["scenario"]) == SHOT


def test_an_export_leaves_no_table_and_no_column_out(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        store.save(begun(store), question(), answer(0), BOXES)
        held = store.export()
        tables = store.disk.rows("SELECT name FROM sqlite_master WHERE type = 'table'")

    assert not isinstance(held, Trouble)
    assert set(held) == {"format", *(table["name"] for table in tables)}
    assert held["player"][0].keys() == {"nickname", "made_day", "seed"}
    assert set(ANSWER) < held["answer"][0].keys()


def test_file_and_folder_are_the_owners_alone(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "players"

    with opened(folder) as store:
        path = store.path

    assert path.stat().st_mode & 0o777 == 0o600
    assert folder.stat().st_mode & 0o777 == 0o700


def test_a_line_for_the_coach_stays_with_the_last_answer(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        number = begun(store)
        store.save(number, question(), answer(0), BOXES)
        store.save(number, question(), answer(1), BOXES)
        store.disagree(number, "  I would slice it  ")
        store.finish(number, stopped=True)
        answers, held = store.answers(), store.export()

    assert not isinstance(answers, Trouble)
    assert not isinstance(held, Trouble)
    assert [each.disagrees for each in answers] == ["", "I would slice it"]
    assert held["quiz"][0]["ended"] == "stopped"


def test_each_player_has_an_order_of_new_rules_that_stays(tmp_path: Path) -> None:
    with opened(tmp_path, "Robin") as one, opened(tmp_path, "Kim") as other:
        seeds = (one.seed, other.seed)
    with opened(tmp_path, "Robin", day=9) as again:
        same = again.seed

    assert seeds[0] == same
    assert seeds[0] != seeds[1]


def test_rules_that_a_question_stood_between_are_neighbours(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        store.save(begun(store), question(neighbour="wide-go-high"), answer(0), BOXES)
        store.save(1, question(), answer(0), BOXES)
        pairs = store.neighbours()

    assert pairs == {frozenset(("low-ball-up", "wide-go-high"))}


def test_two_quizzes_of_one_player_keep_all_answers(tmp_path: Path) -> None:
    with opened(tmp_path) as one, opened(tmp_path) as other:
        first, second = begun(one), begun(other)
        for _ in range(3):
            one.save(first, question(), answer(0), BOXES)
            other.save(second, question(), answer(0, Credit.NONE), BOXES)
        answers = one.answers()

    assert first != second
    assert not isinstance(answers, Trouble)
    assert [each.credit for each in answers] == [Credit.FULL, Credit.NONE] * 3


ODD = (
    "../../etc/x",
    "a/b",
    "..",
    "CON",
    "nul.txt",
    "🎾🎾",
    "Zoë",
    "=1+1",
    "'; DROP TABLE",
    ".hid",
    "名",
)


@pytest.mark.parametrize("nickname", ODD)
def test_odd_nicknames_stay_inside_the_folder(tmp_path: Path, nickname: str) -> None:
    folder = tmp_path / "players"

    with opened(folder, nickname) as store:
        path = store.path

    assert path.parent == folder
    assert path.name.isascii()
    assert players(folder) == (nickname,)
    assert erase(folder, nickname) is None
    assert list(tmp_path.rglob("*")) == [folder]


def test_all_odd_nicknames_have_files_of_their_own(tmp_path: Path) -> None:
    assert len({player_file(tmp_path, name) for name in ODD}) == len(ODD)


@pytest.mark.parametrize("other", ["robin K", " Robin  k ", "ROBIN_K", "robin-k"])
def test_names_that_differ_in_case_or_spaces_only_are_one_player(
    tmp_path: Path, other: str
) -> None:
    with opened(tmp_path, "Robin K") as store:
        store.save(begun(store), question(), answer(0), BOXES)
    with opened(tmp_path, other) as again:
        found = again.answers()

    assert not isinstance(found, Trouble)
    assert len(found) == 1
    assert players(tmp_path) == ("Robin K",)


@pytest.mark.parametrize(
    ("nickname", "sentence"),
    [
        ("", "A nickname is needed."),
        ("   ", "A nickname is needed."),
        ("x" * 5000, "The nickname has 5000 characters; 24 are the most."),
        ("a\x1b[31mb", 'The nickname "a\\x1b[31mb" holds a character that cannot be shown.'),
        ("a\u202eb", 'The nickname "a\\u202eb" holds a character that cannot be shown.'),
        ("a\udcffb", 'The nickname "a\\udcffb" holds a character that cannot be shown.'),
    ],
    ids=["empty", "spaces", "5000", "escape", "right to left", "broken"],
)
def test_a_nickname_that_cannot_be_used_is_said_gently(
    tmp_path: Path, nickname: str, sentence: str
) -> None:
    found = open_store(tmp_path, nickname, on(0))

    assert isinstance(found, Trouble)
    assert found.sentence == sentence
    assert list(tmp_path.iterdir()) == []


@given(st.text(max_size=40))
def test_any_nickname_names_a_plain_file(nickname: str) -> None:
    folder = Path("players")

    path = player_file(folder, nickname)

    assert path.parent == folder
    assert set(path.name) <= set("abcdefghijklmnopqrstuvwxyz0123456789-.")
    assert len(path.name) <= 50


def test_erasing_leaves_no_file_beside(tmp_path: Path) -> None:
    with opened(tmp_path, "Nightjar") as store:
        store.save(begun(store), question(), answer(0), BOXES)
        path = store.path
    for ending in ("-journal", "-wal", "-shm", ".version-1"):
        path.with_name(path.name + ending).write_bytes(b"")

    trouble = erase(tmp_path, "nightjar")

    assert trouble is None
    assert list(tmp_path.iterdir()) == []


def test_erasing_overwrites_before_the_file_goes(tmp_path: Path) -> None:
    with opened(tmp_path, "Nightjar") as store:
        store.save(begun(store), question(), answer(0), BOXES)
    kept = tmp_path / "kept-open"
    kept.hardlink_to(player_file(tmp_path, "Nightjar"))

    erase(tmp_path, "Nightjar")

    assert b"Nightjar" not in kept.read_bytes()
    assert b"low-ball-up" not in kept.read_bytes()


def test_erasing_one_player_leaves_the_others(tmp_path: Path) -> None:
    opened(tmp_path, "Robin").close()
    opened(tmp_path, "Kim").close()

    erase(tmp_path, "Robin")

    assert players(tmp_path) == ("Kim",)


def test_a_file_of_an_older_version_is_brought_up_after_a_copy(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        store.save(begun(store), question(), answer(0), BOXES)
        path = store.path
    later = (*STEPS, "ALTER TABLE player ADD COLUMN wishes TEXT NOT NULL DEFAULT ''")

    with opened(tmp_path, steps=later) as store:
        held, answers = store.export(), store.answers()

    assert not isinstance(held, Trouble)
    assert (held["format"], held["player"][0]["wishes"]) == (2, "")
    assert answers == (answer(0),)
    assert path.with_name(f"{path.name}.version-1").exists()
    assert path.with_name(f"{path.name}.version-1").stat().st_mode & 0o777 == 0o600


def test_a_step_that_breaks_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        store.save(begun(store), question(), answer(0), BOXES)
        path = store.path
    broken = (*STEPS, "ALTER TABLE player ADD COLUMN wishes TEXT;\nDROP TABLE nowhere")

    found = open_store(tmp_path, "Robin", on(0), steps=broken)

    assert isinstance(found, Trouble)
    with opened(tmp_path) as store:
        assert store.answers() == (answer(0),)
        assert "wishes" not in json.dumps(store.export())
    assert path.exists()


def test_a_file_of_a_later_version_is_refused_and_left_alone(tmp_path: Path) -> None:
    opened(tmp_path).close()
    path = player_file(tmp_path, "Robin")
    with sqlite3.connect(path) as connection:
        connection.execute("PRAGMA user_version=7")
    connection.close()
    before = path.read_bytes()

    found = open_store(tmp_path, "Robin", on(0))

    assert isinstance(found, Trouble)
    assert found.sentence == (
        f'The file "{path}" was made by a later version of this program '
        "(its form is 7, this program knows 1)."
    )
    assert path.read_bytes() == before


def test_a_paper_is_kept_whole_or_not_at_all(tmp_path: Path) -> None:
    bad = replace(answer(0), picked=9)

    with opened(tmp_path) as store:
        found = store.save_paper(
            "paper", quiz(), [(question(), answer(0)), (question(), bad)], BOXES
        )
        answers = store.answers()

    assert isinstance(found, Trouble)
    assert answers == ()


def test_quizzes_that_begin_at_the_same_moment_wait_for_each_other(tmp_path: Path) -> None:
    def played(rule: str) -> list[Trouble | None]:
        with opened(tmp_path) as store:
            number = begun(store)
            return [store.save(number, question(), answer(0, rule=rule), BOXES) for _ in range(3)]

    with ThreadPoolExecutor(6) as pool:
        troubles = [*pool.map(played, map(str, range(6)))]
    with opened(tmp_path) as store:
        answers = store.answers()

    assert troubles == [[None] * 3] * 6
    assert not isinstance(answers, Trouble)
    assert sorted(each.rule for each in answers) == sorted("012345" * 3)
