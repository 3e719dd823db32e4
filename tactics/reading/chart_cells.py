"""The text of one cell -> what is known, or what is wrong with it."""

import re
from dataclasses import dataclass

from tactics.model.known import (
    NOT_APPLICABLE,
    NOT_SEEN,
    Allowed,
    Known,
    OneOf,
    ScatterWithin,
    Within,
)
from tactics.model.trait import Kind, Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_codes import ChartCode
from tactics.reading.chart_columns import Column
from tactics.reading.chart_dates import read_date
from tactics.reading.chart_writing import unguard_text
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.suggest import can_be
from tactics.reading.values import known, union
from tactics.reading.wording import quoted

_NOT_SEEN = frozenset({"-", "\N{EN DASH}", "\N{EM DASH}"})
_NOT_APPLICABLE = frozenset({"n.a.", "na"})
_FORMULA = re.compile(r"[=@]|[+-](?!\s*[.,]?[0-9])|#(N/A|REF|NAME|VALUE|DIV|NUM|NULL)")
_OR = re.compile(r"\s+or\s+(?!higher|lower)|\s*/\s*(?!h\b|s\b)", re.IGNORECASE)
_BARE_NUMBER = re.compile(r".*[0-9.]", re.DOTALL)
_ENDS_IN_UNIT = re.compile(r".*[0-9.]\s*([^0-9.\s][^0-9]*)", re.DOTALL)
_LONGEST = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class BadCell:
    """What is wrong with a cell of a column; its row is not known here."""

    column: Column
    code: str
    sentence: str
    hint: str = ""
    replacement: str = ""

    @property
    def loses_ball(self) -> bool:
        """Say whether the ball cannot be judged or counted without this cell."""
        return self.column.trait.role is not Role.LABEL


def read_known(column: Column, text: str, words: Vocabulary) -> Known | BadCell | None:
    """Return what a cell says about a fact or a part; None where it says nothing.

    Several words or numbers parted by `/` or `or` mean any of them. Where an empty cell stands
    for one word, a question mark means any word.
    """
    if not text:
        return None
    found = _read(column, text, words)
    if found is NOT_SEEN:
        return _any_word(column.trait) if column.trait.unset else None
    return found


def read_one_word(column: Column, text: str, words: Vocabulary) -> str | BadCell | None:
    """Return the word of an outcome; None where the cell is empty."""
    if not text:
        return None
    match _read(column, text, words):
        case BadCell() as bad:
            return bad
        case OneOf(some) if len(some) == 1:
            return next(iter(some))
        case OneOf():
            return BadCell(
                column=column,
                code=ChartCode.ONE_WORD_ONLY,
                sentence=f"{quoted(text)} is more than one word, and an outcome is only one",
                hint="keep the one that fits best, or leave the cell empty",
            )
        case _:
            return ""


def read_day(column: Column, text: str, _: Vocabulary) -> str | BadCell | None:
    """Return a date in ISO form; None where the cell is empty."""
    if not text or text == "?" or text in _NOT_SEEN:
        return None
    return read_date(text) or BadCell(
        column=column,
        code=ChartCode.UNCLEAR_DATE,
        sentence=f"{quoted(text)} is not a date that can be read in one way only",
        hint="write year, month and day: 2026-03-14",
    )


def read_text(_: Column, text: str, __: Vocabulary) -> str:
    """Return a free text as it stands."""
    return unguard_text(text)


def _read(column: Column, text: str, words: Vocabulary) -> Known | BadCell:
    if text in _NOT_SEEN:
        return NOT_SEEN
    if text.casefold() in _NOT_APPLICABLE:
        return NOT_APPLICABLE
    obstacle = _obstacle(column, text)
    if obstacle is not None:
        return obstacle
    pieces = _OR.split(text)
    if column.trait.kind is Kind.NUMBER:
        pieces = _with_units(pieces, column.unit)
    whole = pieces[0] if len(pieces) == 1 else text
    found = known(whole, column.trait, words, decimal_comma=True)
    if len(pieces) > 1 and isinstance(found, Complaint | Within):
        several = [known(each or "?", column.trait, words, decimal_comma=True) for each in pieces]
        found = _any_of(several)
    return _bad(column, found) if isinstance(found, Complaint) else found


def _any_of(several: list[Known | Complaint]) -> Known | Complaint:
    """Return the values in any of the sets; where one of them was not seen, nothing is known."""
    complaint = next((each for each in several if isinstance(each, Complaint)), None)
    sets: list[Allowed | Complaint] = [e for e in several if isinstance(e, OneOf | Within)]
    if complaint is not None or len(sets) < len(several):
        return complaint or NOT_SEEN
    found = union(sets)
    assert not isinstance(found, ScatterWithin)
    return found


def _with_units(pieces: list[str], unit: str) -> list[str]:
    """Return the pieces with a unit behind each: that of the last piece, else of the column."""
    last = _ENDS_IN_UNIT.fullmatch(pieces[-1])
    shared = last[1] if last else unit
    return [
        f"{piece} {shared}" if shared and _BARE_NUMBER.fullmatch(piece) else piece
        for piece in pieces
    ]


def _any_word(trait: Trait) -> Known:
    return OneOf(frozenset(each.name for each in trait.words))


def _obstacle(column: Column, text: str) -> BadCell | None:
    if _FORMULA.match(text):
        return BadCell(
            column=column,
            code=ChartCode.FORMULA_IN_CELL,
            sentence=f"{quoted(text)} is a formula or the error of one",
            hint="write the word or the number itself; a chart is never calculated",
        )
    if len(text) > _LONGEST:
        return BadCell(
            column=column,
            code=ChartCode.LONG_CELL,
            sentence=f"{len(text):,} characters stand where a word or a number belongs",
            hint='put long texts in the column "note"',
        )
    return None


def _bad(column: Column, complaint: Complaint) -> BadCell:
    """Return a complaint with the hint that fits a cell rather than a line of a rule file."""
    hint, replacement = complaint.hint, complaint.replacement
    if complaint.code is Code.WORD_OF_ANOTHER_FACT:
        hint = f"move it to the other column; {quoted(column.trait.name)} can be "
        hint += can_be(column.trait)
    if replacement.startswith("["):
        replacement = replacement.strip("[]").replace(", ", " / ")
        hint = f"write {replacement}"
    return BadCell(
        column=column,
        code=complaint.code,
        sentence=complaint.sentence,
        hint=hint,
        replacement=replacement,
    )
