"""The words on a ball that is on disk already, one by one: what is there, and changing it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from tactics.charting.keys import keys_for
from tactics.charting.noted import CAUSE, MARK, STANDING_FACTS
from tactics.model.ball import Ball
from tactics.model.choice import Cause, Choice
from tactics.model.known import NOT_SEEN, Known
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Role, Trait
from tactics.model.verdict import Grade
from tactics.model.vocabulary import Vocabulary
from tactics.report.words import say_short

NOTE = "note"
TAKE_OUT = "take out the ball"
_RESPONSE, _PLAYED, _NO_STROKE = "response", "played", "no stroke"
_UNPLAYED = frozenset({_RESPONSE, "afterwards", "stance"})
"""Parts of a choice that there are without a stroke as well."""
_ALWAYS = frozenset({MARK, CAUSE, "disturbed", "landed", "as intended", "response", "ending"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One thing noted on a ball, or that could be: its key, its name and what it says now."""

    key: str
    name: str
    says: str


def fields_of(ball: Ball, words: Vocabulary, wanted: Sequence[str] = ()) -> tuple[Field, ...]:
    """Return what a ball says and may say, in the order of the vocabulary; then its note.

    wanted: folded names of facts and parts that are listed whatever the ball says.
    """
    traits = [
        trait
        for trait in words.of_role(Role.FACT, Role.PART, Role.OUTCOME)
        if _has_words(trait) and trait.folded not in STANDING_FACTS
        if trait.quick or trait.folded in {*_ALWAYS, *wanted} or said_on(ball, trait)
    ]
    pairs = [(trait.name, said_on(ball, trait)) for trait in traits]
    return _fields([*pairs, (NOTE, ball.note), (TAKE_OUT, "")])


def fields_of_day(standing: Mapping[str, Known], words: Vocabulary) -> tuple[Field, ...]:
    """Return the facts about player and day."""
    traits = [words.trait(name) for name in STANDING_FACTS]
    return _fields(
        [
            (
                trait.name,
                say_short(standing[trait.folded], trait) if trait.folded in standing else "",
            )
            for trait in traits
            if trait.words
        ]
    )


def said_on(ball: Ball, trait: Trait) -> str:
    """Return what a ball says in one row of the vocabulary; empty where it says nothing."""
    if trait.role is Role.OUTCOME:
        return _outcome(ball, trait.folded)
    known = (ball.situation if trait.role is Role.FACT else ball.choice).get(trait.folded)
    return "" if known is NOT_SEEN else say_short(known, trait)


def with_word(ball: Ball, trait: Trait, name: str) -> Ball:
    """Return a ball that says this word in one row; an empty one clears it.

    Without a stroke there is neither shot nor landing; with one there may be both again.
    """
    if trait.folded == _RESPONSE:
        ball = _with_stroke(ball) if name in ("", _PLAYED) else _without_stroke(ball)
    if trait.role is Role.OUTCOME:
        return _with_outcome(ball, trait.folded, name)
    value = trait.value_of(name) if name else None
    is_fact = trait.role is Role.FACT
    noted = dict(ball.situation.facts if is_fact else ball.choice.parts)
    noted.pop(trait.folded, None)
    if value is not None:
        noted[trait.folded] = value
    if is_fact:
        return replace(ball, situation=Situation.of(noted))
    return replace(ball, choice=Choice.of(noted))


def _with_stroke(ball: Ball) -> Ball:
    landed = ball.outcome.landed
    return replace(
        ball,
        outcome=replace(ball.outcome, landed="" if landed == _NO_STROKE else landed),
    )


def _without_stroke(ball: Ball) -> Ball:
    kept = Choice.of((name, known) for name, known in ball.choice.parts if name in _UNPLAYED)
    outcome = replace(ball.outcome, landed=_NO_STROKE, as_intended="")
    return replace(ball, choice=kept, outcome=outcome)


def _has_words(trait: Trait) -> bool:
    return trait.kind in (Kind.WORDS, Kind.NUMBER) and bool(trait.words) and not trait.derived


def _outcome(ball: Ball, name: str) -> str:
    if name == MARK:
        return str(ball.mark or "")
    if name == CAUSE:
        return str(ball.cause or "")
    return str(getattr(ball.outcome, name.replace(" ", "_")))


def _with_outcome(ball: Ball, name: str, said: str) -> Ball:
    if name == MARK:
        return replace(ball, mark=Grade(said) if said else None)
    if name == CAUSE:
        return replace(ball, cause=Cause(said) if said else None)
    word = said or ("no" if name == "disturbed" else "")
    return replace(ball, outcome=replace(ball.outcome, **{name.replace(" ", "_"): word}))


def _fields(pairs: list[tuple[str, str]]) -> tuple[Field, ...]:
    keys = keys_for([name for name, _ in pairs])
    return tuple(
        Field(key=key, name=name, says=says) for key, (name, says) in zip(keys, pairs, strict=True)
    )
