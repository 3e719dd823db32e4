"""Bytes of a chart -> text, whatever program saved them."""

import re
from codecs import BOM_UTF8, BOM_UTF16_BE, BOM_UTF16_LE

from tactics.problem import Problem, Severity
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_places import Places
from tactics.source import Source

_STRAY = re.compile("[\udc80-\udcff]")
_LOST = "\ufffd"


def decode_chart(name: str, data: bytes) -> tuple[Source, tuple[Problem, ...]]:
    """Return the text of a chart, and a warning where its letters had to be guessed at.

    UTF-8 and UTF-16 are known by their marks; bytes that are not UTF-8 are taken one by one as
    Western European (Windows), the usual cause being one cell pasted from an older file.
    """
    if data.startswith((BOM_UTF16_LE, BOM_UTF16_BE)):
        return _decode_marked(name, data)
    text = data.removeprefix(BOM_UTF8).decode("utf-8", "surrogateescape")
    if not _STRAY.search(text):
        return Source(name=name, text=text), ()
    source = Source(name=name, text=_STRAY.sub(_western, text))
    return source, (_guessed(source, text),)


def _decode_marked(name: str, data: bytes) -> tuple[Source, tuple[Problem, ...]]:
    source = Source(name=name, text=data.decode("utf-16", "replace"))
    if _LOST not in source.text:
        return source, ()
    problem = Problem(
        code=ChartCode.CHART_ENCODING,
        span=Places(source).at(source.text.index(_LOST)),
        sentence="a letter is damaged here: the file starts as UTF-16 but does not go on as such",
        hint='save the chart as "CSV UTF-8"',
        severity=Severity.WARNING,
    )
    return source, (problem,)


def _western(stray: re.Match[str]) -> str:
    return bytes([ord(stray[0]) - 0xDC00]).decode("cp1252", "replace")


def _guessed(source: Source, escaped: str) -> Problem:
    count = len(_STRAY.findall(escaped))
    is_mixed = any(letter > "\x7f" for letter in _STRAY.sub("", escaped))
    letters = "1 letter, this one, was" if count == 1 else f"{count} letters, this the first, were"
    start = "the file mixes two encodings" if is_mixed else "the file is not UTF-8"
    first = next(_STRAY.finditer(escaped))
    return Problem(
        code=ChartCode.CHART_ENCODING,
        span=Places(source).at(first.start()),
        sentence=f"{start}: {letters} read as Western European (Windows)",
        hint='look at names and notes with accents, then save the chart as "CSV UTF-8"',
        severity=Severity.WARNING if is_mixed else Severity.INFORMATION,
    )
