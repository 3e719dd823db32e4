"""Facts that a rule set adds to the table."""

import re
from math import inf

from tactics.model.known import Within
from tactics.model.names import fold
from tactics.model.trait import Kind, Role, Trait, Word
from tactics.model.units import Unit, unit_of
from tactics.model.vocabulary import Vocabulary
from tactics.reading import yaml_text
from tactics.reading.belonging import settled_fact, settled_facts
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.fields import one_text, one_word, texts
from tactics.reading.keywords import LOGIC, OWN_FACT_KEYS
from tactics.reading.missing_colons import missing_colon
from tactics.reading.notes import Entry, Notes, of
from tactics.reading.numbers import read_number
from tactics.reading.sections import known_keys, section
from tactics.reading.wording import either, quoted
from tactics.reading.yaml_text import Scalar

_BAND = re.compile(r"(?P<name>\D+?) (?P<rest>(?:less than|at least|at most|more than|\d).*)")


def read_own_facts(
    entry: Entry, vocabulary: Vocabulary, notes: Notes
) -> tuple[tuple[Trait, ...], frozenset[str]]:
    """Return the facts a set declares, and the names of those that could not be read.

    A fact that could not be read is returned too, as a text, so that rules which use it do not
    earn a second problem for the same mistake.
    """
    facts, broken = [], set()
    inner = notes.inside(entry.key.span.line)
    for each in section(settled_facts(entry.value, inner), entry.key.span, '"facts"', inner):
        before = notes.errors()
        whose = f"fact {quoted(each.key.text)}"
        trait = _own_fact(each, vocabulary, notes.inside(each.key.span.line, whose))
        if notes.errors() > before or trait is None:
            broken.add(each.name)
            trait = Trait(name=each.key.text, role=Role.FACT, kind=Kind.TEXT)
        facts.append(trait)
    return tuple(facts), frozenset(broken)


def _own_fact(entry: Entry, vocabulary: Vocabulary, notes: Notes) -> Trait | None:
    before = notes.errors()
    _check_name(entry, vocabulary, notes)
    what = notes.whose
    lines = section(settled_fact(entry.value, notes), entry.key.span, what, notes)
    keys = known_keys(lines, OWN_FACT_KEYS, what, notes)
    if not keys:
        return None
    shape = _words(keys["words"], notes) if "words" in keys else _number(entry, keys, notes)
    if shape is None:
        return None
    trait = Trait(
        name=" ".join(entry.key.text.split()),
        role=Role.FACT,
        kind=shape.kind,
        words=shape.words,
        unit=shape.unit,
        low=shape.low,
        high=shape.high,
        ordered=shape.ordered,
        own=True,
        says=_text(keys, "says", notes),
        by_eye=_text(keys, "by eye", notes),
        question=_text(keys, "question", notes),
        ordinary=_text(keys, "ordinary", notes),
    )
    if notes.errors() == before:
        _check_ordinary(trait, keys, notes)
    return trait


def _text(keys: dict[str, Entry], name: str, notes: Notes) -> str:
    written = one_text(keys[name], notes) if name in keys else None
    return "" if written is None else written.text.strip()


def _check_name(entry: Entry, vocabulary: Vocabulary, notes: Notes) -> None:
    taken = vocabulary.find(entry.key.text)
    if (taken is not None and not taken.own) or entry.name in LOGIC:
        notes.add(
            Code.NAME_TAKEN,
            entry.key.span,
            f"{quoted(entry.key.text)} has a meaning already, and a rule set cannot change it",
            "give your fact another name, for example one with two words more",
        )


def _check_ordinary(trait: Trait, keys: dict[str, Entry], notes: Notes) -> None:
    if not trait.ordinary or trait.word_named(trait.ordinary):
        return
    names = [word.name for word in trait.words]
    if names:
        one_word(keys["ordinary"], names, notes)
        return
    notes.add(
        Code.UNKNOWN_WORD,
        keys["ordinary"].value.span,
        f"{of(notes, keys['ordinary'])} is {quoted(trait.ordinary)}",
        "take it out: only a word or a band can be ordinary",
    )


def _shape(
    kind: Kind,
    words: tuple[Word, ...] = (),
    unit: Unit | None = None,
    low: float = -inf,
    high: float = inf,
) -> Trait:
    """Return a nameless row that only holds what its values look like."""
    return Trait(
        name="",
        role=Role.FACT,
        kind=kind,
        words=words,
        unit=unit,
        low=low,
        high=high,
        ordered=kind is Kind.NUMBER,
    )


def _words(entry: Entry, notes: Notes) -> Trait | None:
    """Return the shape of a fact with words: a list, or a section word -> eye mark."""
    if isinstance(entry.value, yaml_text.Mapping):
        lines = section(entry.value, entry.key.span, of(notes, entry), notes)
        marked = tuple(Word(name=each.key.text.strip(), mark=_mark(each)) for each in lines)
        return _checked_words(marked, entry, notes)
    plain = texts(entry, notes)
    return _checked_words(tuple(Word(name=each.text.strip()) for each in plain), entry, notes)


def _mark(entry: Entry) -> str:
    return entry.value.text.strip() if isinstance(entry.value, Scalar) else ""


def _checked_words(words: tuple[Word, ...], entry: Entry, notes: Notes) -> Trait | None:
    folded = [fold(word.name) for word in words]
    twice = next((word.name for word in words if folded.count(fold(word.name)) > 1), None)
    if twice is not None:
        notes.add(
            Code.DUPLICATE_KEY,
            entry.key.span,
            f"{of(notes, entry)} has {quoted(twice)} twice",
            "keep one of the two",
        )
    elif len(words) == 1:
        notes.add(
            Code.MISSING_KEY,
            entry.key.span,
            f"{of(notes, entry)} has one word only, so there is nothing to tell apart",
            f"add a second one, for example words: [{words[0].name}, other]",
        )
    return _shape(Kind.WORDS, words)


def _number(entry: Entry, keys: dict[str, Entry], notes: Notes) -> Trait | None:
    """Return the shape of a fact with a number: its unit, its range and its bands."""
    if not {"unit", "from", "to", "bands"} & set(keys):
        notes.add(
            Code.MISSING_KEY,
            entry.key.span,
            f'{notes.whose} has no "words" and no "unit"',
            "add words: [one, other], or for a number unit: m",
        )
        return None
    unit = _unit(keys, notes)
    if unit is None:
        return None
    free = _shape(Kind.NUMBER, unit=unit)
    low, high = _limit(keys, "from", free, notes), _limit(keys, "to", free, notes)
    low, high = (-inf if low is None else low), (inf if high is None else high)
    if low >= high:
        notes.add(
            Code.REVERSED_RANGE,
            keys["to"].value.span,
            f'"from" of {notes.whose} is not smaller than "to"',
            "write the smaller number behind from",
        )
        return None
    shape = _shape(Kind.NUMBER, unit=unit, low=low, high=high)
    bands = _bands(keys["bands"], shape, notes) if "bands" in keys else ()
    return _shape(Kind.NUMBER, words=bands, unit=unit, low=low, high=high)


def _unit(keys: dict[str, Entry], notes: Notes) -> Unit | None:
    if "unit" not in keys:
        return Unit.COUNT
    written = one_text(keys["unit"], notes)
    if written is None:
        return None
    unit = unit_of(written.text.strip())
    if unit is None or unit.value.casefold() != written.text.strip().casefold():
        stored = [each.value for each in Unit if each.value]
        notes.add(
            Code.UNKNOWN_UNIT,
            written,
            f"{of(notes, keys['unit'])} is {quoted(written.text)}",
            f"write {unit.value}; {written.text.strip()} can still be typed with a number"
            if unit
            else f"it can be {either(stored)}; leave it out for a plain count",
            replacement=unit.value if unit else "",
        )
        return None
    return unit


def _limit(keys: dict[str, Entry], name: str, shape: Trait, notes: Notes) -> float | None:
    written = one_text(keys[name], notes) if name in keys else None
    if written is None:
        return None
    value = read_number(written.text, shape)
    if isinstance(value, Within) and value.intervals[0].low == (value.intervals[0].high[0], 0):
        return value.intervals[0].low[0]
    notes.add(
        Code.WORD_FOR_NUMBER,
        written.span,
        f"{of(notes, keys[name])} is {quoted(written.text)}, and not one number",
        "write a number, for example 12",
    )
    return None


def _bands(entry: Entry, shape: Trait, notes: Notes) -> tuple[Word, ...]:
    """Return the bands in rising order; together they leave no number out and share none."""
    bands = []
    before = notes.errors()
    for each in section(entry.value, entry.key.span, of(notes, entry), notes):
        band = _band(each, shape, notes)
        if band is not None:
            bands.append(band)
    bands.sort(key=lambda band: band.low)
    if notes.errors() == before:
        _check_they_meet(bands, entry, shape, notes)
    return tuple(bands)


def _band(entry: Entry, shape: Trait, notes: Notes) -> Word | None:
    glued = _BAND.fullmatch(entry.key.text) if entry.is_empty else None
    if glued:
        missing_colon(entry.key, glued["name"], notes)
        return None
    written = one_text(entry, notes)
    if written is None:
        return None
    value = read_number(written.text, shape)
    if isinstance(value, Complaint):
        value = Complaint(
            code=value.code,
            sentence=value.sentence.replace('""', notes.whose),
            hint=value.hint.replace('""', notes.whose),
            replacement=value.replacement,
        )
        notes.complain(value, written)
        return None
    if isinstance(value, Within):
        (low, after), (high, until) = value.intervals[0].low, value.intervals[0].high
        is_range = low > -inf and high < inf and low < high
        is_open = (low == -inf and until == 0) or (high == inf and after == 0)
        if is_range or is_open:
            return Word(name=entry.key.text.strip(), low=low, high=high)
    notes.add(
        Code.COMPARISON,
        written.span,
        f"band {quoted(entry.key.text)} of {notes.whose} is {quoted(written.text)}, and a band is "
        "a range of numbers",
        "write less than 2 m, 2 m to 4 m, or at least 4 m: the lower end belongs to the band, "
        "the upper does not",
    )
    return None


def _check_they_meet(bands: list[Word], entry: Entry, shape: Trait, notes: Notes) -> None:
    ends = [shape.low, *(band.high for band in bands)]
    starts = [*(band.low for band in bands), shape.high]
    for end, start in zip(ends, starts, strict=True):
        at_an_edge = start in (-inf, shape.low) or end in (inf, shape.high)
        if end != start and not (at_an_edge and (start <= shape.low or end >= shape.high)):
            what = "share the numbers" if start < end else "leave out the numbers"
            low, high = sorted((start, end))
            notes.add(
                Code.BANDS_APART,
                entry.key.span,
                f"the bands of {notes.whose} {what} from {low:g} to {high:g}",
                "let each band start where the one before it ends",
            )
            return
