"""Shares as a coach writes them: `2 in 3`, `two in three`, `2/3`, `66 %`, `half`."""

import re
from math import gcd

from tactics.model.mix_rule import Share
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.wording import quoted

NUMBER_WORDS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
)  # fmt: skip
_NUMBER = rf"\d{{1,9}}|{'|'.join(NUMBER_WORDS)}"
_SO_MANY_IN = re.compile(
    rf"(?P<count>{_NUMBER})\s*(?:/|\bin\b|\b(?:out )?of\b)\s*(?P<of>{_NUMBER})"
)
_PER_CENT = re.compile(r"(?P<number>\d{1,3}(?:\.\d)?)\s*(?:%|per ?cent)")
_TENTHS = 10
_HINT = "write it as 2 in 3, as 2/3 or as 66 %"


def read_share(text: str) -> Share | Complaint:
    """Return the share that a text stands for, between nothing and all."""
    written = " ".join(text.split()).casefold()
    if written in ("half", "a half", "the half"):
        return Share(count=1, of=2)
    found = _SO_MANY_IN.fullmatch(written)
    if found:
        return _checked(Share(count=_number(found["count"]), of=_number(found["of"])), text)
    found = _PER_CENT.fullmatch(written)
    if found:
        return _checked(_per_cent(found["number"]), text)
    return Complaint(code=Code.SHARE, sentence=f"{quoted(text)} is not a share", hint=_HINT)


def _number(written: str) -> int:
    return int(written) if written.isdecimal() else NUMBER_WORDS.index(written) + 1


def _per_cent(written: str) -> Share:
    """Return a share in hundredths, or in thousandths where it has a decimal."""
    if "." not in written:
        return Share(count=int(written), of=100)
    count = round(float(written) * _TENTHS)
    shrink = gcd(count, 100 * _TENTHS)
    return Share(count=count // shrink, of=100 * _TENTHS // shrink)


def _checked(share: Share, text: str) -> Share | Complaint:
    if share.of > 0 and share.count <= share.of:
        return share
    return Complaint(
        code=Code.SHARE,
        sentence=f"{quoted(text)} is more than all of the balls",
        hint=_HINT,
    )
