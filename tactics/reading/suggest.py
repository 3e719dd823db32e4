"""What was probably meant: by spelling, or by the words that were given with it."""

from collections.abc import Iterable, Sequence
from difflib import SequenceMatcher
from types import MappingProxyType

from tactics.model.names import fold
from tactics.model.trait import Kind, Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.wording import both, either, quoted

_NEAR = 0.7
_AS_GOOD = 0.05
_BEGINNING = 0.75
_SAYS_LITTLE = frozenset({"yes", "no"})
_LIKE_YES = frozenset({"yes", "y", "yeah", "true", "on", "always"})
_LIKE_NO = frozenset({"no", "n", "nope", "false", "off", "never"})
_OWN_SIDES = MappingProxyType({"left": "backhand", "right": "forehand"})
"""Side of the court -> what a right-hander finds there."""
_LONGEST = 60


def near(written: str, names: Iterable[str]) -> tuple[str, ...]:
    """Return the names spelt most like `written`: none, the best, or two that are as good."""
    wanted = fold(written)
    if not wanted or len(wanted) > _LONGEST:
        return ()
    scored = sorted(((_likeness(wanted, fold(name)), name) for name in names), reverse=True)
    good = [pair for pair in scored if pair[0] >= _NEAR]
    best: list[str] = []
    for likeness, name in good:
        if name not in best and likeness >= good[0][0] - _AS_GOOD:
            best.append(name)
    return tuple(best[:2])


def _likeness(one: str, other: str) -> float:
    if min(len(one), len(other)) > 1 and (one.startswith(other) or other.startswith(one)):
        return max(_BEGINNING, SequenceMatcher(None, one, other, autojunk=False).ratio())
    matcher = SequenceMatcher(None, one, other, autojunk=False)
    if matcher.real_quick_ratio() < _NEAR or matcher.quick_ratio() < _NEAR:
        return 0.0
    return matcher.ratio()


def names_of(traits: Iterable[Trait]) -> tuple[str, ...]:
    """Return the names of rows, every spelling of them."""
    return tuple(name for trait in traits for name in (trait.name, *trait.also))


def near_traits(written: str, traits: Iterable[Trait]) -> tuple[Trait, ...]:
    """Return the rows whose name, or another spelling of it, is most like `written`."""
    owners = {name: trait for trait in traits for name in (trait.name, *trait.also)}
    found: list[Trait] = []
    for name in near(written, owners):
        if owners[name] not in found:
            found.append(owners[name])
    return tuple(found)


def traits_with_words(values: Sequence[str], traits: Iterable[Trait]) -> tuple[Trait, ...]:
    """Return the rows that have every one of these words."""
    if not {fold(value) for value in values} - _SAYS_LITTLE:
        return ()
    return tuple(
        trait for trait in traits if all(trait.word_named(value) is not None for value in values)
    )


def meant(written: str, values: Sequence[str], traits: Sequence[Trait]) -> tuple[Trait, ...]:
    """Return the rows an unknown name may stand for, by its spelling, else by its values.

    Where several are spelt as nearly, those that have the words given come alone.
    """
    spelt = near_traits(written, traits)
    fitting = traits_with_words(values, spelt)
    return fitting or spelt or traits_with_words(values, traits)[:3]


def meant_yes_or_no(written: str) -> str:
    """Return `yes` for `true` or `on`, `no` for `false` or `off`, and nothing for other words."""
    wanted = fold(written)
    return "yes" if wanted in _LIKE_YES else "no" if wanted in _LIKE_NO else ""


def did_you_mean(names: Iterable[str]) -> str:
    """Return `did you mean "a" or "b"?`."""
    return f"did you mean {either(quoted(name) for name in names)}?"


def can_be(trait: Trait) -> str:
    """Return what a row can hold, as the end of a sentence: `a, b or c`."""
    words = [word.name for word in trait.words]
    if trait.kind is Kind.NUMBER:
        words.append(f"a number {number_range(trait)}".rstrip())
    return either(words)


def number_range(trait: Trait) -> str:
    """Return `from 0 m to 3.6 m`, or nothing where a row has no limits."""
    low, high = with_unit(trait.low, trait), with_unit(trait.high, trait)
    if low and high:
        is_share = trait.unit is not None and " " in trait.unit.value
        return f"from {trait.low:g} to {high}" if is_share else f"from {low} to {high}"
    return f"from {low}" if low else f"up to {high}" if high else ""


def with_unit(number: float, trait: Trait) -> str:
    """Return a number with the row's stored unit, or nothing where it is without limit."""
    if abs(number) == float("inf"):
        return ""
    unit = trait.unit.value if trait.unit else ""
    return f"{number:g} {unit}".rstrip()


def unknown_word(written: str, trait: Trait, vocabulary: Vocabulary) -> Complaint:
    """Return what to say about a text that is no word of a row."""
    if fold(written) in _OWN_SIDES and _is_sided(trait):
        return _left_or_right(written, trait)
    elsewhere = _others_with(written, trait, vocabulary)
    longer = _longer_words(written, trait)
    if elsewhere:
        names = both(quoted(other.name) for other in elsewhere)
        have = "has" if len(elsewhere) == 1 else "have"
        there = either(f"{other.name}: {written.strip()}" for other in elsewhere)
        return Complaint(
            code=Code.WORD_OF_ANOTHER_FACT,
            sentence=f"{quoted(written)} is not a word for {quoted(trait.name)}; {names} {have} it",
            hint=f"write {trait.name}: {either(longer)}, or else {there}"
            if longer
            else f"write {there}, or give {quoted(trait.name)} one of {can_be(trait)}",
        )
    if trait.kind is Kind.NUMBER and not trait.words:
        return Complaint(
            code=Code.WORD_FOR_NUMBER,
            sentence=f"{quoted(written)} is not a number, and {quoted(trait.name)} is one",
            hint=f"write a number {number_range(trait)}".rstrip(),
        )
    words = [name for word in trait.words for name in (word.name, *word.also)]
    ways = ("higher", "lower") if trait.ordered and " " in written.strip() else ()
    words += [f"{word.name} or {way}" for word in trait.words for way in ways]
    spelt = near(written, words) or longer
    same = trait.word_named(meant_yes_or_no(written))
    spelt = (same.name,) if same and not spelt else spelt
    start = f"{did_you_mean(spelt)} It" if spelt else quoted(trait.name)
    return Complaint(
        code=Code.UNKNOWN_WORD,
        sentence=f"{quoted(written)} is not a word for {quoted(trait.name)}",
        hint=f"{start} can be {can_be(trait)}",
        replacement=spelt[0] if len(spelt) == 1 else "",
    )


def _longer_words(written: str, trait: Trait) -> tuple[str, ...]:
    """Return the words of a row that hold what is written as a word: `wide` in `wide forehand`."""
    wanted = fold(written)
    return tuple(word.name for word in trait.words if wanted in fold(word.name).split())


def _is_sided(trait: Trait) -> bool:
    return trait.kind is Kind.NUMBER and bool(_longer_words("backhand", trait))


def _left_or_right(written: str, trait: Trait) -> Complaint:
    """Return what to say about `left`: sides are the player's own, so that one rule serves all."""
    right_handed = _OWN_SIDES[fold(written)]
    left_handed = next(side for side in _OWN_SIDES.values() if side != right_handed)
    whose = fold(written)
    return Complaint(
        code=Code.UNKNOWN_WORD,
        sentence=f"{quoted(written)} is not a word for {quoted(trait.name)}, which counts to the "
        "forehand or the backhand side",
        hint=f"a right-hander's {whose} is {either(_longer_words(right_handed, trait))}, "
        f"a left-hander's {either(_longer_words(left_handed, trait))}",
    )


def _others_with(written: str, trait: Trait, vocabulary: Vocabulary) -> tuple[Trait, ...]:
    """Return the other rows that have this word, those of the same kind of thing first."""
    if fold(written) in _SAYS_LITTLE:
        return ()
    others = [other for other, _ in vocabulary.words_like(written) if other != trait]
    alike = [other for other in others if other.role is trait.role]
    if alike or trait.role not in (Role.FACT, Role.PART):
        return tuple(alike[:3])
    return tuple(other for other in others if other.role in (Role.FACT, Role.PART))[:3]
