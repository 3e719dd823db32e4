"""Plain data of questions as little text that a page can carry, and back without loss.

Single values are written bare, and of a changed situation only what changed. The signs of the text
mean nothing to HTML.
"""

import bz2
import json
from base64 import b64decode, b85decode, b85encode
from collections.abc import Callable
from typing import Final

from tactics.quiz.record import Json

_MOST_BYTES: Final = 4_000_000
"""Unpacked; a page of sixty questions has some 200,000."""
_MARK = "2:"
"""In front of packed text; text without it is base64, with nothing written briefly."""
_MEANT_BY_HTML, _MEANINGLESS = "&<>", ",./"
_OF_VALUES = frozenset({"situation", "context", "choice", "aim"})
_VALUE = frozenset({"was", "now"})
_OPTIONS = "options"


def text_of(data: Json) -> str:
    """Return the data of papers as text without spaces, quotes or angle brackets."""
    papers = [
        {**paper, "scenarios": [_shortened(each) for each in paper["scenarios"]]}
        for paper in data["papers"]
    ]
    told = json.dumps({**data, "papers": papers}, ensure_ascii=True, separators=(",", ":"))
    signs = b85encode(bz2.compress(told.encode())).decode()
    return _MARK + signs.translate(str.maketrans(_MEANT_BY_HTML, _MEANINGLESS))


def data_of(text: str) -> Json:
    """Return the data that a text was made of.

    Another text raises ValueError, TypeError, KeyError, AttributeError, RecursionError, EOFError
    or OSError.
    """
    signs = "".join(text.split())
    if not signs.startswith(_MARK):
        return _read(b64decode(signs, validate=True))
    signs = signs.removeprefix(_MARK).translate(str.maketrans(_MEANINGLESS, _MEANT_BY_HTML))
    data = _read(b85decode(signs))
    for paper in data["papers"]:
        paper["scenarios"] = [_whole(each) for each in paper["scenarios"]]
    return data


def _read(squeezed: bytes) -> Json:
    opened = bz2.BZ2Decompressor()
    told = opened.decompress(squeezed, _MOST_BYTES)
    if not opened.eof:
        raise EOFError
    data: Json = json.loads(told)
    return data


def _shortened(question: Json) -> Json:
    flip = question["flip"]
    if flip is not None:
        changed = _changes(question["situation"], flip["situation"])
        flip = {**flip, "situation": changed}
    return _with_values(_bare, {**question, "flip": flip})


def _whole(short: Json) -> Json:
    question = _with_values(_dressed, short)
    flip = question["flip"]
    if flip is not None:
        after = {**question["situation"], **flip["situation"]}
        flip["situation"] = {fact: known for fact, known in after.items() if known is not None}
    return question


def _changes(before: Json, after: Json) -> Json:
    """Return the facts that are others after a change; None for one that is none any more."""
    gone = {fact: None for fact in before if fact not in after}
    return {fact: known for fact, known in after.items() if before.get(fact) != known} | gone


def _with_values(written: Callable[[object], object], data: Json) -> Json:
    """Return data in which each value of a fact or part is written in the other way."""
    found: Json = {}
    for name, each in data.items():
        if name in _OF_VALUES:
            found[name] = {fact: written(known) for fact, known in each.items()}
        elif name in _VALUE:
            found[name] = written(each)
        elif isinstance(each, dict):
            found[name] = _with_values(written, each)
        elif name == _OPTIONS:
            found[name] = [_with_values(written, option) for option in each]
        else:
            found[name] = each
    return found


def _bare(known: object) -> object:
    """Return a single word or number as such."""
    match known:
        case {"words": [word]}:
            return word
        case {"ranges": [[float() | int() as low, 0, high, 1]]} if low == high:
            return low
        case _:
            return known


def _dressed(known: object) -> object:
    match known:
        case str():
            return {"words": [known]}
        case float() | int():
            return {"ranges": [[known, 0, known, 1]]}
        case _:
            return known
