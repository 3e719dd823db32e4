"""What a value may look like in a rule file, as pieces of a JSON Schema.

A schema sees values after YAML has guessed their type, so `5` may arrive as a number and `yes` as
true. Names and words may be spelt in any case and with space, hyphen or underscore.
"""

from collections.abc import Iterable, Mapping

from tactics.model.trait import Kind, Trait, Word
from tactics.model.units import Unit, spellings
from tactics.reading.numbers import SCATTER_PARTS
from tactics.report.words import word_with_numbers

Schema = dict[str, object]
"""A JSON Schema or a part of one."""

_JOINER = r"[\s_\-]+"
_SPECIAL = frozenset(".^$*+?()[]{}|\\/")
_NUMBER = r"[-+\u2212]?(?:\d+(?:\.\d+)?|\.\d+)"
_BOUNDS = ("at least", "more than", "at most", "less than")
_ABSENT = ("not seen", "unseen", "not applicable", "n/a", "?")
_TRUE, _FALSE = frozenset({"yes", "on", "true"}), frozenset({"no", "off", "false"})
TEXT: Schema = {"type": ["string", "number", "boolean"]}
OFF: Schema = {"enum": ["off", "Off", "OFF", False]}


def spelt(name: str) -> str:
    """Return the pattern of a name in any case, with any joiner between its words."""
    return _JOINER.join(_letters(piece) for piece in name.replace("-", " ").split())


def _letters(piece: str) -> str:
    return "".join(_letter(each) for each in piece)


def _letter(character: str) -> str:
    both = {character.lower(), character.upper()}
    if len(both) == 1 or any(len(each) > 1 for each in both):
        return f"\\{character}" if character in _SPECIAL else character
    return f"[{character.lower()}{character.upper()}]"


def whole(pattern: str) -> Schema:
    """Return a text that is this pattern from end to end."""
    return {"type": "string", "pattern": rf"^\s*(?:{pattern})\s*$"}


def any_of(patterns: Iterable[str]) -> str:
    """Return a pattern that is one of these."""
    return f"(?:{'|'.join(patterns)})"


def choice_of(words: Mapping[str, str]) -> Schema:
    """Return one of a few words, each with what it means ("" for nothing)."""
    return {"anyOf": [*map(_constant, words, words.values()), whole(any_of(map(spelt, words)))]}


def _constant(word: str, means: str) -> Schema:
    return {"const": word, **({"description": means} if means else {})}


def one_or_many(one: Schema, *, least: int = 0) -> Schema:
    """Return one value, or a list of at least so many."""
    return {
        "if": {"type": "array"},
        "then": {"items": one, **({"minItems": least} if least else {})},
        "else": one,
    }


def names(
    properties: Mapping[str, Schema],
    *,
    required: Iterable[str] = (),
    also: Mapping[str, Iterable[str]] | None = None,
    others: Schema | bool = False,
) -> Schema:
    """Return a section with these names. also: name -> other names for it; others: what else.

    Every name may be spelt in any case and with any joiner.
    """
    other_names = {} if also is None else also
    schema: Schema = {
        "type": "object",
        "properties": dict(properties),
        "patternProperties": {
            _other_spelling(name, other_names.get(name, ())): schema
            for name, schema in properties.items()
        },
        "additionalProperties": others,
    }
    needed = list(required)
    return {**schema, "allOf": [_needs(name) for name in needed]} if needed else schema


def _other_spelling(name: str, also: Iterable[str]) -> str:
    """Return the pattern of a name in every spelling but the plain one, which is looked up."""
    plain = "".join(f"\\{each}" if each in _SPECIAL else each for each in name)
    return rf"^(?!{plain}$)\s*{any_of(map(spelt, (name, *also)))}\s*$"


def _needs(name: str) -> Schema:
    """Return that a name is there, in one spelling or another."""
    nowhere = {"propertyNames": {"not": {"pattern": rf"^\s*{spelt(name)}\s*$"}}}
    return {"anyOf": [{"required": [name]}, {"not": nowhere}]}


def described(trait: Trait, schema: Schema) -> Schema:
    """Return a schema with what a fact or part is, and how it is judged by eye."""
    texts = (
        f"{trait.says[:1].upper()}{trait.says[1:]}." if trait.says else "",
        f"By eye: {trait.by_eye}" if trait.by_eye else "",
        f"A number is in {trait.unit.value}." if trait.unit and trait.unit.value else "",
    )
    said = " ".join(text for text in texts if text)
    return {**schema, "title": trait.name, **({"description": said} if said else {})}


def asked_of(trait: Trait, *, scatter: bool = False) -> Schema:
    """Return one value of a condition or an answer."""
    patterns = [*_words_asked(trait)]
    if trait.kind is Kind.NUMBER:
        patterns += _numbers_asked(trait, scatter=scatter)
    return _value(trait, patterns)


def aimed_at(trait: Trait) -> Schema:
    """Return one word or one number to aim for."""
    patterns = [any_of(map(spelt, _spellings(trait)))] if trait.words else []
    if trait.kind is Kind.NUMBER:
        patterns.append(_quantity(trait, scatter=True))
    return _value(trait, patterns)


def noted_of(trait: Trait) -> Schema:
    """Return one value in an example: as in a rule, several with `or`, or not seen."""
    patterns = [*_words_asked(trait)]
    if trait.kind is Kind.NUMBER:
        patterns += _numbers_asked(trait, scatter=False)
    one = any_of(patterns)
    several = rf"{one}(?:(?:\s+[oO][rR]\s+|\s*\|\s*){one})*"
    return _value(trait, [several, *map(spelt, _ABSENT)])


def _value(trait: Trait, patterns: Iterable[str]) -> Schema:
    kinds: list[object] = [_constant(word.name, _means(trait, word)) for word in trait.words]
    kinds.append(whole(any_of(patterns)))
    if trait.kind is Kind.NUMBER:
        kinds.append(_plain_number(trait))
    truths = [truth for truth, said in ((True, _TRUE), (False, _FALSE)) if _has(trait, said)]
    if truths:
        kinds.append({"enum": truths})
    return {"anyOf": kinds}


def _means(trait: Trait, word: Word) -> str:
    texts = (word_with_numbers(trait, word.name), word.mark)
    return "; ".join(text for text in texts if text)


def _has(trait: Trait, said: frozenset[str]) -> bool:
    return any(each.lower() in said for each in _spellings(trait))


def _spellings(trait: Trait) -> tuple[str, ...]:
    return tuple(name for word in trait.words for name in (word.name, *word.also))


def _words_asked(trait: Trait) -> Iterable[str]:
    if not trait.words:
        return
    word = any_of(map(spelt, _spellings(trait)))
    yield rf"(?:[nN][oO][tT][\s_]+)?{word}"
    if trait.ordered:
        ways = any_of(map(_letters, ("higher", "lower")))
        yield rf"{word}[\s_]+[oO][rR][\s_]+{ways}"


def _numbers_asked(trait: Trait, *, scatter: bool) -> Iterable[str]:
    quantity = _quantity(trait, scatter=scatter)
    bounds = any_of(_letters(each).replace(" ", r" ") for each in _BOUNDS)
    yield rf"(?:{bounds}\s+)?{quantity}"
    yield rf"{quantity}\s+[tT][oO]\s+{quantity}"


def _quantity(trait: Trait, *, scatter: bool) -> str:
    """Return the pattern of a number with or without a unit that fits the row."""
    unit = trait.unit or Unit.COUNT
    written = [*spellings(unit)]
    if scatter and trait.folded in SCATTER_PARTS:
        written += spellings(Unit.SCATTER)
    units = any_of(_letters(each) for each in sorted(written, key=len, reverse=True))
    number = rf"{_NUMBER}(?:\s*{units})?" if written else _NUMBER
    if unit is not Unit.METRE:
        return number
    feet, inches = any_of(("ft", "foot", "feet", "'")), any_of(("inches", "inch", "in", '"'))
    return rf"(?:{number}|\d+\s*{feet}\s*\d+(?:\.\d+)?\s*{inches})"


def _plain_number(trait: Trait) -> Schema:
    """Return a number that YAML has already read, inside the range of the row."""
    low, high = trait.low, trait.high
    limits: Schema = {}
    if abs(low) != float("inf"):
        limits["minimum"] = low
    if abs(high) != float("inf"):
        limits["maximum"] = high
    return {"type": "number", **limits}
