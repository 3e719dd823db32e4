"""A situation and a choice in a coach's words."""

from collections.abc import Iterator

from tactics.model.choice import Choice
from tactics.model.known import Absent, Known, OneOf, Within
from tactics.model.situation import Situation
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary
from tactics.reading.wording import either
from tactics.report.phrases import OPENINGS, PHRASES, Clause, Phrase
from tactics.report.words import names_in, say_numbers, say_short, says_something

GAME_SITUATION = "game situation"
_MOST_BANDS = 2
_FOLLOWING = frozenset({"hands"})
"""Facts that follow from others and would only repeat them."""
_SPOKEN = frozenset(phrase.fact for phrase in PHRASES) | {GAME_SITUATION} | _FOLLOWING
_PHRASES_OF = {
    clause: tuple(phrase for phrase in PHRASES if phrase.clause is clause) for clause in Clause
}


def situation_sentence(situation: Situation, words: Vocabulary, who: str = "the player") -> str:
    """Return a situation as one or two sentences; facts not seen are not mentioned.

    who: "the player" or "you".
    """
    known = _noted(situation, words)
    clauses = [_opening(known), *_clauses(known, words, who)]
    others = [
        f"{trait.name} {say_short(known[trait.folded], trait)}"
        for trait in words.facts
        if trait.folded in known and trait.folded not in _SPOKEN and not _is_unset(trait, known)
    ]
    said = "; ".join(clause for clause in clauses if clause)
    sentence = f"{said[:1].upper()}{said[1:]}." if said else ""
    more = f"Also: {', '.join(others)}." if others else ""
    return " ".join(text for text in (sentence, more) if text) or "Nothing was seen."


def choice_words(choice: Choice, words: Vocabulary) -> str:
    """Return the charted parts of a choice: `intent buy time, direction straight`.

    What goes without saying (that the ball was played) is left out beside other parts.
    """
    charted = [trait for trait in words.parts if not isinstance(choice.get(trait.folded), Absent)]
    telling = [trait for trait in charted if not _is_ordinary(choice, trait)]
    said = [
        f"{trait.name} {say_short(choice.get(trait.folded), trait)}" for trait in telling or charted
    ]
    return ", ".join(said) or "nothing was charted of the choice"


def _is_ordinary(choice: Choice, trait: Trait) -> bool:
    return bool(trait.ordinary) and choice.get(trait.folded) == trait.ordinary_value("")


def facts_words(situation: Situation, words: Vocabulary) -> str:
    """Return the facts as a list: `ball line inside, court width wide forehand`."""
    known = _noted(situation, words)
    return ", ".join(
        f"{trait.name} {say_short(known[trait.folded], trait)}"
        for trait in words.facts
        if trait.folded in known and not _is_unset(trait, known)
    )


def _noted(situation: Situation, words: Vocabulary) -> dict[str, Known]:
    return {
        name: known for name, known in situation.facts if says_something(known, words.trait(name))
    }


def _is_unset(trait: Trait, known: dict[str, Known]) -> bool:
    """Say whether a mark is simply not set, which is not worth a word."""
    return bool(trait.unset) and known[trait.folded] == trait.value_of(trait.unset)


def _opening(known: dict[str, Known]) -> str:
    phase = known.get(GAME_SITUATION)
    if not isinstance(phase, OneOf):
        return ""
    return either(said for name, said in OPENINGS.items() if name in phase.words)


def _clauses(known: dict[str, Known], words: Vocabulary, who: str) -> Iterator[str]:
    said = {
        clause: [
            _said(phrase, known[phrase.fact], words.trait(phrase.fact))
            for phrase in _PHRASES_OF[clause]
            if phrase.fact in known
        ]
        for clause in Clause
    }
    yield ", ".join(said[Clause.SERVE])
    yield _ball(said[Clause.BALL], [*said[Clause.BALL_MORE], *_met(said[Clause.CONTACT])])
    yield _somebody(who, said[Clause.PLAYER])
    yield _somebody("the opponent", said[Clause.OPPONENT])


def _met(contact: list[str]) -> list[str]:
    return [f"met {', '.join(contact)}"] if contact else []


def _ball(before: list[str], behind: list[str]) -> str:
    if not before and not behind:
        return ""
    adjectives = [text for text in before if " " not in text]
    later = [text for text in before if " " in text]
    return ", ".join([f"{_article(adjectives)} ball", *later, *behind])


def _article(adjectives: list[str]) -> str:
    if not adjectives:
        return "the"
    return f"{'an' if adjectives[0][0] in 'aeiou' else 'a'} {', '.join(adjectives)}"


def _somebody(who: str, phrases: list[str]) -> str:
    if not phrases:
        return ""
    return f"{who} {'are' if who == 'you' else 'is'} {', '.join(phrases)}"


def _said(phrase: Phrase, known: Known, trait: Trait) -> str:
    """Return one fact as a piece of a clause."""
    names = names_in(known, trait)
    if not names or (isinstance(known, Within) and len(names) > _MOST_BANDS):
        return phrase.as_number.format(say_numbers(known, trait))
    return either(phrase.exceptions.get(name, phrase.as_word.format(name)) for name in names)
