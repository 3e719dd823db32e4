"""Which question comes next: the fewest that decide this ball by the rule set in force."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tactics.charting.deciding import Decider
from tactics.charting.noted import GAME_SITUATION, MARK, STANDING_FACTS, Answer, Noted, Told
from tactics.charting.possible import impossible_in, possible_words
from tactics.charting.question import (
    DISTURBED,
    OUTCOME,
    Question,
    outcome_question,
    purpose_question,
    words_question,
)
from tactics.engine.coverage import is_covered
from tactics.model.ball import Ball
from tactics.model.known import NOT_SEEN, Absent, Known
from tactics.model.trait import Role, Trait

MOST_KEYS = 10
"""A ball ends after so many keys; what is open then, the verdict names."""
_LOOKED_BACK = 80
"""Balls that are searched for what was last seen in the same game situation."""
_MOST_SHOWN = 4
_PACE, _HEIGHT = "pace", "height over net"
_UNPLAYED_ASK = ("reachable",)
"""What effort is about: asked whenever a ball was let go, whatever else is known."""

Seen = Mapping[str, Known]


@dataclass(frozen=True, kw_only=True)
class Form:
    """The form for one rule set. most_keys: when to stop; asks_mark: the coach's own grade too."""

    decider: Decider
    most_keys: int = MOST_KEYS
    asks_mark: bool = False

    def trait(self, name: str) -> Trait:
        """Return a row of the rule set's vocabulary."""
        return self.decider.advisor.vocabulary.trait(name)

    def grades(self, noted: Noted) -> bool:
        """Say whether the rules speak about such balls: with others, facts decide nothing."""
        return is_covered(self.decider.advisor.rules, noted.situation)

    def next_question(self, noted: Noted, seen: Seen) -> Question | None:
        """Return what to ask next about a ball, or None when it is complete.

        seen: the facts of the last balls in this game situation.
        """
        return next(
            (found for step in _STEPS for found in [step(self, noted, seen)] if found), None
        )


def seen_before(balls: Sequence[Ball], phase: Known) -> dict[str, Known]:
    """Return the facts as they last were in the same game situation, the latest first."""
    seen: dict[str, Known] = {}
    for ball in reversed(balls[-_LOOKED_BACK:]):
        if ball.situation.get(GAME_SITUATION) == phase:
            for name, known in ball.situation.facts:
                if name not in STANDING_FACTS and not isinstance(known, Absent):
                    seen.setdefault(name, known)
    seen.pop(GAME_SITUATION, None)
    return seen


def standing_questions(form: Form, known: Mapping[str, Known]) -> tuple[Question, ...]:
    """Return the questions about player and day that the rule set has a use for."""
    program = form.decider.advisor.program
    used = {leaf.name for leaf in program.leaves} | {
        "own hand",
        "opponent hand",
        "restricted today",
    }
    used |= {fact for fact, _ in form.decider.advisor.rules.applies_to}
    return tuple(
        words_question(form.trait(name))
        for name in STANDING_FACTS
        if name in used and name not in known and form.trait(name).words
    )


def _phase(form: Form, noted: Noted, _: Seen) -> Question | None:
    if noted.situation.get(GAME_SITUATION) is not NOT_SEEN or GAME_SITUATION in noted.settled:
        return None
    return words_question(form.trait(GAME_SITUATION))


def _purpose(form: Form, noted: Noted, _: Seen) -> Question | None:
    if "intent" in noted.settled:
        return None
    intent = form.trait("intent")
    return purpose_question(form.trait("response"), intent, _possible(form, intent, noted))


def _reach(form: Form, noted: Noted, _: Seen) -> Question | None:
    if noted.is_played:
        return None
    words = form.decider.advisor.vocabulary
    traits = [trait for name in _UNPLAYED_ASK if (trait := words.find(name)) is not None]
    return next((words_question(each) for each in traits if _is_open(each, noted)), None)


def _direction(form: Form, noted: Noted, _: Seen) -> Question | None:
    trait = form.trait("direction")
    if not noted.is_played or not _is_open(trait, noted):
        return None
    return words_question(trait, _possible(form, trait, noted))


def _pace(form: Form, noted: Noted, _: Seen) -> Question | None:
    return _part(form, noted, _PACE)


def _height(form: Form, noted: Noted, _: Seen) -> Question | None:
    return _part(form, noted, _HEIGHT)


def _part(form: Form, noted: Noted, name: str) -> Question | None:
    trait = form.trait(name)
    if not noted.is_played or not _is_open(trait, noted):
        return None
    if not form.decider.speaks(name, noted.situation, noted.choice) or not form.grades(noted):
        return None
    return words_question(trait)


def _fact(form: Form, noted: Noted, seen: Seen) -> Question | None:
    if not form.grades(noted):
        return None
    waiting = _waiting(form, noted)
    kept_back = sum(each(form, noted, seen) is not None for each in (_height, _outcome))
    if not waiting or keys_of(noted) + kept_back >= form.most_keys:
        return None
    trait = form.trait(waiting[0])
    return words_question(trait, _possible(form, trait, noted), _shown(form, noted, seen))


def _own_mark(form: Form, noted: Noted, _: Seen) -> Question | None:
    if not form.asks_mark or MARK in noted.settled:
        return None
    return words_question(form.trait(MARK))


def _outcome(form: Form, noted: Noted, _: Seen) -> Question | None:
    if not noted.is_played or OUTCOME in noted.settled:
        return None
    is_disturbed = DISTURBED in noted.settled
    return outcome_question(form.trait("landed"), form.trait(DISTURBED), is_disturbed)


_STEPS = (
    _phase, _purpose, _reach, _direction, _pace, _fact, _height, _fact, _own_mark, _outcome,
)  # fmt: skip


def keys_of(noted: Noted) -> int:
    """Return how many keys the ball has taken, the coach's own mark aside."""
    return sum(MARK not in answer.settles for answer in noted.answers)


def _waiting(form: Form, noted: Noted) -> tuple[str, ...]:
    """Return what decides the grade and can still be asked for by words."""
    return tuple(
        name
        for name in form.decider.waiting(noted.situation, noted.choice)
        if _is_open(form.trait(name), noted)
    )


def _is_open(trait: Trait, noted: Noted) -> bool:
    if trait.folded in noted.settled or trait.derived or not trait.words:
        return False
    return trait.role in (Role.FACT, Role.PART)


def _shown(form: Form, noted: Noted, seen: Seen) -> tuple[tuple[str, Known], ...]:
    """Return as few facts as on the last balls as would decide this one, or come nearest to it."""
    shown: list[tuple[str, Known]] = []
    so_far = noted
    while len(shown) < _MOST_SHOWN:
        name = next(iter(_waiting(form, so_far)), "")
        if name not in seen:
            break
        shown.append((name, seen[name]))
        so_far = noted.with_answer(_as_before(shown))
    return tuple(shown)


def _as_before(shown: Sequence[tuple[str, Known]]) -> Answer:
    return Answer(settles=tuple(name for name, _ in shown), told=Told(facts=tuple(shown)))


def _possible(form: Form, trait: Trait, noted: Noted) -> tuple[str, ...]:
    known = {**noted.situation.as_dict(), **noted.choice.as_dict()}
    impossible = impossible_in(form.decider.advisor.rules)
    return tuple(word.name for word in possible_words(trait, known, impossible))
