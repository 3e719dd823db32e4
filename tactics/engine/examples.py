"""The examples in rules, run: each is a small test its author gets for nothing."""

from collections.abc import Mapping
from dataclasses import dataclass

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.coverage import as_covered
from tactics.engine.judge import judge
from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test
from tactics.model.known import Allowed, Known, OneOf, Within, merged, word
from tactics.model.names import fold
from tactics.model.rule import Example, Rule, RuleSet
from tactics.model.situation import Situation
from tactics.model.trait import Trait
from tactics.model.verdict import Verdict
from tactics.model.vocabulary import Vocabulary

_HEIGHTS = frozenset(("contact height", "body height"))


@dataclass(frozen=True, slots=True, kw_only=True)
class RanExample:
    """An example, the situation it stands for, and the verdict the rule set gave."""

    rule: Rule
    example: Example
    situation: Situation
    verdict: Verdict

    @property
    def holds(self) -> bool:
        """Say whether the rule set gives the grade the example asks for."""
        return self.verdict.grade is self.example.grade


def run_examples(advisor: Advisor) -> tuple[RanExample, ...]:
    """Return every example of a rule set with its verdict, in the order of the rules."""
    return tuple(
        run_example(advisor, rule, example)
        for rule in advisor.rules.rules
        for example in rule.examples
    )


def run_example(advisor: Advisor, rule: Rule, example: Example) -> RanExample:
    """Return one example with its verdict."""
    situation = situation_of(advisor.rules, rule, example)
    verdict = judge(example.choose, advise(advisor, situation))
    return RanExample(rule=rule, example=example, situation=situation, verdict=verdict)


def situation_of(rules: RuleSet, rule: Rule, example: Example) -> Situation:
    """Return the whole situation of an example.

    What it gives comes first, then what the rule's own `when` asks, then an ordinary ball.
    """
    given = example.given.as_dict()
    asked = _assumed(rule.when, {fold(t.name): t.condition for t in rules.terms})
    phase = _phase_of({**asked, **given}, rules.vocabulary)
    kept = {
        fact: _as_ordinary(known, rules.vocabulary.trait(fact), phase)
        for fact, known in asked.items()
    }
    return ordinary_ball(rules, as_covered(rules, Situation.of({**kept, **given})))


def _as_ordinary(asked: Known, trait: Trait, phase: str) -> Known:
    """Return what is ordinary among the values a condition asks for, else its first word."""
    usual = trait.ordinary_value(phase)
    if isinstance(asked, OneOf):
        if isinstance(usual, OneOf) and usual.words <= asked.words:
            return usual
        return word(next(each.name for each in trait.words if each.name in asked.words))
    bands = [usual, *(Within((each.interval,)) for each in trait.words)]
    return next((band for band in bands if _lies_in(band, asked)), asked)


def _lies_in(band: Known, asked: Known) -> bool:
    if not isinstance(band, Within) or not isinstance(asked, Within):
        return False
    return merged((*band.intervals, *asked.intervals)) == merged(asked.intervals)


def _phase_of(known: Mapping[str, Known], words: Vocabulary) -> str:
    """Return the game situation of an example, the ordinary one where several are possible."""
    phase = known.get("game situation")
    trait = words.trait("game situation")
    if not isinstance(phase, OneOf) or trait.ordinary in phase.words:
        return trait.ordinary
    return next(each.name for each in trait.words if each.name in phase.words)


def ordinary_ball(rules: RuleSet, situation: Situation) -> Situation:
    """Return the situation with every fact left open taken from an everyday ball.

    Facts that follow from others are not filled in; a fact listed as not seen stays so.
    """
    known = situation.as_dict()
    name = _phase_of(known, rules.vocabulary)
    given_heights = _HEIGHTS & known.keys()
    for trait in rules.vocabulary.facts:
        if trait.folded in known or trait.derived or name in trait.absent_in:
            continue
        if trait.folded in _HEIGHTS and given_heights:
            continue  # follows from the other height and the stature
        known[trait.folded] = trait.ordinary_value(name)
    return Situation.of(known)


def _assumed(condition: Condition, terms: dict[str, Condition]) -> dict[str, Known]:
    """Return the facts that make a condition hold: all of `all`, the first of `any`."""
    match condition:
        case Test(name=name, allowed=allowed):
            return _as_known(name, allowed)
        case TermTest(term=term, wanted=True):
            return _assumed(terms[fold(term)], terms)
        case All(inside):
            facts: dict[str, Known] = {}
            for each in inside:
                facts = {**_assumed(each, terms), **facts}
            return facts
        case AnyOf(inside) if inside:
            return _assumed(inside[0], terms)
        case Not() | TermTest() | AnyOf():
            return {}


def _as_known(name: str, allowed: Allowed) -> dict[str, Known]:
    return {name: allowed} if isinstance(allowed, OneOf | Within) else {}
