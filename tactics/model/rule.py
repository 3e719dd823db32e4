"""Rules and the set they form."""

from dataclasses import dataclass, field
from enum import StrEnum

from tactics.model.choice import Choice
from tactics.model.condition import ALWAYS, Condition
from tactics.model.known import Allowed
from tactics.model.legality import Impossible
from tactics.model.mix_rule import MixRule
from tactics.model.situation import Situation
from tactics.model.verdict import Grade
from tactics.model.vocabulary import Vocabulary
from tactics.source import Span


class Strength(StrEnum):
    """How firmly a rule speaks: breaking a must is unsound, a should doubtful; may is an option."""

    MUST = "must"
    SHOULD = "should"
    MAY = "may"


Answer = tuple[tuple[str, Allowed], ...]
"""Part (folded name) -> the values asked for, in the order written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A named situation that rules (and other terms) can use."""

    name: str
    means: str
    condition: Condition
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """A situation and a choice in a rule, with the grade the whole set has to give it.

    Facts the example leaves open take the rule's own conditions, then an ordinary ball.
    """

    given: Situation
    choose: Choice
    grade: Grade
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule. `span` is the place of its id; `spans` the places of its keys.

    unless: exceptions, any of which silences the rule.
    choosing: speaks only about choices like this (None: about every choice).
    advice is graded; aim is shown and never graded; alternatives are whole other answers.
    """

    id: str
    title: str
    concern: str
    strength: Strength
    when: Condition = ALWAYS
    unless: tuple[Condition, ...] = ()
    choosing: Condition | None = None
    advice: Answer = ()
    aim: Answer = ()
    alternatives: tuple[Answer, ...] = ()
    beats: tuple[str, ...] = ()
    because: str = ""
    cue: str = ""
    usual_mistake: Answer = ()
    drills: tuple[str, ...] = ()
    evidence: str = ""
    note: str = ""
    author: str = field(default="", compare=False)
    examples: tuple[Example, ...] = field(default=(), compare=False)
    span: Span = field(compare=False)
    spans: tuple[tuple[str, Span], ...] = field(default=(), compare=False)

    def place_of(self, key: str) -> Span:
        """Return the place of one of the rule's keys, or of its id."""
        return dict(self.spans).get(key, self.span)


@dataclass(frozen=True, kw_only=True)
class RuleSet:
    """Rules that were written together, with the words they use.

    applies_to: facts outside of which a ball is not covered.
    precedence: concerns from the one that decides first to the one that decides last.
    cannot_happen: what the author says never comes together, beside what the game rules out.
    always_says: parts (folded) that the author wants spoken about in every situation.
    own_facts: the facts (folded) that its files bring along, and where.
    """

    name: str
    author: str = ""
    applies_to: tuple[tuple[str, Allowed], ...] = ()
    precedence: tuple[str, ...]
    terms: tuple[Term, ...] = ()
    rules: tuple[Rule, ...] = ()
    mixes: tuple[MixRule, ...] = ()
    cannot_happen: tuple[Impossible, ...] = ()
    always_says: tuple[str, ...] = ()
    own_facts: tuple[tuple[str, Span], ...] = field(default=(), compare=False)
    vocabulary: Vocabulary
    span: Span = field(compare=False)

    def rule(self, rule_id: str) -> Rule:
        """Return the rule of that id; StopIteration is a bug."""
        return next(rule for rule in self.rules if rule.id == rule_id)

    def rank(self, concern: str) -> int:
        """Return the place of a concern in the precedence; 0 decides first."""
        return self.precedence.index(concern)
