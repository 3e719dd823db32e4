"""Charting as it stands on a screen of 80 by 24, and what becomes of a file that goes on."""

from pathlib import Path

import pytest

from tactics.charting.entry import Append
from tactics.cli.chart_file import open_chart
from tactics.model.standard import STANDARD
from tactics.screens.charting import Charting
from tactics.screens.charting_lines import Lines
from tactics.screens.frame import Scene
from tests.charting.killed import ball
from tests.charting.made import first_entry
from tests.golden import Golden
from tests.screens.emulated import shown

HEADINGS = b"date,player,game situation,court,balls\n"


def scene(kept: list[object]) -> Scene:
    charting = Charting(first_entry(), kept.append)
    return Scene(draw=charting.draw, press=charting.press)


def test_the_first_question_and_the_next_ball_look_like_this(golden: Golden) -> None:
    kept: list[object] = []

    frames = shown(scene(kept), *"bushbsmoda")

    assert len(kept) == 1
    golden("charting/first-question.txt", frames[0].text)
    first_saved = next(frame for frame in frames if "ball 2" in frame.text)
    golden("charting/after-a-ball.txt", first_saved.text)
    for frame in frames:
        assert "[" in frame.text or "Enter" in frame.text


def test_the_cursor_waits_on_the_question(golden: Golden) -> None:
    frames = shown(scene([]), "B", "\t")

    assert frames[-1].rows[frames[-1].cursor_row].startswith("What would you like to do?")
    golden("charting/menu.txt", frames[-1].text)


def whole_header(tmp_path: Path) -> bytes:
    path = tmp_path / "header.csv"
    open_chart(path, STANDARD)
    return path.read_bytes()


@pytest.mark.parametrize("ending", [b"\r\n", b"\n", b""])
def test_what_stood_in_a_chart_stays_byte_for_byte(tmp_path: Path, ending: bytes) -> None:
    header = whole_header(tmp_path).removesuffix(b"\n")
    commas = header.count(b",")
    row = b' "2026-03-07" ,Wren' + b"," * (commas - 1)
    before = header + b",my own\r\n" + row + b',"court, 4"' + ending
    path = tmp_path / "lesson.csv"
    path.write_bytes(before)

    file = open_chart(path, STANDARD)
    assert file is not None
    file.save(Append(ball=ball("new")))

    assert path.read_bytes().startswith(before)
    again = open_chart(path, STANDARD)
    assert again is not None
    assert [each.note for each in again.balls] == ["", "new"]
    assert dict(again.balls[0].more)["my own"] == "court, 4"


def test_a_chart_that_lacks_columns_is_kept_beside(tmp_path: Path) -> None:
    path = tmp_path / "lesson.csv"
    path.write_bytes(HEADINGS + b"2026-03-07,Wren,baseline rally,4,new\n")
    before = path.read_bytes()

    assert open_chart(path, STANDARD) is not None

    assert (tmp_path / "lesson.before-1.csv").read_bytes() == before


@pytest.mark.parametrize("encoding", ["utf-16", "utf-8"])
@pytest.mark.parametrize("line_end", ["\r", "\n"])
def test_a_line_that_broke_off_takes_no_other_line_with_it(
    tmp_path: Path, encoding: str, line_end: str
) -> None:
    path = tmp_path / "lesson.csv"
    whole = [HEADINGS.decode().strip(), "2026-03-07,Wren,baseline rally,4,new", "2026-03-0"]
    path.write_bytes(line_end.join(whole).encode(encoding))
    before = path.read_bytes()

    file = open_chart(path, STANDARD)

    if file is None:
        assert path.read_bytes() == before
    else:
        assert len(file.balls) == 1
        assert (tmp_path / "lesson.before-1.csv").read_bytes() == before


def test_stop_ends_it_and_the_words_like_it_are_still_answers() -> None:
    kept: list[object] = []
    lines = Lines(Charting(first_entry(), kept.append))

    assert lines.take("baseline rally")
    assert lines.take("finish")
    assert lines.charting.entry.answers
    assert not lines.take("stop")
    assert kept == []
    assert '"stop"' in " ".join(lines.ask())
