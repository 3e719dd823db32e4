"""What `forget` takes out and what it says, and what `export` gathers."""

import io
import json
import zipfile
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.cli.main import Exit, safely
from tactics.model.standard import STANDARD
from tactics.reading.chart_bytes import decode_chart
from tactics.reading.charts import read_chart_bytes, text_table
from tactics.reading.player_rows import exact_text, rows_of, without_rows
from tactics.report.csv_table import rows_as_csv
from tests.cli.printed import as_printed
from tests.golden import Golden
from tests.sheets.books import xlsx

CHART = (
    "player,game situation,intent,direction,note\n"
    "Wren,baseline rally,build,straight,first\r\n"
    "Wrenna,baseline rally,build,straight,played with Wren\n"
    'wren ,baseline rally,finish,straight,"two\nlines"\n'
    "\n"
    "Ko,baseline rally,build,middle,=1+1\n"
    'WREN,baseline rally,build,middle,"open\n'
    "Little Wren,serving,force,T,\n"
    "Wren,baseline rally,build,crosscourt,last"
)
KEPT = (
    "player,game situation,intent,direction,note\n"
    "Wrenna,baseline rally,build,straight,played with Wren\n"
    "\n"
    "Ko,baseline rally,build,middle,=1+1\n"
    'WREN,baseline rally,build,middle,"open\n'
    "Little Wren,serving,force,T,\n"
)
HEAD = ("date", "player", "game situation", "intent")
BOOK = xlsx(balls=[HEAD, *[(date(2026, 3, 14), name, "serving", "force")
                           for name in ("Wren", "Ko", "Wren", "wren")]])  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "lesson.csv").write_text(CHART, "utf-8", newline="")
    (tmp_path / "lesson.xlsx").write_bytes(BOOK)
    return tmp_path


def answered(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(text))


def test_rows_are_taken_out_and_everything_else_stays_byte_for_byte(
    folder, capsys, monkeypatch, golden: Golden
) -> None:
    answered(monkeypatch, "yes\n")
    printed = as_printed(["forget", "Wren", "lesson.csv", "--folder", "quiz"], capsys)

    golden("forgotten/from-a-text.txt", printed)
    assert (folder / "lesson.csv").read_bytes() == KEPT.encode("utf-8")


def test_of_a_spreadsheet_the_rows_are_named_and_the_file_is_left_alone(
    folder, capsys, golden: Golden
) -> None:
    printed = as_printed(["forget", "wren", "lesson.xlsx", "--yes", "--folder", "quiz"], capsys)

    golden("forgotten/from-a-spreadsheet.txt", printed)
    assert (folder / "lesson.xlsx").read_bytes() == BOOK


@pytest.mark.parametrize("answer", ["", "no\n", "y\n", "\n"])
def test_nothing_is_removed_without_a_yes(folder, capsys, monkeypatch, answer: str) -> None:
    answered(monkeypatch, answer)

    code = safely(["forget", "Wren", "lesson.csv", "--folder", "quiz"])

    assert code == Exit.FINE
    assert capsys.readouterr().out.endswith("Nothing was removed.\n")
    assert (folder / "lesson.csv").read_bytes() == CHART.encode("utf-8")


def test_a_second_file_that_is_no_chart_keeps_the_first_as_it_is(folder, capsys) -> None:
    (folder / "shopping.csv").write_text("milk,eggs\n1,2\n", "utf-8")

    for bad in ("shopping.csv", "nowhere.csv"):
        code = safely(["forget", "Wren", "lesson.csv", bad, "--yes", "--folder", "quiz"])
        assert code == Exit.COULD_NOT_RUN
    assert (folder / "lesson.csv").read_bytes() == CHART.encode("utf-8")
    assert 'has no column "player"' in capsys.readouterr().err


def test_a_link_is_followed_so_that_the_rows_do_not_stay_behind_it(folder, capsys) -> None:
    (folder / "link.csv").symlink_to("lesson.csv")

    assert safely(["forget", "Wren", "link.csv", "--yes", "--folder", "quiz"]) == Exit.PROBLEMS

    assert (folder / "link.csv").is_symlink()
    assert (folder / "lesson.csv").read_bytes() == KEPT.encode("utf-8")


def test_a_heading_of_ones_own_may_hold_the_names(folder, capsys) -> None:
    (folder / "own.csv").write_text("kid,intent\nWren,build\nKo,build\n", "utf-8")
    (folder / "columns.yaml").write_text("columns:\n  kid: player\n", "utf-8")

    safely(["forget", "Wren", "own.csv", "--columns", "columns.yaml", "--yes", "--folder", "quiz"])

    assert (folder / "own.csv").read_text("utf-8") == "kid,intent\nKo,build\n"


def test_the_quiz_is_named_where_it_keeps_answers(folder, capsys) -> None:
    from tactics.quiz.kept import Trouble
    from tactics.quiz.store import open_store

    store = open_store(folder / "quiz", "Wren", date(2026, 3, 14))
    assert not isinstance(store, Trouble)
    with store:
        pass

    safely(["forget", "Wren", "lesson.csv", "--yes", "--folder", "quiz"])

    assert 'tactics quiz --player "Wren" --folder "quiz" --erase' in capsys.readouterr().out


# ---- export


def members(path: Path) -> dict[str, str]:
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name).decode("utf-8") for name in archive.namelist()}


def test_everything_about_a_player_comes_into_one_file(folder, capsys, golden: Golden) -> None:
    printed = as_printed(
        ["export", "Wren", "lesson.csv", "lesson.xlsx", "--folder", "quiz"], capsys
    )
    inside = members(folder / "wren.zip")

    golden("forgotten/exported.txt", printed + "".join(
        f"=== {name}\n{text.replace(chr(13), '')}" for name, text in inside.items()))  # fmt: skip
    assert "Ko" not in "".join(inside.values())
    assert "Wrenna" not in "".join(inside.values())


def test_what_is_exported_is_read_back_as_the_same_balls(folder, capsys) -> None:
    safely(["export", "Wren", "lesson.csv", "lesson.xlsx", "--folder", "quiz"])
    text, book = (members(folder / "wren.zip")[f"charts/lesson{end}.csv"] for end in ("", "-2"))

    for data, exported, name in ((CHART.encode(), text, "lesson.csv"), (BOOK, book, "lesson.xlsx")):
        whole = read_chart_bytes(name, data, STANDARD).value
        mine = read_chart_bytes("mine.csv", exported.encode("utf-8"), STANDARD).value
        assert whole is not None
        assert mine is not None
        assert list(mine.balls) == [b for b in whole.balls if b.player.casefold() == "wren"]


def test_quiz_answers_come_along_and_a_file_is_never_written_over(folder, capsys) -> None:
    from tactics.quiz.kept import Trouble
    from tactics.quiz.store import open_store

    store = open_store(folder / "quiz", "Wren", date(2026, 3, 14))
    assert not isinstance(store, Trouble)
    with store:
        pass

    assert safely(["export", "Wren", "-o", "w.zip", "--folder", "quiz"]) == Exit.FINE
    assert safely(["export", "Wren", "-o", "w.zip", "--folder", "quiz"]) == Exit.COULD_NOT_RUN
    assert "answer" in json.loads(members(folder / "w.zip")["quiz-answers.json"])


def test_nobody_of_that_name_is_no_file(folder, capsys) -> None:
    assert safely(["export", "Nemo", "lesson.csv", "--folder", "quiz"]) == Exit.PROBLEMS

    assert not list(folder.glob("*.zip"))


# ---- laws

NAMES = st.sampled_from(["Wren", "wren", "Ko", "Wr\u00e9n", "", "\N{TENNIS RACQUET AND BALL}"])
NOTES = st.text(st.sampled_from('ab" ,\n\r\u00e9\N{TENNIS RACQUET AND BALL}'), max_size=6)
ENDS = st.sampled_from(["\n", "\r\n", "\r"])


@st.composite
def texts(draw: st.DrawFn) -> tuple[str, str]:
    """Return a chart, and the same without the rows of Wren."""
    rows = draw(st.lists(st.tuples(NAMES, NOTES), max_size=6))
    lines = ["player,intent,note", *(
        f'{name},build,"{note.replace(chr(34), chr(34) * 2)}"' for name, note in rows)]  # fmt: skip
    ended = [line + draw(ENDS) for line in lines]
    kept = [line for line in ended if not line.casefold().startswith("wren,")]
    return "".join(ended), "".join(kept)


@given(drawn=texts(), encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"]))
def test_only_their_rows_go_and_every_other_byte_stays(
    drawn: tuple[str, str], encoding: str
) -> None:
    data, kept = (text.encode(encoding, "ignore") for text in drawn)
    source, _ = decode_chart("c.csv", data)
    exact = exact_text(data)
    found = rows_of(text_table(source, STANDARD), "WREN", STANDARD)

    assert exact is not None
    assert exact.encode(exact.text) == data
    assert found is not None
    assert exact.encode(without_rows(exact.text, found.rows)) == kept


@given(rows=st.lists(st.lists(st.text(max_size=8), min_size=2, max_size=3), min_size=1, max_size=4))
def test_no_cell_of_an_export_is_a_formula(rows: list[list[str]]) -> None:
    import csv

    read = csv.reader(io.StringIO(rows_as_csv(rows).removeprefix("\ufeff"), newline=""))

    for cell in (cell for row in read for cell in row):
        assert cell[:1] not in tuple("=@") or not cell
        assert cell[:1] not in tuple("+-") or not cell or cell[1:2].isdecimal()


@pytest.mark.parametrize("cell", ["=1+1", "-2+3+cmd|' /C calc'!A0", "@SUM(A1)", "+1-1", "=", "-"])
def test_what_a_spreadsheet_would_calculate_is_a_text_in_an_export(cell: str) -> None:
    assert rows_as_csv([[cell]]).removeprefix("\ufeff").strip('"').startswith("'")


@pytest.mark.parametrize("cell", ["-0.3 m", "-0,3", "+5", "-10 %", "'=x", "plain"])
def test_numbers_and_texts_stay_as_they_stood(cell: str) -> None:
    assert rows_as_csv([[cell]]).strip("\ufeff\r\n").strip('"') == cell
