"""A chart written by hand that goes on: what is changed in it, and that nothing else is."""

from codecs import BOM_UTF8
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.charting.entry import Append, Remove, Replace, Write
from tactics.charting.fields import with_word
from tactics.cli.chart_file import ChartFile, open_chart
from tactics.model.ball import Ball
from tactics.model.standard import STANDARD
from tactics.reading.chart_csv import read_csv, with_cells
from tactics.reading.chart_writing import header
from tactics.source import Source
from tests.charting.killed import ball

FIRST = ("date", "player", "game situation", "balance", "my own", "note")
OTHERS = [name for name in header(STANDARD) if name not in FIRST]
GAP = ";" * len(OTHERS)
BY_HAND = "\r\n".join([
    ";".join([*FIRST, *OTHERS]),
    "",
    f'14.3.2026; "Wren" ;Baseline-Rally;set;"court; 4";"said ""wait"""{GAP}',
    f"03/04/2026;Wren;baseline rally;moving;5;{GAP}",
    ";;;" + GAP,
    f"14.3.2026;Wren;no such word;set;6;{GAP}",
    f"14.3.2026;Lark;returning;set;7;Zo\u00eb{GAP}",
    "",
    "",
])  # fmt: skip


def hand_written(folder: Path, text: str = BY_HAND) -> ChartFile:
    path = folder / "lesson.csv"
    path.write_bytes(BOM_UTF8 + text.encode("utf-8"))
    file = open_chart(path, STANDARD)
    assert file is not None
    return file


def moved(old: Ball) -> Ball:
    return with_word(old, STANDARD.trait("balance"), "stretched")


def saved(file: ChartFile, write: Write) -> str:
    file.save(write)
    data = file.path.read_bytes()
    assert data.startswith(BOM_UTF8)
    return data.removeprefix(BOM_UTF8).decode("utf-8")


def test_a_corrected_ball_changes_only_the_cells_that_say_something_else(tmp_path):
    file = hand_written(tmp_path)

    text = saved(file, Replace(place=1, ball=moved(file.balls[1])))

    assert text == BY_HAND.replace(";moving;5", ";stretched;5")
    assert [path.name for path in tmp_path.iterdir()] == ["lesson.csv"]


def test_a_ball_taken_out_leaves_blank_rows_and_all_other_lines(tmp_path):
    file = hand_written(tmp_path)

    text = saved(file, Remove(place=2))

    lines = BY_HAND.split("\r\n")
    assert text == "\r\n".join([*lines[:6], *lines[7:]])


def test_a_new_ball_has_the_separator_and_the_line_end_of_the_file(tmp_path):
    file = hand_written(tmp_path)

    text = saved(file, Append(ball=replace(ball("a; b"), date="2026-03-14")))

    new = text.removeprefix(BY_HAND)
    assert new.startswith('2026-03-14;Wren;baseline rally;;;"a; b";')
    assert new.endswith("\r\n")
    assert new.count("\n") == 1


def test_after_all_kinds_of_writes_the_file_reads_as_the_balls_on_the_screen(tmp_path):
    file = hand_written(tmp_path)
    noted = replace(file.balls[0], note='his word: "later"; mine\nnow')

    file.save(Append(ball=ball("new")))
    file.save(Replace(place=0, ball=noted))
    file.save(Remove(place=1))
    file.save(Replace(place=1, ball=moved(file.balls[2])))

    again = open_chart(file.path, STANDARD)
    assert again is not None
    assert [(each.player, each.note) for each in again.balls] == [
        ("Wren", 'his word: "later"; mine now'), ("Lark", "Zo\u00eb"), ("Wren", "new"),
    ]  # fmt: skip
    assert again.balls[1] == replace(moved(file.balls[2]), more=(("my own", "7"),))


@pytest.mark.parametrize(
    ("encoding", "said"),
    [("utf-8", ""), ("utf-16", "are saved as UTF-8"), ("cp1252", "are saved as UTF-8")],
)
def test_columns_that_are_missing_go_to_the_end_of_each_row(tmp_path, capsys, encoding, said):
    rows = [
        ",".join(FIRST),
        "",
        '2026-03-07,"Wren",baseline rally,set,4,Zo\u00eb',
        "2026-03-07,Wren",
    ]
    path = tmp_path / "lesson.csv"
    before = "\n".join([*rows, ""]).encode(encoding)
    path.write_bytes(before)

    assert open_chart(path, STANDARD) is not None

    after = path.read_bytes().removeprefix(BOM_UTF8).decode("utf-8").split("\n")
    more = "," * len(OTHERS)
    assert after == [
        f"{rows[0]},{','.join(OTHERS)}",
        "",
        rows[2] + more,
        f"{rows[3]},,,,{more}",
        "",
    ]
    assert (tmp_path / "lesson.before-1.csv").read_bytes() == before
    assert said in capsys.readouterr().err


def test_cells_beyond_the_header_never_slip_under_a_new_column(tmp_path, capsys):
    path = tmp_path / "lesson.csv"
    path.write_bytes(b"date,player,game situation,intent\n2026-03-07,Wren,serving,build,a note\n")
    before = path.read_bytes()

    assert open_chart(path, STANDARD) is None

    assert "more cells in row 2 than in its header" in capsys.readouterr().err
    assert path.read_bytes() == before


def test_headings_that_mean_what_charting_writes_are_named_before_it_adds_its_own(tmp_path, capsys):
    path = tmp_path / "lesson.csv"
    path.write_text("date,player,Situation of game,Intention\n2026-03-07,Wren,serving,build\n")

    assert open_chart(path, STANDARD) is not None

    said = capsys.readouterr().err
    assert "2 headings are close to a column that charts know. Charting writes under its" in said
    assert "  Situation of game: game situation\n  Intention: intent\n" in said
    assert "The file before: " in said


def test_a_link_to_a_chart_stays_a_link(tmp_path):
    file = hand_written(tmp_path)
    link = tmp_path / "today.csv"
    link.symlink_to(file.path)

    again = open_chart(link, STANDARD)
    assert again is not None
    again.save(Replace(place=1, ball=moved(again.balls[1])))

    assert link.is_symlink()
    assert b";stretched;5" in file.path.read_bytes()


def test_a_program_that_saves_the_same_again_disturbs_nobody(tmp_path):
    file = hand_written(tmp_path)
    data = file.path.read_bytes()
    file.path.unlink()
    file.path.write_bytes(data)

    text = saved(file, Replace(place=1, ball=moved(file.balls[1])))
    same_length = text.replace("Lark", "Kite")
    file.path.write_bytes(BOM_UTF8 + same_length.encode("utf-8"))

    with pytest.raises(OSError, match="another program has changed the file"):
        file.save(Append(ball=ball("new")))


CELLS = st.lists(
    st.text("ab \"'=", max_size=5).map(str.strip).filter(lambda cell: not cell.startswith('"')),
    min_size=1, max_size=5,
)  # fmt: skip


@given(CELLS, st.sampled_from(",;\t"), st.integers(0, 6))
def test_one_cell_is_changed_and_all_others_read_as_before(cells, separator, place):
    row = separator.join(f'"{cell.replace(chr(34), chr(34) * 2)}"' for cell in cells)

    changed = with_cells(row, separator, {place: "new"})

    table = read_csv(Source(name="row", text=f"sep={separator}\n{changed}"), lambda _: True)
    filled = [*cells, *[""] * (place + 1 - len(cells))]
    assert list(table.header.cells) == [*filled[:place], "new", *filled[place + 1 :]]
