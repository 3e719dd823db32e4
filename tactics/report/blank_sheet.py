"""A blank chart as a spreadsheet. The only module that imports xlsxwriter."""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from xlsxwriter import Workbook
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from tactics.model.trait import Kind, Role, Trait, Word
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_rows import letters_of
from tactics.reading.chart_writing import columns, guard_text
from tactics.report.words import word_with_numbers

ROWS = 2000
"""Rows that are ready to be filled in; a chart may go on below them."""

PAPER_ROWS = 22
_WIDE, _NARROW = 30.0, 6.0
_PAPER_WIDTH = 190.0
"""Rows of the page to write on by hand, and characters across it; it is shrunk until they fit."""

_HOW = (
    "The first letters of a word will do. Leave empty what was not seen. Copy the balls to the "
    "first sheet afterwards."
)
_NOTE, _TITLE, _LIST_MESSAGE = 1000, 32, 255
_WRITTEN = datetime(2000, 1, 1, tzinfo=UTC)
"""One date for every file: the same rules give the same bytes, and nobody's clock is shown."""
_OPTIONS = {
    "in_memory": True, "strings_to_formulas": False, "strings_to_numbers": False,
    "strings_to_urls": False,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Looks:
    """Formats of the book; what a sheet looks like is a matter of shades of grey."""

    heading: Format
    quiet: Format
    text: Format
    date: Format
    wrapped: Format


def blank_sheet(words: Vocabulary, rows: Sequence[Sequence[str]] = ()) -> bytes:
    """Return an xlsx file: sheets `balls`, `words`, `on paper`, and one with the lists.

    rows: cells of balls to be there already, in the order of `columns(words)`.
    """
    out = io.BytesIO()
    book = Workbook(out, _OPTIONS)
    book.set_properties({"title": "Chart of balls", "created": _WRITTEN.replace(tzinfo=None)})
    traits = tuple(trait for trait in columns(words) if not trait.derived or rows)
    looks = _looks(book)
    balls = book.add_worksheet("balls")
    pages = book.add_worksheet("words")
    paper = book.add_worksheet("on paper")
    lists = book.add_worksheet("lists")
    lists.hide()
    _write_balls(balls, traits, rows, looks)
    _write_lists(balls, lists, traits)
    _write_words(pages, traits, looks)
    _write_paper(book, paper, traits)
    book.close()
    return out.getvalue()


def _looks(book: Workbook) -> _Looks:
    plain = {"font_name": "Calibri", "font_size": 11, "valign": "top"}
    return _Looks(
        heading=book.add_format(
            {**plain, "bold": True, "text_wrap": True, "bottom": 2, "bg_color": "#E4E6EA"}
        ),
        quiet=book.add_format({**plain, "bold": True, "text_wrap": True, "bottom": 2}),
        text=book.add_format({**plain, "num_format": "@"}),
        date=book.add_format({**plain, "num_format": "yyyy-mm-dd"}),
        wrapped=book.add_format({**plain, "text_wrap": True}),
    )


def _write_balls(
    sheet: Worksheet, traits: Sequence[Trait], rows: Sequence[Sequence[str]], looks: _Looks
) -> None:
    for index, trait in enumerate(traits):
        is_usual = trait.quick or trait.role is Role.LABEL
        # as text, a score such as 6-4 stays what it is and becomes no day in June
        look = looks.date if trait.kind is Kind.DATE else looks.text
        sheet.set_column(index, index, max(11, min(22, len(trait.name) + 2)), look)
        sheet.write_string(0, index, trait.name, looks.heading if is_usual else looks.quiet)
        sheet.write_comment(0, index, _note(trait), {"x_scale": 2.2, "y_scale": 2.2, "author": ""})
    for number, cells in enumerate(rows, start=1):
        for index, cell in enumerate(cells):
            if cell:
                sheet.write_string(number, index, cell)
    sheet.set_row(0, 32)
    sheet.freeze_panes(1, 2)
    sheet.set_landscape()
    sheet.set_paper(9)
    sheet.repeat_rows(0)
    sheet.ignore_errors({"number_stored_as_text": f"A1:{letters_of(len(traits) - 1)}{ROWS + 1}"})


def _note(trait: Trait) -> str:
    words = "; ".join(
        f"{word.name} ({word.mark})" if word.mark else word.name for word in trait.words
    )
    parts = [trait.says, trait.by_eye, words and f"Words: {words}", _also_numbers(trait)]
    if trait.kind is Kind.DATE:
        parts.append("Year first: 2026-03-14")
    return guard_text("\n".join(part for part in parts if part))[:_NOTE]


def _also_numbers(trait: Trait) -> str:
    if trait.kind is not Kind.NUMBER:
        return ""
    unit = f" in {trait.unit.value}" if trait.unit else ""
    return f"{'A number' if not trait.words else 'Or a number'}{unit}."


def _write_lists(balls: Worksheet, lists: Worksheet, traits: Sequence[Trait]) -> None:
    """Give each column with words its drop-down list; the words stand on a sheet of their own."""
    for index, trait in enumerate(traits):
        if not trait.words:
            continue
        for row, word in enumerate(trait.words):
            lists.write_string(row, index, word.name)
        letters = letters_of(index)
        balls.data_validation(1, index, ROWS, index, {
            "validate": "list",
            "source": f"=lists!${letters}$1:${letters}${len(trait.words)}",
            "ignore_blank": True,
            # several words, numbers and "?" may be typed as well, so nothing is forbidden
            "error_type": "information",
            "error_title": trait.name[:_TITLE],
            "error_message": _cut("This is none of the words in the list. Several words parted by "
            "/ may stand here, and a number where the column has a unit.", _LIST_MESSAGE),
            "input_title": trait.name[:_TITLE],
            "input_message": _cut(trait.question or trait.says, _LIST_MESSAGE),
        })  # fmt: skip


def _cut(text: str, longest: int) -> str:
    return text if len(text) <= longest else text[: longest - 1] + "…"


def _write_words(sheet: Worksheet, traits: Sequence[Trait], looks: _Looks) -> None:
    header = ("column", "word", "numbers", "what it means")
    for index, (name, width) in enumerate(zip(header, (22, 24, 22, 76), strict=True)):
        sheet.set_column(index, index, width, looks.wrapped)
        sheet.write_string(0, index, name, looks.heading)
    row = 1
    for trait in traits:
        says = " ".join(filter(None, (trait.says, trait.by_eye, _also_numbers(trait))))
        for cells in ((trait.name, "", "", says), *_word_rows(trait)):
            for index, cell in enumerate(cells):
                sheet.write_string(row, index, cell, looks.wrapped)
            row += 1
    sheet.freeze_panes(1, 0)
    sheet.set_paper(9)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)


def _word_rows(trait: Trait) -> list[tuple[str, str, str, str]]:
    return [
        (trait.name, word.name, word_with_numbers(trait, word.name), _meaning(word))
        for word in trait.words
    ]


def _meaning(word: Word) -> str:
    also = f"also written {', '.join(word.also)}" if word.also else ""
    return "; ".join(text for text in (word.mark, also) if text)


def _write_paper(book: Workbook, sheet: Worksheet, traits: Sequence[Trait]) -> None:
    """Write the page: a line for the day, a grid for the balls, and below it the words."""
    quick = [trait for trait in traits if trait.quick]
    labels = ["point", "ball"]
    names = [*labels, *(trait.name for trait in quick), "mark", "note"]
    last = len(names) - 1
    title = book.add_format({"bold": True, "font_size": 14})
    head = book.add_format(
        {"bold": True, "text_wrap": True, "border": 1, "valign": "vcenter", "align": "center"}
    )
    box = book.add_format({"border": 1})
    fine = book.add_format({"text_wrap": True, "font_size": 10, "valign": "top"})
    _set_widths(sheet, names)
    sheet.write_string(0, 0, "Balls noted at the court", title)
    sheet.write_string(1, 0, f"Player (nickname) {'_' * 24}   Day {'_' * 14}   "
                             f"Lesson or match {'_' * 24}   Hands: own ____ opponent ____   "
                             "Restricted today: yes / no")  # fmt: skip
    for index, name in enumerate(names):
        sheet.write_string(3, index, name, head)
    sheet.set_row(3, 48)
    for row in range(4, 4 + PAPER_ROWS):
        sheet.set_row(row, 20)
        for index in range(len(names)):
            sheet.write_blank(row, index, None, box)
    row = 5 + PAPER_ROWS
    for trait in quick:
        listed = ", ".join(word.name for word in trait.words) or trait.says
        sheet.merge_range(row, 0, row, last, "", fine)
        sheet.write_string(row, 0, f"{trait.name}: {listed}", fine)
        row += 1
    sheet.merge_range(row, 0, row, last, "", fine)
    sheet.write_string(row, 0, _HOW, fine)
    _set_page(sheet, row, last)


def _set_widths(sheet: Worksheet, names: Sequence[str]) -> None:
    fixed = {0: _NARROW, 1: _NARROW, len(names) - 1: _WIDE}
    rest = (_PAPER_WIDTH - sum(fixed.values())) / (len(names) - len(fixed))
    for index in range(len(names)):
        sheet.set_column(index, index, fixed.get(index, rest))


def _set_page(sheet: Worksheet, row: int, column: int) -> None:
    sheet.set_paper(9)
    sheet.set_landscape()
    sheet.set_margins(left=0.4, right=0.4, top=0.4, bottom=0.4)
    sheet.print_area(0, 0, row, column)
    sheet.fit_to_pages(1, 1)
    sheet.hide_gridlines(2)
