"""All situations and choices that rule sets can tell apart, as literals.

What is written here is worked out from the rules as they were read, on its own: nothing is
taken over from the engine that evaluates them, which confirms every witness afterwards.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from tactics.checks.clauses import NEVER, Clauses
from tactics.checks.relations import needed, relations
from tactics.checks.scale import Scale, scale_for
from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test, tests_in
from tactics.model.known import Allowed
from tactics.model.legality import LEGALITY, Impossible
from tactics.model.names import fold
from tactics.model.rule import RuleSet
from tactics.model.trait import Kind, Role, Trait
from tactics.model.vocabulary import Vocabulary

GAME_SITUATION = "game situation"


@dataclass(slots=True, kw_only=True)
class Space:
    """The scales by folded name, and the literals of what keeps to the laws of the game.

    lines: id of what cannot happen -> the literal that it does not. phases: game situation ->
    literal. reached: literals -> the cells that occur with them, as far as asked before.
    """

    words: Vocabulary
    clauses: Clauses
    scales: dict[str, Scale]
    phases: dict[str, int]
    lines: dict[str, int] = field(default_factory=dict)
    reached: dict[tuple[int, ...], dict[str, frozenset[int]]] = field(default_factory=dict)

    @property
    def legal(self) -> tuple[int, ...]:
        """Return the literals that hold in every situation that can happen."""
        return tuple(self.lines.values())

    def test(self, name: str, allowed: Allowed) -> int:
        """Return the literal that a fact or part lies in a set of values."""
        scale = self.scales[name]
        return scale.literal(scale.cells_of(allowed), self.clauses)

    def cell(self, name: str, cell: int | None) -> int:
        """Return the literal of one cell, or of the fact not existing (None)."""
        scale = self.scales[name]
        return scale.absent if cell is None else scale.literal(frozenset((cell,)), self.clauses)

    def condition(self, condition: Condition, terms: Mapping[str, int]) -> int:
        """Return the literal of a condition, terms by folded name."""
        match condition:
            case Test(name=name, allowed=allowed):
                return self.test(name, allowed)
            case TermTest(term=term, wanted=wanted):
                return terms[fold(term)] if wanted else -terms[fold(term)]
            case All(inside):
                return self.clauses.every(self.condition(each, terms) for each in inside)
            case AnyOf(inside):
                return self.clauses.some(self.condition(each, terms) for each in inside)
            case Not(each):
                return -self.condition(each, terms)


def space_for(rule_sets: Sequence[RuleSet]) -> Space:
    """Return the situations and choices that these rule sets can tell apart together."""
    words = joined_words(rule_sets)
    own = tuple(
        line
        for line in rule_sets[0].cannot_happen
        if all(line in rules.cannot_happen for rules in rule_sets)
    )
    mentioned = _mentioned(rule_sets)
    for name, sets in needed(mentioned).items():
        mentioned.setdefault(name, []).extend(sets)
    lines = tuple(
        line for line in dict.fromkeys((*LEGALITY, *own)) if _names(line.when) <= mentioned.keys()
    )
    for line in lines:
        _note(mentioned, line.when)
    return _built(words, mentioned, lines)


def _built(
    words: Vocabulary, mentioned: dict[str, list[Allowed]], lines: Iterable[Impossible]
) -> Space:
    clauses = Clauses()
    phase = scale_for(words.trait(GAME_SITUATION), (), NEVER, clauses)
    phases = {
        word.name: literal for word, literal in zip(phase.trait.words, phase.literals, strict=True)
    }
    scales = {}
    for trait in words.of_role(Role.FACT, Role.PART):
        if trait.folded == GAME_SITUATION:
            scales[GAME_SITUATION] = phase
        elif trait.folded in mentioned and trait.kind in (Kind.WORDS, Kind.NUMBER):
            absent = clauses.some(phases[name] for name in trait.absent_in if name in phases)
            scales[trait.folded] = scale_for(trait, mentioned[trait.folded], absent, clauses)
    space = Space(words=words, clauses=clauses, scales=scales, phases=phases)
    for line in lines:
        space.lines[line.id] = -space.condition(line.when, {})
    for relation, literal in relations(scales, clauses):
        space.lines[relation.id] = literal
    return space


def joined_words(rule_sets: Sequence[RuleSet]) -> Vocabulary:
    """Return a vocabulary with the own facts of all rule sets, and all words each has anywhere."""
    words = rule_sets[0].vocabulary
    for rules in rule_sets[1:]:
        own = (trait for trait in rules.vocabulary.traits if trait.own)
        words = words.with_own(_widened(trait, words.find(trait.name)) for trait in own)
    return words


def _widened(trait: Trait, other: Trait | None) -> Trait:
    """Return a trait that also has the words or numbers of its namesake in another rule set."""
    if other is None or other.kind is not trait.kind:
        return trait
    if trait.kind is Kind.NUMBER:
        low, high = min(trait.low, other.low), max(trait.high, other.high)
        return replace(trait, low=low, high=high)
    known = {word.name for word in trait.words}
    return replace(
        trait, words=(*trait.words, *(word for word in other.words if word.name not in known))
    )


def _mentioned(rule_sets: Iterable[RuleSet]) -> dict[str, list[Allowed]]:
    """Return every set of values that the rules mention, by fact or part."""
    found: dict[str, list[Allowed]] = {GAME_SITUATION: []}
    for rules in rule_sets:
        for condition in _conditions(rules):
            _note(found, condition)
        for name, allowed in rules.applies_to:
            found.setdefault(name, []).append(allowed)
        for rule in rules.rules:
            for answer in (rule.advice, *rule.alternatives):
                for name, allowed in answer:
                    found.setdefault(name, []).append(allowed)
    return found


def _conditions(rules: RuleSet) -> Iterator[Condition]:
    for term in rules.terms:
        yield term.condition
    for rule in rules.rules:
        yield rule.when
        yield from rule.unless
        if rule.choosing is not None:
            yield rule.choosing


def _note(found: dict[str, list[Allowed]], condition: Condition) -> None:
    for test in tests_in(condition):
        if isinstance(test, Test):
            found.setdefault(test.name, []).append(test.allowed)


def _names(condition: Condition) -> frozenset[str]:
    return frozenset(test.name for test in tests_in(condition) if isinstance(test, Test))
