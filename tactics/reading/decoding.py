"""Bytes of a file -> text, whatever an editor or a spreadsheet wrapped around it."""

import codecs

from tactics.problem import Problem, Reading
from tactics.reading.codes import Code
from tactics.source import Source, Span

RULE_FILE_LIMIT = 1_000_000
"""Bytes; a rule file of a hundred rules has about 150,000."""

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),  # before UTF-16: its mark starts with the same two bytes
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_ARCHIVE = b"PK\x03\x04"
_SAMPLE = 400


def decode(name: str, data: bytes, limit: int = RULE_FILE_LIMIT) -> Reading[Source]:
    """Return the text of a file in UTF-8 or UTF-16, or the problem that keeps it from being read.

    limit: bytes above which the file is not even looked at.
    """
    start = Span(file=name, line=1)
    if len(data) > limit:
        return Reading(value=None, problems=(_too_large(start, limit),))
    encoding, body = _encoding_of(data)
    try:
        text = body.decode(encoding)
    except UnicodeDecodeError as error:
        return Reading(value=None, problems=(_unreadable(start, body, error),))
    if "\0" in text:
        return Reading(value=None, problems=(_not_text(start, data),))
    return Reading(value=Source(name=name, text=text))


def _encoding_of(data: bytes) -> tuple[str, bytes]:
    """Return the encoding and the bytes behind its mark."""
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return encoding, data[len(mark) :]
    sample = data[:_SAMPLE]
    if len(data) % 2 == 0 and 0 in sample:
        # plain Latin text in UTF-16 without a mark: every other byte is zero, the rest never
        if not any(sample[1::2]) and all(sample[::2]):
            return "utf-16-le", data
        if not any(sample[::2]) and all(sample[1::2]):
            return "utf-16-be", data
    return "utf-8", data


def _too_large(start: Span, limit: int) -> Problem:
    return Problem(
        code=Code.FILE_TOO_LARGE,
        span=start,
        sentence=f"the file is larger than {limit / 1e6:.1f} MB, the most that is read as one file",
        hint="check that this is the file you meant; a large rule set can be split with "
        '"builds on"',
    )


def _unreadable(start: Span, body: bytes, error: UnicodeDecodeError) -> Problem:
    if error.encoding != "utf-8" or _looks_binary(body):
        return _not_text(start, body)
    before = body[: error.start].decode("utf-8") + "?"
    lines = before.splitlines()
    place = Span(file=start.file, line=len(lines), column=len(lines[-1]))
    return Problem(
        code=Code.NOT_UTF_8,
        span=place,
        sentence="the file is not saved as UTF-8, so this letter cannot be read",
        hint='in your editor choose "Save as" and the encoding UTF-8, then try again',
    )


def _looks_binary(body: bytes) -> bool:
    sample = body[:_SAMPLE]
    return 0 in sample or sum(byte < 32 and byte not in b"\t\n\r\f" for byte in sample) > 2


def _not_text(start: Span, data: bytes) -> Problem:
    hint = "open it in a text editor: a rule file can be read there word by word"
    if data.startswith(_ARCHIVE):
        hint = "it looks like a spreadsheet, a document or an archive: save its content as text"
    return Problem(
        code=Code.NOT_TEXT, span=start, sentence="the file does not hold plain text", hint=hint
    )
