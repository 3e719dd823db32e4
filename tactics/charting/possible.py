"""Which words of a question can occur at all, given what is noted already."""

from collections.abc import Mapping, Sequence

from tactics.model.condition import All, AnyOf, Condition, Not, Test, tests_in
from tactics.model.known import Allowed, Known, OneOf, Within, complement
from tactics.model.legality import LEGALITY, Impossible
from tactics.model.rule import RuleSet
from tactics.model.trait import Trait, Word


def possible_words(
    trait: Trait, known: Mapping[str, Known], impossible: Sequence[Impossible]
) -> tuple[Word, ...]:
    """Return the words that nothing on the list rules out; all where the list rules out all."""
    about = [each for each in impossible if _mentions(each, trait.folded)]
    possible = tuple(word for word in trait.words if not _is_ruled_out(trait, word, known, about))
    return possible or trait.words


def impossible_in(rules: RuleSet) -> tuple[Impossible, ...]:
    """Return what cannot happen: on any court, and by the author of the rule set."""
    return (*LEGALITY, *rules.cannot_happen)


def _mentions(each: Impossible, name: str) -> bool:
    return any(isinstance(test, Test) and test.name == name for test in tests_in(each.when))


def _is_ruled_out(
    trait: Trait, word: Word, known: Mapping[str, Known], impossible: Sequence[Impossible]
) -> bool:
    value = trait.value_of(word.name)
    if value is None:
        return False
    with_word = {**known, trait.folded: value}
    return any(surely(each.when, with_word) is True for each in impossible)


def surely(condition: Condition, known: Mapping[str, Known]) -> bool | None:
    """Return whether a condition holds whatever else is true; None where that is open.

    A named situation of a rule set counts as open.
    """
    match condition:
        case Test(name=name, allowed=allowed):
            return _lies(known.get(name), allowed)
        case All(inside):
            return _all([surely(each, known) for each in inside])
        case AnyOf(inside):
            return _not(_all([_not(surely(each, known)) for each in inside]))
        case Not(each):
            return _not(surely(each, known))
        case _:
            return None


def _all(several: Sequence[bool | None]) -> bool | None:
    if False in several:
        return False
    return None if None in several else True


def _not(truth: bool | None) -> bool | None:
    return None if truth is None else not truth


def _lies(known: Known | None, allowed: Allowed) -> bool | None:
    match known, allowed:
        case OneOf(words), OneOf(wanted):
            return True if words <= wanted else None if words & wanted else False
        case Within(intervals), Within(wanted_intervals):
            outside = complement(wanted_intervals)
            if not any(a.meets(b) for a in intervals for b in outside):
                return True
            meets = any(a.meets(b) for a in intervals for b in wanted_intervals)
            return None if meets else False
        case _:
            return None
