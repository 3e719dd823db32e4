"""Other ways to write a number or a bound, and the one that this format knows."""

import re
from collections.abc import Collection

from tactics.model.trait import Trait
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.suggest import near
from tactics.reading.wording import quoted

NUMBER = r"[-+\u2212]?(?:\d+(?:\.\d+)?|\.\d+)"
STARTS_LIKE_NUMBER = re.compile(rf"{NUMBER}")
_WORDS_BEFORE_NUMBER = re.compile(rf"(?P<words>[^\W\d_]+ ?[^\W\d_]+) (?P<rest>{NUMBER}.*)")
_OTHER_BOUNDS = (
    (r"(?:>=|≥|=>|min(?:imum)?\.?|from|not less than|no less than)\s*(?P<a>.+)", "at least {a}"),
    (r"(?P<a>[-\d.]+\s*[^\d+]*?)\s*\+", "at least {a}"),
    (r"(?P<a>.*\d.*?)\s+(?:or more|and more|and over|or over|or higher|and up)", "at least {a}"),
    (r"(?:>|over|above|greater than|beyond|bigger than|higher than)\s*(?P<a>.+)", "more than {a}"),
    (r"(?:<=|≤|=<|max(?:imum)?\.?|up to|not more than|no more than)\s*(?P<a>.+)", "at most {a}"),
    (r"(?P<a>.*\d.*?)\s+(?:or less|and less|or under|or lower)", "at most {a}"),
    (r"(?:<|under|below|fewer than|lower than|smaller than)\s*(?P<a>.+)", "less than {a}"),
    (r"(?:between|from)\s+(?P<a>.+?)\s+(?:and|to)\s+(?P<b>.+)", "{a} to {b}"),
    (r"(?P<a>[\d.]+[^\d-]*?)\s*(?:-|\u2013|\u2014|\.\.+)\s*(?P<b>\d.*)", "{a} to {b}"),
    (r"(?:about|around|ca\.?|circa|~|=)\s*(?P<a>.+)", "{a}"),
)  # fmt: skip
_COMPILED = tuple((re.compile(pattern, re.I), wanted) for pattern, wanted in _OTHER_BOUNDS)
_IN_DIGITS = {
    "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "ten": "10", "half a": "0.5", "half": "0.5", "\u00bd": "0.5",
    "\u00bc": "0.25", "\u00be": "0.75", "one and a half": "1.5",
}  # fmt: skip
_IN_WORDS = re.compile(
    rf"(?P<words>{'|'.join(sorted(_IN_DIGITS, key=len, reverse=True))})(?P<rest>\s.+|$)", re.I
)


def other_bound(written: str) -> Complaint | None:
    """Return what to say about `>= 3 m` or `2-3 m`, or None for other texts."""
    for pattern, wanted in _COMPILED:
        found = pattern.fullmatch(written)
        if found and STARTS_LIKE_NUMBER.match(found["a"]):
            named = {name: words.rstrip(", ") for name, words in found.groupdict().items()}
            return _written_so(written, wanted.format(**named))
    return None


def misspelt_bound(written: str, trait: Trait, bounds: Collection[str]) -> Complaint | None:
    """Return what to say about `at leest 2 m` or `one metre`, or None for other texts."""
    if trait.word_named(written):
        return None
    found = _WORDS_BEFORE_NUMBER.fullmatch(written)
    spelt = near(found["words"], bounds) if found else ()
    if found is not None and len(spelt) == 1:
        return _written_so(written, f"{spelt[0]} {found['rest']}")
    digits = in_digits(written)
    return _written_so(written, digits) if digits else None


def in_digits(written: str) -> str:
    """Return `1 metre` for `one metre`, or nothing where no number begins the text in words."""
    found = _IN_WORDS.fullmatch(written.strip())
    return f"{_IN_DIGITS[found['words'].lower()]}{found['rest']}" if found else ""


def _written_so(written: str, wanted: str) -> Complaint:
    return Complaint(
        code=Code.COMPARISON,
        sentence=f"{quoted(written)} is not one of the ways to write a number",
        hint=f"write {wanted}",
        replacement=wanted,
    )
