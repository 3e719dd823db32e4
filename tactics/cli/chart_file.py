"""A growing chart on disk: every ball is flushed and synced before the next question."""

import os
import sys
from codecs import BOM_UTF8, BOM_UTF16_BE, BOM_UTF16_LE
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from errno import EBUSY
from itertools import count
from pathlib import Path

from tactics.charting.entry import Append, Write
from tactics.charting.journal import (
    Sheet,
    adopted,
    last_line,
    missing_columns,
    new_sheet,
    overlong_rows,
    text_of,
    uncut_rows,
    written,
)
from tactics.cli import files, messages
from tactics.model.ball import Ball
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem
from tactics.reading.chart_bytes import decode_chart
from tactics.reading.charts import is_spreadsheet, read_rows, text_table
from tactics.reading.sheet_codes import SheetCode
from tactics.report.layout import counted


@dataclass(slots=True, kw_only=True)
class ChartFile:
    """The file that a sitting writes; balls: those that stood in it when it was opened."""

    path: Path
    sheet: Sheet
    words: Vocabulary
    balls: tuple[Ball, ...] = ()
    left_as: tuple[int, int, int] = field(init=False)

    def __post_init__(self) -> None:
        self.left_as = _mark_of(self.path)

    def save(self, write: Write) -> None:
        """Put a write on disk; OSError where it is not taken, and then the file is as it was."""
        self._check()
        sheet = written(self.sheet, write, self.words)
        if isinstance(write, Append):
            _append(self.path, last_line(sheet).encode("utf-8"))
        elif text_of(sheet) != text_of(self.sheet):
            _rewrite(self.path, sheet)
        self.sheet = sheet
        self.left_as = _mark_of(self.path)

    def _check(self) -> None:
        """Raise OSError where the file is not the one that was left: nothing may get lost."""
        if _mark_of(self.path) == self.left_as:
            return
        if self.path.read_bytes() != text_of(self.sheet).encode("utf-8"):
            raise OSError(EBUSY, "another program has changed the file", str(self.path))


def _mark_of(path: Path) -> tuple[int, int, int]:
    """Return what tells a file from the same one after another program has saved it."""
    found = path.stat()
    return found.st_ino, found.st_size, found.st_mtime_ns


def _append(path: Path, line: bytes) -> None:
    with path.open("ab", buffering=0) as file:
        size = file.tell()
        try:
            left = line
            while left:
                left = left[file.write(left) :]
            os.fsync(file.fileno())
        except OSError:
            file.truncate(size)  # half a line would look like a ball
            raise


def _rewrite(path: Path, sheet: Sheet) -> None:
    whole = path.resolve()  # where a link leads to the chart, the link stays
    files.write_atomic(whole, text_of(sheet).encode("utf-8"))
    if hasattr(os, "O_DIRECTORY"):
        folder = os.open(whole.parent, os.O_DIRECTORY)
        try:
            os.fsync(folder)  # the new name of the file is on disk as well
        finally:
            os.close(folder)


def open_chart(path: Path, words: Vocabulary) -> ChartFile | None:
    """Return the chart to go on with, a new one where there is none; None with the reason said."""
    data = files.read_bytes(path) if path.exists() else b""
    if not data.strip():
        _rewrite(path, new_sheet(words))
        return ChartFile(path=path, sheet=new_sheet(words), words=words)
    if is_spreadsheet(data):
        _refuse(path, "is a spreadsheet; charting at the court writes csv: name another")
        return None
    source, guesses = decode_chart(files.shown(path), data)
    table = text_table(source, words)
    read = read_rows(table, words)
    if read.value is None:
        messages.show_problems((*guesses, *read.problems), [source])
        _refuse(path, "cannot be read as a chart, so nothing is written to it")
        return None
    sheet = adopted(table, read.value, source.text, words)
    rows = [row for row in uncut_rows(table) if row.text != sheet.cut]
    if rows:
        _refuse(
            path, f"has a row that cannot be cut into cells (row {rows[0].number}); mend it first"
        )
        return None
    if sheet.cut:
        return _without_last_line(path, data, sheet.cut, words)
    more = missing_columns(table, words)
    if more and overlong_rows(table):
        _refuse(path, f"has more cells in row {overlong_rows(table)[0].number} than in its header; "
                "mend it first")  # fmt: skip
        return None
    if read.value.left_out:
        print(f"{counted(len(read.value.left_out), 'row')} could not be read and stay as they are "
              "(tactics audit says why)", file=sys.stderr)  # fmt: skip
    if more:
        _show_own_headings(read.problems)
    is_utf8 = not guesses and not data.startswith((BOM_UTF16_LE, BOM_UTF16_BE))
    if data.startswith(BOM_UTF8) or not is_utf8:
        sheet = replace(sheet, before=f"\ufeff{sheet.before}")
    _make_ready(path, data, sheet, _changes(len(more), is_utf8))
    return ChartFile(path=path, sheet=sheet, words=words, balls=sheet.balls)


def _show_own_headings(problems: Iterable[Problem]) -> None:
    """Say which headings probably mean what charting writes under another name."""
    for each in problems:
        if each.code == SheetCode.COLUMNS_PROPOSED:
            print(f"{each.sentence}. Charting writes under its own headings; where these mean the "
                  "same, stop here and rename them in the first line of the file before:",
                  file=sys.stderr)  # fmt: skip
            print("\n".join(each.paste[1:]), file=sys.stderr)


def _changes(columns: int, is_utf8: bool) -> str:
    """Return what becomes of a file before it goes on, "" where everything stays as it is."""
    said = [
        f"{counted(columns, 'column')} for what is charted here "
        f"{'is' if columns == 1 else 'are'} added" if columns else "",
        "" if is_utf8 else "the letters are saved as UTF-8",
    ]  # fmt: skip
    return " and ".join(filter(None, said))


def _without_last_line(
    path: Path, data: bytes, cut_text: str, words: Vocabulary
) -> ChartFile | None:
    """Return the chart without a last line that broke off; nobody was told that it was safe."""
    cut = cut_text.encode("utf-8")
    if not data.endswith(cut):  # another encoding, where a line cannot be taken out byte by byte
        _refuse(path, "breaks off in its last line; mend that first")
        return None
    kept = _keep_beside(path, data)
    files.write_atomic(path.resolve(), data.removesuffix(cut))
    print(f"The last line broke off and is taken out; the file as it was: {files.shown(kept)}",
          file=sys.stderr)  # fmt: skip
    return open_chart(path, words)


def _make_ready(path: Path, data: bytes, sheet: Sheet, changes: str) -> None:
    """See to it that lines can be added: what stands there stays, or a copy of it is kept."""
    whole = text_of(sheet).encode("utf-8")
    if not changes and whole.startswith(data):
        if whole != data:  # the last line has no end yet
            _append(path, whole.removeprefix(data))
        return
    kept = _keep_beside(path, data)
    _rewrite(path, sheet)
    print(f"{changes[:1].upper()}{changes[1:]}; every cell stays as it was. The file before: "
          f"{files.shown(kept)}", file=sys.stderr)  # fmt: skip


def _keep_beside(path: Path, data: bytes) -> Path:
    """Return the new file beside a chart that holds it as it was."""
    names = (path.with_name(f"{path.stem}.before-{number}{path.suffix}") for number in count(1))
    kept = next(name for name in names if not name.exists())
    files.write_atomic(kept, data)
    return kept


def _refuse(path: Path, why: str) -> None:
    print(f"tactics: {files.shown(path)} {why}", file=sys.stderr)


@contextmanager
def alone_with(path: Path) -> Iterator[bool]:
    """Yield whether nobody else is charting into this file; ended programs hold nothing back."""
    try:
        import fcntl
    except ImportError:  # no such locks on this system: whoever charts twice has to see to it
        yield True
        return
    lock = path.with_name(f".{path.name}.charting")
    try:
        held = lock.open("w")
    except OSError as error:  # the chart is what the coach knows about
        raise type(error)(error.errno, error.strerror, str(path)) from error
    with held:
        try:
            fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            yield False
            return
        yield True
        lock.unlink(missing_ok=True)
