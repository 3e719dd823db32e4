"""Hypothesis strategies for whole rule sets, and for situations and choices that concern them.

A rule set keeps to a few facts and parts, so that its rules meet, clash and beat one another.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from string import ascii_lowercase
from typing import TypeVar

from hypothesis import strategies as st

from tactics.model.choice import Choice
from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test, tests_in
from tactics.model.known import NOT_SEEN, Known, OneOf, Within
from tactics.model.rule import Answer, Rule, RuleSet, Strength, Term
from tactics.model.situation import Situation
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary
from tactics.source import Span
from tests.strategies import exact_values, known_values, seen_values, vocabularies

CONCERNS = ("feasibility", "wind", "court position", "style")
TERM_NAMES = ("good ball", "in trouble", "open road", "late call")
DRAWN = Span(file="drawn", line=1)


def rule_id(place: int) -> str:
    """Return an id without digits: rule-aa, rule-ab, ..."""
    first, second = divmod(place, len(ascii_lowercase))
    return f"rule-{ascii_lowercase[first]}{ascii_lowercase[second]}"


Thing = TypeVar("Thing")


@cache
def _upto(most: int) -> st.SearchStrategy[int]:
    return st.integers(0, most)


@cache
def _asked(trait: Trait) -> st.SearchStrategy[Known]:
    return seen_values(trait)


@cache
def _noted_or_not(trait: Trait) -> st.SearchStrategy[Known]:
    return st.one_of(known_values(trait), known_values(trait), st.just(NOT_SEEN))


_STRENGTHS = st.sampled_from(Strength)
_CONCERNS = st.sampled_from(CONCERNS)
_YES_OR_NO = st.booleans()
_VOCABULARIES = vocabularies()


# Strategies are put together from single draws of kept parts: building new ones for every rule
# set takes ten times as long as drawing from them.


def _pick(draw: st.DrawFn, some: Sequence[Thing]) -> Thing:
    return some[draw(_upto(len(some) - 1))]


def draw_condition(
    draw: st.DrawFn, traits: Sequence[Trait], terms: Sequence[str] = (), depth: int = 2
) -> Condition:
    """Draw a condition over these facts (or parts) and terms; `all` and `any` may be empty."""
    kind = draw(_upto(5 if depth else 2))
    if kind <= 1 or (kind == 2 and not terms):
        trait = _pick(draw, traits)
        return Test(name=trait.folded, allowed=_allowed(draw, trait))
    if kind == 2:
        return TermTest(term=_pick(draw, terms), wanted=draw(_YES_OR_NO))
    if kind == 3:
        return Not(draw_condition(draw, traits, terms, depth - 1))
    inside = tuple(draw_condition(draw, traits, terms, depth - 1) for _ in range(draw(_upto(3))))
    return All(inside) if kind == 4 else AnyOf(inside)


def _allowed(draw: st.DrawFn, trait: Trait) -> OneOf | Within:
    known = draw(_asked(trait))
    assert isinstance(known, OneOf | Within)
    return known


def _answer(draw: st.DrawFn, parts: Sequence[Trait]) -> Answer:
    first = draw(_upto(len(parts) - 1))
    more = [part for part in parts[first + 1 :] if draw(_YES_OR_NO)]
    return tuple((part.folded, _allowed(draw, part)) for part in (parts[first], *more))


def _terms(draw: st.DrawFn, facts: Sequence[Trait], most: int) -> tuple[Term, ...]:
    names = TERM_NAMES[: draw(_upto(most))]
    return tuple(
        Term(
            name=name,
            means="drawn",
            condition=draw_condition(draw, facts, names[:place]),
            span=DRAWN,
        )
        for place, name in enumerate(names)
    )


def _rule(
    draw: st.DrawFn,
    place: int,
    facts: Sequence[Trait],
    parts: Sequence[Trait],
    terms: Sequence[str],
) -> Rule:
    beats = {rule_id(draw(_upto(place - 1))) for _ in range(draw(_upto(2))) if place}
    speaks_of_some = draw(_upto(3)) == 3
    return Rule(
        id=rule_id(place),
        title=f"Drawn rule {place}",
        concern=draw(_CONCERNS),
        strength=draw(_STRENGTHS),
        when=draw_condition(draw, facts, terms),
        unless=tuple(draw_condition(draw, facts, terms, 1) for _ in range(draw(_upto(2)))),
        choosing=draw_condition(draw, parts, depth=1) if speaks_of_some else None,
        advice=_answer(draw, parts),
        alternatives=tuple(_answer(draw, parts) for _ in range(draw(_upto(2)))),
        beats=tuple(sorted(beats)),
        because="drawn",
        cue="drawn",
        span=DRAWN,
    )


@st.composite
def rule_sets(
    draw: st.DrawFn,
    words: st.SearchStrategy[Vocabulary] | None = None,
    *,
    most_rules: int = 6,
    most_terms: int = 4,
    most_facts: int = 4,
    most_parts: int = 3,
) -> RuleSet:
    """Draw a rule set over the standard vocabulary and own facts, its rules in any order.

    Terms use terms without a circle, and so do rules that beat rules.
    """
    vocabulary = draw(_VOCABULARIES if words is None else words)
    facts = _some_traits(draw, vocabulary.facts, most_facts)
    parts = _some_traits(draw, vocabulary.parts, most_parts)
    terms = _terms(draw, facts, most_terms)
    names = tuple(term.name for term in terms)
    rules = [
        _rule(draw, place, facts, parts, names) for place in range(1 + draw(_upto(most_rules - 1)))
    ]
    return RuleSet(
        name="drawn",
        precedence=CONCERNS,
        terms=tuple(draw(st.permutations(terms))),
        rules=tuple(draw(st.permutations(rules))),
        vocabulary=vocabulary,
        span=DRAWN,
    )


def _some_traits(draw: st.DrawFn, traits: Sequence[Trait], most: int) -> tuple[Trait, ...]:
    # own facts come last: counting from the end makes the simplest example use them
    at = {len(traits) - 1 - draw(_upto(len(traits) - 1)) for _ in range(1 + draw(_upto(most - 1)))}
    return tuple(traits[place] for place in sorted(at))


def conditions_of(rules: RuleSet) -> Iterator[Condition]:
    """Yield every condition of a rule set."""
    for term in rules.terms:
        yield term.condition
    for rule in rules.rules:
        yield from (rule.when, *rule.unless)
        if rule.choosing is not None:
            yield rule.choosing


def mentioned(rules: RuleSet) -> frozenset[str]:
    """Return the facts and parts that a rule set asks about or advises on."""
    asked = {
        test.name
        for condition in conditions_of(rules)
        for test in tests_in(condition)
        if isinstance(test, Test)
    }
    answered = {
        part
        for rule in rules.rules
        for answer in (rule.advice, *rule.alternatives)
        for part, _ in answer
    }
    return frozenset(asked | answered)


def _noted(draw: st.DrawFn, traits: tuple[Trait, ...], names: frozenset[str]) -> dict[str, Known]:
    noted = {trait.folded: draw(_noted_or_not(trait)) for trait in traits if trait.folded in names}
    return {name: known for name, known in noted.items() if known is not NOT_SEEN}


@st.composite
def situations_for(draw: st.DrawFn, rules: RuleSet) -> Situation:
    """Draw a partial situation of the facts that a rule set mentions, and how the point stands."""
    names = mentioned(rules) | {"game situation", "restricted today"}
    return Situation.of(_noted(draw, rules.vocabulary.facts, names))


@st.composite
def exact_situations_for(draw: st.DrawFn, rules: RuleSet) -> Situation:
    """Draw a situation in which every fact that a rule set mentions is known exactly."""
    names = mentioned(rules) | {"game situation"}
    facts = (trait for trait in rules.vocabulary.facts if trait.folded in names)
    return Situation.of({trait.folded: draw(exact_values(trait)) for trait in facts})


@st.composite
def choices_for(draw: st.DrawFn, rules: RuleSet) -> Choice:
    """Draw a choice of the parts that a rule set mentions, charted exactly, roughly or not."""
    return Choice.of(_noted(draw, rules.vocabulary.parts, mentioned(rules)))


def reordered(rules: RuleSet) -> st.SearchStrategy[RuleSet]:
    """Draw the same rule set with its rules and terms in another order in the file."""
    return st.tuples(st.permutations(rules.rules), st.permutations(rules.terms)).map(
        lambda pair: replace(rules, rules=tuple(pair[0]), terms=tuple(pair[1]))
    )
