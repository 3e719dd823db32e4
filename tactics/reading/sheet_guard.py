"""Looks into a spreadsheet file before a library does: what it is, and whether it fits in memory.

A file of a few kilobytes can ask for a table of billions of cells; whoever opens it has to know.
"""

import io
import re
import zipfile
import zlib
from dataclasses import dataclass, field

from tactics.problem import Problem
from tactics.reading.chart_codes import ChartCode
from tactics.reading.sheet_codes import SheetCode
from tactics.source import Span

PACKED = b"PK\x03\x04"
COMPOUND = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
"""First bytes of a packed file (xlsx, ods), and of an older office file or a locked xlsx."""

MOST_BYTES = 400_000_000
MOST_ROWS = 300_000
MOST_CELLS = 12_000_000
MOST_TEXT = 2_000_000_000
"""Unpacked bytes, the table one sheet may stand for (100,000 balls have 7,000,000 cells), and the
bytes of its texts when one that is kept once stands in many cells."""

_SHARED = "xl/sharedStrings.xml"
_LOCKED = "EncryptedPackage".encode("utf-16-le")
_SHEET = re.compile(rb"<sheet\s[^>]*?r:id=[\"']([^\"']+)")
_TARGET = re.compile(rb"<Relationship\s[^>]*>")
_ATTRIBUTE = re.compile(rb"(Id|Target)=[\"']([^\"']+)")
_CELL = re.compile(rb"<c\s[^>]*?\br=[\"']([A-Za-z]{1,3})([0-9]{1,9})[\"'][^>]*?(/?)>")
_FAR = re.compile(
    rb"\br=[\"'](?:[A-Za-z]{3}|[D-Zd-z][A-Za-z])[0-9]"
    rb"|\br=[\"'][A-Za-z]{0,2}(?:1[2-9][0-9]{4}|[2-9][0-9]{5}|[0-9]{7})"
)
"""A place beyond column CZ or row 119,999; nearer ones need no counting."""

_FAULT = re.compile(rb"<c\s(?=[^>]*\bt=[\"']e[\"'])[^>]*?\br=[\"']([A-Za-z]{1,3})([0-9]{1,7})")
_INDEX = re.compile(rb"<v>([0-9]{1,8})</v>")
_TAG = re.compile(rb"<table:(table-row|table-cell|covered-table-cell|table)(?=[\s/>])([^>]*?)(/?)>")
_TIMES = re.compile(rb"-repeated=[\"']([0-9]{1,9})")


@dataclass(frozen=True, slots=True)
class Opened:
    """A file that may be read. faults: number of the sheet -> (row, column) of formula errors."""

    faults: dict[int, frozenset[tuple[int, int]]] = field(default_factory=dict)


def look_into(name: str, data: bytes) -> Opened | Problem:
    """Return what to know before reading a spreadsheet, or why it is not read."""
    if data.startswith(COMPOUND):
        return _locked(name) if _LOCKED in data else _other(name)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return _archive(name, archive)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, OSError, ValueError,
            RuntimeError):  # fmt: skip
        return damaged(name)


def damaged(name: str) -> Problem:
    """Return that a file cannot be unpacked or makes no sense inside."""
    return _problem(
        SheetCode.DAMAGED_SPREADSHEET, name,
        "the spreadsheet is damaged: it was not saved or copied to its end",
        "open it in your spreadsheet program, which may mend it, and save it again; or take an "
        "earlier copy",
    )  # fmt: skip


def locked(name: str) -> Problem:
    """Return that a file asks for a password."""
    return _locked(name)


def _archive(name: str, archive: zipfile.ZipFile) -> Opened | Problem:
    infos = {info.filename: info for info in archive.infolist()}
    if any(info.flag_bits & 1 for info in infos.values()):
        return _locked(name)
    if sum(info.file_size for info in infos.values()) > MOST_BYTES:
        return _large(name, f"more than {MOST_BYTES // 1_000_000} MB when unpacked")
    if "xl/workbook.xml" in infos:
        return _workbook(name, archive, infos)
    if "content.xml" in infos and b"spreadsheet" in _member(archive, infos, "mimetype"):
        return _document(name, archive, infos)
    if "xl/workbook.bin" in infos or any(each.endswith(".iwa") for each in infos):
        return _other(name)
    return _problem(
        ChartCode.NOT_A_CHART, name,
        "this is a packed file and no spreadsheet, and not a text with one row a ball",
        "unpack it, or save the chart as CSV (UTF-8), xlsx or ods",
    )  # fmt: skip


def _member(archive: zipfile.ZipFile, infos: dict[str, zipfile.ZipInfo], wanted: str) -> bytes:
    return archive.read(infos[wanted]) if wanted in infos else b""


def _workbook(
    name: str, archive: zipfile.ZipFile, infos: dict[str, zipfile.ZipInfo]
) -> Opened | Problem:
    order = _SHEET.findall(_member(archive, infos, "xl/workbook.xml"))
    targets = _targets(_member(archive, infos, "xl/_rels/workbook.xml.rels"))
    paths = {targets.get(each, ""): number for number, each in enumerate(order)}
    lengths = [len(each) for each in _member(archive, infos, _SHARED).split(b"<si")[1:]]
    faults = {}
    for path in infos:
        if not path.startswith("xl/") or not path.endswith(".xml"):
            continue
        text = archive.read(infos[path])  # also says where a file is shorter than it claims
        if "sheets/" not in path:
            continue
        rows, columns = _extent(text) if _FAR.search(text) else (0, 0)
        if rows > MOST_ROWS or rows * columns > MOST_CELLS:
            return _large(name, f"{rows:,} rows and {columns:,} columns")
        if _shared_text(text, lengths) > MOST_TEXT:
            return _large(name, "several gigabytes of text")
        found = _faults(text)
        if path in paths and found:
            faults[paths[path]] = found
    return Opened(faults)


def _shared_text(text: bytes, lengths: list[int]) -> int:
    """Return how many bytes of text the cells of a sheet hold, at most (or nearly so)."""
    most = max(lengths, default=0) * text.count(b"<v>")
    if most <= MOST_TEXT:
        return most
    indexes = map(int, _INDEX.findall(text))
    return sum(lengths[index] for index in indexes if index < len(lengths))


def _faults(text: bytes) -> frozenset[tuple[int, int]]:
    """Return row and column of the cells that hold the error of a formula."""
    if b't="e"' not in text and b"t='e'" not in text:
        return frozenset()
    return frozenset((int(row), _column(letters)) for letters, row in _FAULT.findall(text))


def _targets(text: bytes) -> dict[bytes, str]:
    found = {}
    for tag in _TARGET.findall(text):
        pairs = dict(_ATTRIBUTE.findall(tag))
        target = pairs.get(b"Target", b"").decode("utf-8", "replace").lstrip("/")
        found[pairs.get(b"Id", b"")] = target if target.startswith("xl/") else f"xl/{target}"
    return found


def _extent(text: bytes) -> tuple[int, int]:
    """Return the last row and the last column that hold anything."""
    rows, letters = 0, set()
    for found in _CELL.finditer(text):
        if not found[3]:
            rows = max(rows, int(found[2]))
            letters.add(found[1])
    return rows, max(map(_column, letters), default=0)


def _column(letters: bytes) -> int:
    number = 0
    for letter in letters.upper():
        number = number * 26 + letter - 64
    return number


def _document(
    name: str, archive: zipfile.ZipFile, infos: dict[str, zipfile.ZipInfo]
) -> Opened | Problem:
    if b"encryption-data" in _member(archive, infos, "META-INF/manifest.xml"):
        return _locked(name)
    row = column = width = rows = repeat = last = count = at = size = 0
    for found in _TAG.finditer(_member(archive, infos, "content.xml")):
        size += (found.start() - at) * max(1, count * repeat)
        at = found.start()
        kind, attributes, is_closed = found.groups()
        times = _TIMES.search(attributes)
        count = int(times[1]) if times else 1
        if kind in (b"table-cell", b"covered-table-cell"):
            column += count
            last = last if is_closed and b"value" not in attributes else column
            if last:
                rows, width = max(rows, row + repeat), max(width, last)
            if size > MOST_TEXT:
                return _large(name, "several gigabytes of text")
            if rows > MOST_ROWS or rows * width > MOST_CELLS:
                return _large(name, f"{rows:,} rows and {width:,} columns")
        elif kind == b"table-row":
            row, column, last, repeat, count = row + repeat, 0, 0, count, 0
        else:
            row = column = width = rows = repeat = last = 0
    return Opened()


def _locked(name: str) -> Problem:
    return _problem(
        SheetCode.LOCKED_SPREADSHEET, name,
        "the spreadsheet is locked with a password, and this program asks for none",
        "save a copy without the password, and keep that copy as safe as the first",
    )  # fmt: skip


def _other(name: str) -> Problem:
    return _problem(
        SheetCode.OTHER_SPREADSHEET, name,
        "this looks like a spreadsheet in a format that is not read",
        "save it as xlsx, as ods, or as CSV (UTF-8)",
    )  # fmt: skip


def _large(name: str, what: str) -> Problem:
    return _problem(
        SheetCode.LARGE_SPREADSHEET, name,
        f"the spreadsheet stands for {what}, which is more than is opened",
        "often one cell far below or far to the right holds something, or a row was copied down "
        "to the end: delete what is not part of the chart and save it again",
    )  # fmt: skip


def _problem(code: str, name: str, sentence: str, hint: str) -> Problem:
    return Problem(code=code, span=Span(file=name, line=1), sentence=sentence, hint=hint)
