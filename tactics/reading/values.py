"""The text of a value -> the set it stands for, or what is wrong with it.

Rule files and charts share these two functions; neither knows where the text stands.
"""

import re
from dataclasses import replace
from functools import reduce

from tactics.model.known import (
    NOT_APPLICABLE,
    NOT_SEEN,
    Allowed,
    Interval,
    Known,
    OneOf,
    ScatterWithin,
    Within,
    complement,
    merged,
)
from tactics.model.names import fold
from tactics.model.trait import Kind, Trait, Word
from tactics.model.vocabulary import Vocabulary
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.numbers import mixed_units, read_number
from tactics.reading.suggest import can_be, unknown_word
from tactics.reading.value_slips import (
    curly_quotes,
    other_spelling,
    shut_out,
    unknown_piece,
    with_note,
)
from tactics.reading.wording import quoted

_ABSENT = {
    "not seen": NOT_SEEN,
    "unseen": NOT_SEEN,
    "?": NOT_SEEN,
    "not applicable": NOT_APPLICABLE,
    "n/a": NOT_APPLICABLE,
}
_NOT = re.compile(r"not[\s_]+(?P<word>.+)", re.IGNORECASE | re.DOTALL)
_ORDER = re.compile(r"(?P<word>.+?)[\s_]+or[\s_]+(?P<way>higher|lower)", re.IGNORECASE | re.DOTALL)
_OR = re.compile(r"\s+or\s+|\s*\|\s*", re.IGNORECASE)


def allowed(
    text: str,
    trait: Trait,
    vocabulary: Vocabulary,
    *,
    scatter: bool = False,
    decimal_comma: bool = False,
) -> Allowed | Complaint:
    """Return the values that one text in a rule allows.

    scatter: `1.4 scatter` may stand here. decimal_comma: `1,4 m` may.
    """
    written = text.strip()
    if not written:
        return empty_value(trait)
    value = trait.value_of(written)
    if isinstance(value, OneOf | Within):
        return value
    other = _NOT.fullmatch(written)
    if other:
        return _any_but(other["word"], trait, vocabulary)
    order = _ORDER.fullmatch(written)
    if order and trait.word_named(order["word"]) is not None:
        return _in_order(order["word"], order["way"].lower(), trait)
    number = None
    if trait.kind is Kind.NUMBER:
        number = read_number(written, trait, scatter=scatter, decimal_comma=decimal_comma)
    if number is not None and (not isinstance(number, Complaint) or number.replacement):
        return number

    def holds(other: str) -> bool:
        return not isinstance(allowed(other, trait, vocabulary, scatter=scatter), Complaint)

    if number is not None:
        return curly_quotes(written, holds) or with_note(written, holds) or number
    return (
        curly_quotes(written, holds)
        or other_spelling(written, trait)
        or with_note(written, holds)
        or _strange_word(written, trait, vocabulary)
    )


def known(
    text: str, trait: Trait, vocabulary: Vocabulary, *, decimal_comma: bool = False
) -> Known | Complaint:
    """Return what one text says about a charted ball; `deep or mid` leaves both open."""
    absent = _ABSENT.get(fold(text))
    if absent is not None:
        return absent
    value = allowed(text, trait, vocabulary, decimal_comma=decimal_comma)
    pieces = _OR.split(text.strip())
    if isinstance(value, Complaint) and len(pieces) > 1:
        several = [allowed(each, trait, vocabulary, decimal_comma=decimal_comma) for each in pieces]
        value = union(several)
    if isinstance(value, ScatterWithin):
        return mixed_units()
    return value


def union(values: list[Allowed | Complaint]) -> Allowed | Complaint:
    """Return the values that are in any of these sets, or the first complaint among them."""
    return reduce(_either_of, values)


def _either_of(one: Allowed | Complaint, other: Allowed | Complaint) -> Allowed | Complaint:
    match one, other:
        case Complaint(), _:
            return one
        case _, Complaint():
            return other
        case OneOf(words), OneOf(more):
            return OneOf(words | more)
        case Within(intervals), Within(more_intervals):
            return Within(merged((*intervals, *more_intervals)))
        case ScatterWithin(intervals), ScatterWithin(more_intervals):
            return ScatterWithin(merged((*intervals, *more_intervals)))
        case _:
            return mixed_units()


def is_everything(value: Allowed, trait: Trait) -> bool:
    """Say whether a set leaves nothing of a row out."""
    if isinstance(value, OneOf):
        return len(value.words) == len(trait.words)
    return not complement(value.intervals)


def empty_value(trait: Trait) -> Complaint:
    """Return what to say where nothing stands behind a name."""
    return Complaint(
        code=Code.EMPTY_VALUE,
        sentence=f"{quoted(trait.name)} has no value",
        hint=f"write {can_be(trait)}, or take the line out",
    )


def _any_but(written: str, trait: Trait, vocabulary: Vocabulary) -> Allowed | Complaint:
    """Return every value but those of a word."""
    value = trait.value_of(written)
    if isinstance(value, Within):
        return Within(complement(value.intervals))
    if isinstance(value, OneOf):
        others = frozenset(word.name for word in trait.words) - value.words
        return OneOf(others) if others else empty_value(trait)
    if fold(written) in ("seen", "applicable"):
        return Complaint(
            code=Code.UNKNOWN_WORD,
            sentence=f"a rule cannot ask whether {quoted(trait.name)} was seen",
            hint=f"{quoted(trait.name)} can be {can_be(trait)}; in the `given` of an example it "
            "can be not seen",
        )
    if trait.kind is Kind.NUMBER and written[:1].isdigit():
        return Complaint(
            code=Code.COMPARISON,
            sentence=f'"not" needs a word behind it, and {quoted(written)} is a number',
            hint=f"write less than {written}, more than {written}, or both as a list",
        )
    several = shut_out(written, f"not {written}", trait)
    if several is not None:
        return several
    complaint = _strange_word(written, trait, vocabulary)
    again = f"not {complaint.replacement}" if complaint.replacement else ""
    return Complaint(
        code=complaint.code, sentence=complaint.sentence, hint=complaint.hint, replacement=again
    )


def _strange_word(written: str, trait: Trait, vocabulary: Vocabulary) -> Complaint:
    """Return what to say about a text that is no word of a row, or has one such among others."""
    piece = unknown_piece(written, trait)
    complaint = unknown_word(piece or written, trait, vocabulary)
    return replace(complaint, replacement="") if piece else complaint


def _in_order(written: str, way: str, trait: Trait) -> Allowed | Complaint:
    """Return a word and all the words above (or below) it."""
    names = [word.name for word in trait.words]
    found = trait.word_named(written)
    at = names.index(found.name) if found else 0
    chosen = trait.words[at:] if way == "higher" else trait.words[: at + 1]
    if not trait.ordered:
        return Complaint(
            code=Code.NO_ORDER,
            sentence=f"the words of {quoted(trait.name)} have no order, so none is {way}",
            hint=f"list the ones you mean: [{', '.join(names)}]",
        )
    if trait.kind is Kind.NUMBER:
        return Within((_hull(chosen, way),))
    return OneOf(frozenset(word.name for word in chosen))


def _hull(chosen: tuple[Word, ...], way: str) -> Interval:
    """Return one interval over bands, without an end on the open side."""
    if way == "higher":
        return Interval(chosen[0].interval.low, (float("inf"), 1))
    return Interval((float("-inf"), 0), chosen[-1].interval.high)
