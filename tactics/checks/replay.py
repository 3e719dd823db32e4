"""The evaluator's own word on a witness: nothing is shown that it does not confirm."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from tactics.checks.witness import Witness
from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor, Matcher
from tactics.engine.combine import Standard, standards, unbeaten
from tactics.engine.coverage import is_covered
from tactics.engine.judge import case_of
from tactics.engine.match import DEPENDS, YES, Truth, infer
from tactics.engine.program import build
from tactics.model.condition import Test, tests_in
from tactics.model.known import NOT_APPLICABLE, Known, OneOf
from tactics.model.legality import LEGALITY
from tactics.model.rule import RuleSet, Term
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Trait
from tactics.source import Span


@dataclass(frozen=True, kw_only=True)
class Replay:
    """What the evaluator says. truths: rule id -> whether its conditions hold."""

    advisor: Advisor
    truths: Mapping[str, Truth]
    terms: Mapping[str, Truth]
    is_covered: bool

    @property
    def is_sure(self) -> bool:
        """Say whether every rule either applies or does not."""
        return DEPENDS not in self.truths.values()

    @cached_property
    def _active(self) -> tuple[int, ...]:
        ready = self.advisor.program.ready
        applying = [place for place, rule in enumerate(ready) if self.applies(rule.rule.id)]
        return unbeaten(self.advisor.program, applying)

    def applies(self, rule_id: str) -> bool:
        """Say whether a rule's conditions hold."""
        return self.is_covered and self.truths[rule_id] is YES

    @cached_property
    def active(self) -> frozenset[str]:
        """Return the ids of the rules that apply and are not beaten."""
        ready = self.advisor.program.ready
        return frozenset(ready[place].rule.id for place in self._active)

    @cached_property
    def standards(self) -> Mapping[str, Standard]:
        """Return what is left of each part."""
        return standards(self.advisor.program, self._active)

    def ids(self, places: tuple[int, ...]) -> frozenset[str]:
        """Return the ids of rules by their numbers."""
        return frozenset(self.advisor.program.ready[place].rule.id for place in places)


def replay(advisor: Advisor, witness: Witness) -> Replay:
    """Return what the evaluator makes of a witness."""
    situation = in_words_of(advisor, witness.situation)
    case = case_of(witness.choice, advise(advisor, situation))
    ready = advisor.program.ready
    return Replay(
        advisor=advisor,
        truths={rule.rule.id: truth for rule, truth in zip(ready, case.truths, strict=True)},
        terms=dict(zip(advisor.program.term_names, case.terms, strict=True)),
        is_covered=is_covered(advisor.rules, situation),
    )


def in_words_of(advisor: Advisor, situation: Situation) -> Situation:
    """Return the situation without facts and words this rule set does not have.

    A word it does not have meets none of its conditions, which is what not existing means.
    """
    kept: dict[str, Known] = {}
    for name, known in situation.facts:
        trait = advisor.vocabulary.find(name)
        if trait is not None:
            kept[name] = _in_words_of(trait, known)
    return Situation.of(kept)


def _in_words_of(trait: Trait, known: Known) -> Known:
    if not isinstance(known, OneOf) or trait.kind is not Kind.WORDS:
        return known
    words = known.words & {word.name for word in trait.words}
    return OneOf(words) if words else NOT_APPLICABLE


def law_of(rules: RuleSet) -> Advisor:
    """Return what cannot happen as terms of a rule set without rules, for `breaks`."""
    terms = tuple(
        Term(name=line.id, means=line.because, condition=line.when, span=line.span or _NOWHERE)
        for line in (*LEGALITY, *rules.cannot_happen)
        if all(
            rules.vocabulary.find(test.name)
            for test in tests_in(line.when)
            if isinstance(test, Test)
        )
    )
    law = replace(rules, rules=(), terms=terms)
    program = build(law)
    return Advisor(rules=law, program=program, engine=Matcher(program))


def breaks(law: Advisor, witness: Witness) -> tuple[str, ...]:
    """Return the ids of what cannot happen, by the evaluator's own account, in a witness.

    A line about something the witness leaves open is not broken by it.
    """
    case = case_of(witness.choice, advise(law, witness.situation))
    truths, _ = infer(law.program, case.leaves)
    names = law.program.term_names
    return tuple(name for name, truth in zip(names, truths, strict=True) if truth is YES)


_NOWHERE = Span(file="", line=1)
