"""Conditions and answers of a rule in words."""

from collections.abc import Callable, Iterable

from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test
from tactics.model.rule import Answer
from tactics.model.vocabulary import Vocabulary
from tactics.reading.wording import both, either
from tactics.report.layout import bullet
from tactics.report.words import say_asked, say_bounds


def answer_words(answer: Answer, words: Vocabulary) -> str:
    """Return what is asked of each part: `direction crosscourt, pace at most 75 %`."""
    return ", ".join(
        f"{words.trait(part).name} {say_bounds(allowed, words.trait(part))}"
        for part, allowed in answer
    )


def condition_words(condition: Condition, words: Vocabulary) -> str:
    """Return a condition as a piece of a sentence."""
    match condition:
        case Test(name=name, allowed=allowed):
            trait = words.trait(name)
            return f"{trait.name} {say_asked(allowed, trait)}"
        case TermTest(term=term, wanted=wanted):
            return f'"{term}"' if wanted else f'not "{term}"'
        case All(inside):
            return _several(both, inside, words) or "always"
        case AnyOf(inside):
            return _several(either, inside, words) or "never"
        case Not(each):
            return f"not ({condition_words(each, words)})"


def condition_lines(condition: Condition, words: Vocabulary) -> tuple[str, ...]:
    """Return a condition as a list: one item for each thing that has to hold, or may."""
    items: tuple[Condition, ...] = (condition,)
    opening: tuple[str, ...] = ()
    match condition:
        case All(inside):
            items = inside
        case AnyOf(inside) if len(inside) > 1:
            items, opening = inside, ("  one of these holds:",)
    listed = (bullet(condition_words(each, words), "  ") for each in items)
    return (*opening, *(line for lines in listed for line in lines))


def _several(
    join: Callable[[Iterable[str]], str], inside: tuple[Condition, ...], words: Vocabulary
) -> str:
    return join(_bracketed(each, words, len(inside)) for each in inside)


def _bracketed(condition: Condition, words: Vocabulary, beside: int) -> str:
    said = condition_words(condition, words)
    is_several = isinstance(condition, All | AnyOf) and len(condition.inside) > 1
    return f"({said})" if is_several and beside > 1 else said


def answer_pairs(answer: Answer, words: Vocabulary) -> list[tuple[str, str]]:
    """Return (part, what is asked of it) for each part of an answer."""
    return [
        (words.trait(part).name, say_bounds(allowed, words.trait(part))) for part, allowed in answer
    ]
