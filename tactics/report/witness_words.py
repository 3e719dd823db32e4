"""What shows a finding, in words: what all such balls have in common, and one of them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tactics.checks.finding import Finding, Near
from tactics.checks.witness import Common, Witness
from tactics.model.choice import Choice
from tactics.model.known import Known, OneOf
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also
from tactics.reading.wording import both
from tactics.report.rule_text import condition_text
from tactics.report.rule_words import condition_words
from tactics.report.sentences import GAME_SITUATION, choice_words, situation_sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """The wording of a finding: what it means, what shows it, and what to do about it."""

    sentence: str
    notes: tuple[str, ...] = ()
    hint: str = ""
    also: tuple[Also, ...] = ()
    paste: tuple[str, ...] = ()


def in_common(finding: Finding, words: Vocabulary) -> Iterator[str]:
    """Yield what all balls of a finding have in common, unless the example says just that."""
    if finding.common is None:
        return
    told = [
        situation_sentence(finding.common.facts, words) if finding.common.facts.facts else "",
        f"Always: {both(finding.common.terms)}." if finding.common.terms else "",
        _choosing(finding.common.parts, words),
    ]
    said = " ".join(text for text in told if text)
    if said and not _is_same(finding.common, finding.witnesses[0]):
        yield f"All of them have in common: {said}"


def _is_same(common: Common, witness: Witness) -> bool:
    """Say whether what is common is just what the example tells, the game situation apart."""
    shared, told = common.facts.as_dict(), witness.told.as_dict()
    told.pop(GAME_SITUATION, None)
    shared.pop(GAME_SITUATION, None)
    return (shared, common.parts, common.terms) == (told, witness.told_choice, ())


def for_example(witness: Witness, words: Vocabulary) -> str:
    """Return a witness as an ordinary ball with what is told about it."""
    return f"For example: {told_words(witness, words)} All else as on an ordinary ball."


def told_words(witness: Witness, words: Vocabulary) -> str:
    """Return what is told about a witness, and its choice."""
    said = situation_sentence(witness.told, words)
    return " ".join(text for text in (said, _choosing(witness.told_choice, words)) if text)


def _choosing(choice: Choice, words: Vocabulary) -> str:
    return f"The choice: {choice_words(choice, words)}." if choice.parts else ""


def nearest_words(near: Near, words: Vocabulary) -> str:
    """Return what a rule near a gap asks for and does not get there."""
    if near.beaten_by:
        return f'Nearest: "{near.rule}" applies, but "{near.beaten_by}" sets it aside.'
    asks = both(condition_words(each, words) for each in near.asks)
    lacks = [f"it asks for {asks}"] if asks else []
    lacks += [f"it stands back where {condition_words(each, words)}" for each in near.unless]
    lacks += [f"it is for a choice of {condition_words(each, words)}" for each in near.choosing]
    return f'Nearest: "{near.rule}", but {both(lacks)}.'


def cannot_happen_lines(
    witness: Witness, words: Vocabulary, phases: tuple[str, ...] = ()
) -> tuple[str, ...]:
    """Return the lines that shut out a witness, in all game situations it stands for.

    No lines for an ordinary ball: that one does happen.
    """
    told = witness.told
    if witness.telling == (GAME_SITUATION,):
        return ()
    if phases:
        told = told.with_facts({GAME_SITUATION: OneOf(frozenset(phases))})
    facts: list[tuple[str, Known]] = list(told.facts)
    facts.sort(key=lambda pair: pair[0] != GAME_SITUATION)
    parts = witness.told_choice.parts
    choosing = (f"    if choosing: {condition_text(parts, words)}",) if parts else ()
    return (
        "cannot happen:",
        f"  - when: {condition_text(facts, words)}",
        *choosing,
        "    because: write here why it cannot be",
    )


def part_names(parts: Iterable[str], words: Vocabulary) -> list[str]:
    """Return parts as their names are written."""
    return [words.trait(part).name for part in parts]


def verb_for(ids: tuple[str, ...], one: str, several: str) -> str:
    """Return the form of a verb for one rule, or for several."""
    return several if len(ids) > 1 else one


def in_quotes(ids: Iterable[str]) -> list[str]:
    """Return ids in quotes."""
    return [f'"{each}"' for each in ids]
