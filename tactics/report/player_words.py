"""A ball and a shot as one says them to a player: few facts, no names of columns."""

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from tactics.model.choice import Choice
from tactics.model.known import Absent, Allowed, Known, OneOf
from tactics.model.situation import Situation
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary
from tactics.reading.wording import either
from tactics.report.phrases import PHRASES
from tactics.report.sentences import GAME_SITUATION, choice_words, situation_sentence
from tactics.report.words import names_in, say_numbers, say_short

_TOO_EXACT = frozenset({"incoming pace"})
_SPOKEN = ({phrase.fact for phrase in PHRASES} | {GAME_SITUATION}) - _TOO_EXACT
_SAID: Mapping[str, str] = MappingProxyType(
    {
        "intent": "to {}",
        "stroke": "with a {}",
        "direction": "{}",
        "depth": "{}",
        "height over net": "{} over the net",
        "inside line": "{} inside the line",
        "pace": "{} of full pace",
        "spin": "{} spin",
        "afterwards": "then {}",
    }
)
_ROADS: Mapping[str, str] = MappingProxyType(
    {
        "middle": "through the middle",
        "sharp angle": "at a sharp angle",
        "at body": "at the body",
        "behind": "back where they came from",
        "T": "to the T",
    }
)
_NOT: Mapping[str, str] = MappingProxyType({"afterwards": "then do not {}"})
_IN_NUMBERS = frozenset({"height over net", "inside line", "pace"})
_OF_A_SHOT = frozenset({"intent", "stroke", "direction", "depth", "height over net"})


def ball_words(situation: Situation, words: Vocabulary, who: str = "the player") -> str:
    """Return a ball in a sentence: only what somebody who has to play it would look at."""
    seen = Situation.of(pair for pair in situation.facts if pair[0] in _SPOKEN)
    return situation_sentence(seen, words, who)


def tried_words(choice: Choice, words: Vocabulary) -> str:
    """Return a charted shot: `to build, with a forehand, crosscourt, 1.1 m over the net`."""
    seen = {part: known for part, known in choice.parts if not isinstance(known, Absent)}
    of_a_shot = {part: known for part, known in seen.items() if part in _OF_A_SHOT}
    return ", ".join(_said(of_a_shot, words)) or choice_words(choice, words)


def asked_words(asked: Mapping[str, Allowed], words: Vocabulary) -> str:
    """Return what to try, in the order of the vocabulary."""
    return ", ".join(_said(asked, words))


def _said(parts: Mapping[str, Known | Allowed], words: Vocabulary) -> Iterator[str]:
    for trait in words.parts:
        if trait.folded in parts:
            yield _part(trait, parts[trait.folded])


def _part(trait: Trait, known: Known | Allowed) -> str:
    pattern = _SAID.get(trait.folded, f"{trait.name} {{}}")
    names = names_in(known, trait) if isinstance(known, OneOf) else ()
    others = [word.name for word in trait.words if word.name not in names]
    if trait.folded in _IN_NUMBERS:
        return pattern.format(say_numbers(known, trait))
    if not names:
        return pattern.format(say_short(known, trait))
    if len(others) >= len(names):
        return pattern.format(_either(trait, names))
    return _NOT.get(trait.folded, f"not {pattern}").format(_either(trait, others))


def _either(trait: Trait, names: Iterable[str]) -> str:
    return either(_ROADS.get(name, name) if trait.folded == "direction" else name for name in names)
