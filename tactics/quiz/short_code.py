"""The result of a paper as a short code that survives being typed, read out or sent in a chat.

Signs without I, L, O and U, in groups of six: five that tell something and one that checks the
group and its place, so that no single slip passes; the last four check the whole. It is written by
the page in the player's browser (`report/html/short_code.js` says the same) and read here.
"""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from operator import xor
from typing import Final
from zlib import crc32

SIGNS: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
VERSION: Final = 1
MOST_MARKS, MOST_NICKNAME_BYTES, MOST_DAYS = 31, 31, 1023
TOOK_UP_TO_S: Final = (10, 30, 60)
"""Upper ends of the first three of four classes of time; kept, never graded."""

_TOLD, _GROUP, _CHECK, _PAGE = 5, 6, 4, 6
_OPTIONS, _TIMES = 3, len(TOOK_UP_TO_S) + 1
_LOOKS_LIKE = str.maketrans("OIL", "011")
_BETWEEN = re.compile(r"[\s\-\u2010-\u2015\u2212.,:;|_*`'\"<>()\[\]\u200b-\u200f\u2060\ufeff]+")
"""What people and chat programs put between the groups."""

# multiplication in the field of 32 elements (x^5 + x^2 + 1): differences never cancel out
_POWERS = [1]
while len(_POWERS) < 31:
    doubled = _POWERS[-1] << 1
    _POWERS.append(doubled ^ 0b100101 if doubled & 32 else doubled)
_LOGS = {power: place for place, power in enumerate(_POWERS)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One answer: number of the option (None: left open), sure or not, class of time 0 to 3."""

    picked: int | None
    is_sure: bool = False
    took: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What a code says: page (30 bits), number of the paper, days since the page was made."""

    page: int
    paper: int
    day: int
    marks: tuple[Mark, ...]
    nickname: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """Why a code cannot be read. groups: numbers of those that do not fit, from 1."""

    sentence: str
    hint: str
    groups: tuple[int, ...] = ()


def page_words(page: int) -> str:
    """Return the number of a page as it is printed on it, six signs."""
    return _written(_symbols_of(page, _PAGE))


def write_code(result: Result) -> str:
    """Return the code of a result, groups parted by hyphens."""
    told = [
        VERSION,
        *_symbols_of(result.page, _PAGE),
        result.paper,
        *_symbols_of(min(max(result.day, 0), MOST_DAYS), 2),
        len(result.marks),
        *(_symbol_of(mark) for mark in result.marks),
        *_nickname_symbols(result.nickname),
    ]
    told += [0] * (-(len(told) + _CHECK) % _TOLD)
    told += _whole_check(told)
    groups = [told[start : start + _TOLD] for start in range(0, len(told), _TOLD)]
    return "-".join(
        _written([*group, _group_check(number, group)])
        for number, group in enumerate(groups, start=1)
    )


def read_code(text: str) -> Result | Slip:
    """Return what a code says, or which part of it has a slip."""
    signs = _BETWEEN.sub("", unicodedata.normalize("NFKC", text)).upper().translate(_LOOKS_LIKE)
    if not signs:
        return Slip(sentence="there is no code here", hint="paste the code as it was sent")
    for place, sign in enumerate(signs):
        if sign not in SIGNS:
            return _strange(sign, place // _GROUP + 1)
    symbols = [SIGNS.index(sign) for sign in signs]
    groups = [symbols[start : start + _GROUP] for start in range(0, len(symbols), _GROUP)]
    bad = tuple(n for n, group in enumerate(groups, start=1) if not _fits(n, group))
    if len(signs) % _GROUP:
        return _odd_length(len(signs), bad[0] if bad else len(groups))
    if bad:
        return _damaged(bad, signs)
    told = [symbol for group in groups for symbol in group[:_TOLD]]
    if told[-_CHECK:] != _whole_check(told[:-_CHECK]):
        return _not_whole()
    return _told(told[:-_CHECK])


def _told(told: Sequence[int]) -> Result | Slip:
    if told[0] != VERSION:
        return Slip(
            sentence="the code was made by another version of the page",
            hint="install the newest version of tactics, then try again",
        )
    head = 1 + _PAGE + 1 + 2
    count = told[head] if len(told) > head else 0
    marks = told[head + 1 : head + 1 + count]
    rest = told[head + 1 + count :]
    length = rest[0] if rest else 0
    nickname = _nickname_of(rest[1:], length)
    if len(marks) < count or nickname is None or any(m > _OPTIONS * 2 * _TIMES for m in marks):
        return _not_whole()
    return Result(
        page=_number_of(told[1 : 1 + _PAGE]),
        paper=told[1 + _PAGE],
        day=_number_of(told[2 + _PAGE : head]),
        marks=tuple(_mark_of(symbol) for symbol in marks),
        nickname=nickname,
    )


def _symbol_of(mark: Mark) -> int:
    if mark.picked is None:
        return 0
    return 1 + (mark.picked * 2 + mark.is_sure) * _TIMES + mark.took


def _mark_of(symbol: int) -> Mark:
    if symbol == 0:
        return Mark(picked=None)
    both, took = divmod(symbol - 1, _TIMES)
    picked, is_sure = divmod(both, 2)
    return Mark(picked=picked, is_sure=bool(is_sure), took=took)


def _symbols_of(number: int, count: int) -> list[int]:
    return [number >> 5 * place & 31 for place in reversed(range(count))]


def _number_of(symbols: Sequence[int]) -> int:
    return reduce(lambda number, symbol: number << 5 | symbol, symbols, 0)


def _nickname_symbols(nickname: str) -> list[int]:
    """Return the length in bytes and the bytes, five bits a sign; cut between characters."""
    data = nickname.encode()
    while len(data) > MOST_NICKNAME_BYTES:
        nickname = nickname[:-1]
        data = nickname.encode()
    count = -(-len(data) * 8 // 5)
    number = int.from_bytes(data) << (count * 5 - len(data) * 8)
    return [len(data), *_symbols_of(number, count)]


def _nickname_of(symbols: Sequence[int], length: int) -> str | None:
    count = -(-length * 8 // 5)
    if len(symbols) < count:
        return None
    number = _number_of(symbols[:count]) >> (count * 5 - length * 8)
    try:
        return number.to_bytes(length).decode()
    except UnicodeDecodeError:
        return None


def _whole_check(told: Sequence[int]) -> list[int]:
    return _symbols_of(crc32(_written(told).encode()), _CHECK)


def _group_check(number: int, told: Sequence[int]) -> int:
    """Return the sixth sign of a group: every slip in one sign, and every swap, changes it."""
    products = (
        _POWERS[(_LOGS[symbol] + place) % 31] if symbol else 0
        for place, symbol in enumerate(told, start=1)
    )
    return reduce(xor, products, number & 31)


def _fits(number: int, group: Sequence[int]) -> bool:
    return len(group) == _GROUP and group[-1] == _group_check(number, group[:-1])


def _written(symbols: Sequence[int]) -> str:
    return "".join(SIGNS[symbol] for symbol in symbols)


def _strange(sign: str, group: int) -> Slip:
    return Slip(
        sentence=f'"{sign}" does not occur in a code; it stands in group {group}',
        hint="a code has figures and capital letters only, without I, L, O and U",
        groups=(group,),
    )


def _odd_length(count: int, group: int) -> Slip:
    return Slip(
        sentence=f"the code has {count} signs, and every group has {_GROUP}: one is missing or too "
        f"many, in group {group} or just before it",
        hint="compare that group with the code on the phone",
        groups=(group,),
    )


def _damaged(bad: tuple[int, ...], signs: str) -> Slip:
    named = ", ".join(f'{n} ("{signs[(n - 1) * _GROUP : n * _GROUP]}")' for n in bad)
    does = "group {} does" if len(bad) == 1 else "groups {} do"
    return Slip(
        sentence=f"{does.format(named)} not fit: a sign is wrong there, or the groups are not in "
        "their order",
        hint="compare it with the code on the phone, or send the file of the result instead",
        groups=bad,
    )


def _not_whole() -> Slip:
    return Slip(
        sentence="each group fits, but they do not make one code together",
        hint="check that no group is missing, and that it is one code and not parts of two",
    )
