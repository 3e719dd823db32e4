"""Charts from xlsx and ods: the same balls and the same problems as from a text."""

import io
import zipfile
from dataclasses import replace
from datetime import date
from struct import pack

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.model.ball import Ball, Chart
from tactics.model.known import Within, between, point
from tactics.model.standard import STANDARD
from tactics.problem import Reading, Severity
from tactics.reading.chart_writing import header, write_row
from tactics.reading.charts import read_chart_bytes
from tactics.reading.sheet_codes import SheetCode
from tactics.report.problems import render_problems
from tests.golden import Golden
from tests.sheets.books import ODS_REST, ods, ods_row, ods_text, ods_value, xlsx
from tests.strategies import balls

HEAD = ("date", "player", "game situation", "intent", "direction", "balance", "pace", "point")
GOOD = (date(2026, 3, 14), "Wren", "baseline rally", "build", "crosscourt", "set", 0.7, 3)
SHEETS = {
    "numbers-dates-and-per-cents": xlsx(balls=[HEAD, GOOD, GOOD[:6]]),
    "two-bad-cells": xlsx(balls=[HEAD, GOOD, (), (*GOOD[:5], "sett", 250)]),
    "title-above": xlsx(balls=[("Lesson of Saturday",), HEAD, GOOD]),
    "a-date-made-of-a-point": xlsx(balls=[HEAD, (*GOOD[:7], date(2026, 3, 2))]),
    "truth-values": xlsx(balls=[(*HEAD, "point won", "as intended"), (*GOOD, True, False)]),
    "truth-value-for-a-word": xlsx(balls=[HEAD, (*GOOD[:5], True)]),
    "two-lessons": xlsx(March=[HEAD, GOOD], April=[HEAD, (*GOOD[:5], "sett")]),
    "notes-on-another-sheet": xlsx(Notes=[("rain",)], balls=[HEAD, GOOD]),
    "nothing-at-all": xlsx(balls=[]),
    "header-only": xlsx(balls=[HEAD]),
    "headings-of-a-coach": xlsx(
        balls=[
            ("day", "player name", "game situation", "Shot", "Shot direction", "balance"),
            (date(2026, 3, 14), "Wren", "baseline rally", "finish", "straight", "set"),
            (date(2026, 3, 14), "Wren", "baseline rally", "build", "middle", "moving"),
        ]
    ),
    "cell-without-heading": xlsx(balls=[HEAD, (*GOOD, "what is this")]),
}  # fmt: skip
ODS_SHEETS = {
    "ods": ods(
        ods_row(*map(ods_text, HEAD))
        + ods_row(
            ods_value("date", "2026-03-14", "14.3.26"), ods_text("Wren"),
            ods_text("baseline rally"), ods_text("build"), ods_text("crosscourt"),
            ods_text("set"), ods_value("percentage", "0.7", "70%"), ods_value("float", "3", "3"),
            ODS_REST,
        )
        + ods_row(ODS_REST, times=1_000_000)
    ),
    "ods-gap-and-bad-cell": ods(
        ods_row(*map(ods_text, HEAD)) + ods_row(ODS_REST, times=40)
        + ods_row(*map(ods_text, ("2026-03-14", "Wren", "baseline rally", "bild")))
    ),
}  # fmt: skip


def read(data: bytes, name: str = "chart.xlsx") -> Reading[Chart]:
    return read_chart_bytes(name, data, STANDARD)


def told(read: Reading[Chart]) -> str:
    """Return the problems, the balls and the rows left out."""
    if read.value is None:
        return f"{render_problems(read.problems)}\nnot read\n"
    cells = [
        f"row {ball.span.line}: "
        + " | ".join(
            f"{name}: {cell}"
            for name, cell in zip(header(STANDARD), write_row(ball, STANDARD), strict=True)
            if cell and (name, cell) != ("disturbed", "no")
        )
        + "".join(f" | ({name}: {cell})" for name, cell in ball.more)
        for ball in read.value.balls
    ]
    left_out = [f"left out: row {row.span.line}: {row.text}" for row in read.value.left_out]
    return "\n".join(filter(None, [render_problems(read.problems), *cells, *left_out])) + "\n"


@pytest.mark.parametrize("name", SHEETS | ODS_SHEETS)
def test_a_spreadsheet_earns_exactly_this_text(name: str, golden: Golden) -> None:
    data = (SHEETS | ODS_SHEETS)[name]

    golden(f"sheets/{name}.txt", told(read(data, f"{name.split('-')[0]}.xlsx")))


def merged(*ranges: str) -> bytes:
    """Return a book in which some cells are one."""
    import xlsxwriter

    out = io.BytesIO()
    book = xlsxwriter.Workbook(out)
    sheet = book.add_worksheet("balls")
    for number, row in enumerate([HEAD, GOOD, GOOD, GOOD, GOOD]):
        for index, cell in enumerate(row[1:], start=1):
            sheet.write(number, index, cell)
    sheet.write(0, 0, "date")
    for each in ranges:
        sheet.merge_range(each, "2026-03-14" if each[0] == "A" else "build", book.add_format())
    book.close()
    return out.getvalue()


def test_cells_merged_down_a_column_count_for_each_row(golden: Golden) -> None:
    golden("sheets/merged-down.txt", told(read(merged("A2:A5"))))


def test_cells_merged_across_are_read_for_the_first_column(golden: Golden) -> None:
    golden("sheets/merged-across.txt", told(read(merged("D3:E3"))))


def test_the_error_of_a_formula_is_no_empty_cell() -> None:
    import xlsxwriter

    out = io.BytesIO()
    book = xlsxwriter.Workbook(out)
    sheet = book.add_worksheet("balls")
    sheet.write_row(0, 0, HEAD[1:])
    sheet.write_row(1, 0, GOOD[1:6])
    sheet.write_formula(1, 5, "=1/0", None, "#DIV/0!")
    book.close()

    found = read(out.getvalue())

    assert [(each.code, each.span.line, each.span.column) for each in found.problems] == [
        ("formula-in-cell", 2, 6)
    ]
    assert "row 2, column F" in found.problems[0].sentence


def test_a_per_cent_cell_means_what_it_shows() -> None:
    chart = read(xlsx(balls=[HEAD, GOOD, (*GOOD[:6], 70), (*GOOD[:6], "70 %")])).value

    assert chart is not None
    assert [ball.choice.get("pace") for ball in chart.balls] == [Within((point(70.0),))] * 3


# ---- laws


def with_single_spaces(ball: Ball) -> Ball:
    texts = ("player", "lesson", "point", "ball", "note")
    return replace(ball, **{name: " ".join(getattr(ball, name).split()) for name in texts})


def bag(*rows: list[str]) -> bytes:
    return xlsx(balls=rows)


def as_ods(*rows: list[str]) -> bytes:
    blank = "<table:table-cell/>"
    return ods(
        "".join(ods_row(*(ods_text(cell) if cell else blank for cell in row)) for row in rows)
    )


@given(drawn=st.lists(balls(), min_size=1, max_size=3))
@settings(max_examples=15)
def test_the_cells_of_any_ball_are_read_back_as_that_ball(drawn: list[Ball]) -> None:
    rows = [list(write_row(ball, STANDARD)) for ball in drawn]

    chart = read(bag(list(header(STANDARD)), *rows)).value

    assert chart is not None
    assert list(chart.balls) == drawn


@given(drawn=balls().map(with_single_spaces))
@settings(max_examples=15)
def test_the_same_holds_for_ods_which_keeps_no_double_spaces(drawn: Ball) -> None:
    chart = read(as_ods(list(header(STANDARD)), list(write_row(drawn, STANDARD)))).value

    assert chart is not None
    assert chart.balls == (drawn,)


NAMES = st.one_of(
    st.text(st.characters(exclude_categories=("Cs", "Cc", "Co", "Cn")), min_size=1, max_size=30),
    st.sampled_from(["\N{TENNIS RACQUET AND BALL}\ufe0f", "\u05e0\u05d5\u05e2\u05d4", "x" * 5000,
                     "\u0644\u064a\u0644\u0649 \u202bab\u202c", "=1+1", "_x0041_", "'=x"]),
).map(str.strip).filter(bool)  # fmt: skip


@given(name=NAMES)
@settings(max_examples=25)
def test_a_name_in_any_script_and_length_survives_in_every_kind_of_file(name: str) -> None:
    from tactics.reading.chart_writing import guard_text
    from tactics.report.csv_table import rows_as_csv

    name = " ".join(name.split())
    row = [guard_text(name), "baseline rally", "build"]
    head = ["player", "game situation", "intent"]
    for data in (bag(head, row), as_ods(head, row), rows_as_csv([head, row]).encode("utf-8")):
        chart = read(data).value
        assert chart is not None
        assert [ball.player for ball in chart.balls] == [name]


# ---- files that are no good

FINE = SHEETS["two-lessons"]


@given(data=st.data())
@settings(max_examples=40)
def test_bytes_that_are_lost_or_changed_are_a_problem_and_no_crash(data: st.DataObject) -> None:
    at = data.draw(st.integers(4, len(FINE) - 1))
    new = data.draw(st.binary(max_size=4))
    spoilt = FINE[:at] + new + (FINE[at + len(new) :] if data.draw(st.booleans()) else b"")

    found = read(spoilt)

    assert found.value is not None or any(p.severity is Severity.ERROR for p in found.problems)


@given(data=st.data())
@settings(max_examples=40)
def test_a_sheet_that_makes_no_sense_inside_is_a_problem_and_no_crash(data: st.DataObject) -> None:
    names = ("workbook", "worksheets/sheet1", "sharedStrings", "styles")
    member = f"xl/{data.draw(st.sampled_from(names))}.xml"

    def spoil(text: bytes) -> bytes:
        at = data.draw(st.integers(0, len(text)))
        length = data.draw(st.integers(0, 12))
        return text[:at] + data.draw(st.binary(max_size=6)) + text[at + length :]

    found = read(with_member(FINE, member, spoil))

    assert found.value is not None or any(p.severity is Severity.ERROR for p in found.problems)


def with_member(data: bytes, member: str, change) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", 8) as new:
        for name in old.namelist():
            text = old.read(name)
            new.writestr(name, change(text) if name == member else text)
    return out.getvalue()


def code_of(data: bytes) -> str:
    found = read(data)
    assert found.value is None
    (problem,) = found.problems
    return problem.code


def test_a_file_cut_short_is_damaged() -> None:
    assert code_of(FINE[: len(FINE) // 2]) == SheetCode.DAMAGED_SPREADSHEET


def test_a_locked_file_says_so() -> None:
    compound = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600)
    locked = compound + "EncryptedPackage".encode("utf-16-le")
    entry = '<manifest:file-entry manifest:full-path="content.xml"><manifest:encryption-data/>'

    assert code_of(locked) == SheetCode.LOCKED_SPREADSHEET
    assert code_of(ods("", f"{entry}</manifest:file-entry>")) == SheetCode.LOCKED_SPREADSHEET
    assert code_of(compound) == SheetCode.OTHER_SPREADSHEET


def test_another_packed_file_is_no_chart() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("letter.txt", "hello")

    assert code_of(out.getvalue()) == "not-a-chart"


def far(cell: bytes) -> bytes:
    """Return a small book whose last cell stands very far away."""
    return with_member(
        SHEETS["header-only"],
        "xl/worksheets/sheet1.xml",
        lambda text: text.replace(
            b"</sheetData>", b'<row r="2"><c r="' + cell + b'"><v>1</v></c></row></sheetData>'
        ),
    )


def swollen() -> bytes:
    """Return a file that claims to unpack to half a gigabyte."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", "<workbook/>")
        archive.writestr("xl/worksheets/sheet1.xml", bytes(123_457))
    return out.getvalue().replace(pack("<L", 123_457), pack("<L", 500_000_000))


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(far(b"XFD1048576"), id="far corner"),
        pytest.param(far(b"A1000000"), id="far below"),
        pytest.param(ods(ods_row(ods_text("x", 16384), times=1_048_576)), id="row copied down"),
        pytest.param(
            ods(ods_row(ods_text("intent")) + ods_row(ODS_REST, times=1_000_000)
                + ods_row(ods_text("build"))), id="a million empty rows"),
    ],
)  # fmt: skip
def test_a_small_file_that_stands_for_billions_of_cells_is_not_opened(data: bytes) -> None:
    assert len(data) < 10_000
    assert code_of(data) == SheetCode.LARGE_SPREADSHEET


def one_text_in_every_cell() -> bytes:
    """Return a small book whose cells all share one long text."""
    row = b"<row>" + b'<c t="s"><v>0</v></c>' * 1000 + b"</row>"
    long = with_member(
        SHEETS["header-only"], "xl/sharedStrings.xml",
        lambda text: text.replace(b"<si><t>date", b"<si><t>" + b"x" * 1_000_000, 1),
    )  # fmt: skip
    return with_member(
        long, "xl/worksheets/sheet1.xml",
        lambda text: text.replace(b"</sheetData>", row * 3 + b"</sheetData>"),
    )  # fmt: skip


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(one_text_in_every_cell(), id="xlsx"),
        pytest.param(ods(ods_row(ods_text("x" * 1_000_000, 3000), ods_text("y"))), id="ods"),
    ],
)
def test_a_long_text_that_stands_in_thousands_of_cells_is_not_copied_out(data: bytes) -> None:
    assert len(data) < 50_000
    assert code_of(data) == SheetCode.LARGE_SPREADSHEET


def test_a_file_that_unpacks_to_half_a_gigabyte_is_not_unpacked() -> None:
    assert code_of(swollen()) == SheetCode.LARGE_SPREADSHEET


def test_numbers_between_bands_stay_numbers() -> None:
    chart = read(xlsx(balls=[(*HEAD, "height over net"), (*GOOD, 1.1), (*GOOD, "0.3 to 0.7")]))

    assert chart.value is not None
    assert [ball.choice.get("height over net") for ball in chart.value.balls] == [
        Within((point(1.1),)),
        Within((between(0.3, 0.7),)),
    ]
