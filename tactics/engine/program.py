"""A rule set made ready: conditions over numbered tests, advice as sets of cells.

Everything that evaluates rules - the matcher, durable-rules, whole charts at once - reads this.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tactics.engine.cells import Grid, grid_for
from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test, tests_in
from tactics.model.known import Allowed
from tactics.model.names import fold
from tactics.model.rule import Answer, Rule, RuleSet, Strength, Term


@dataclass(frozen=True, slots=True)
class Leaf:
    """Test number `index` of the program."""

    index: int


@dataclass(frozen=True, slots=True)
class Flag:
    """Term number `index` of the program."""

    index: int


@dataclass(frozen=True, slots=True)
class Every:
    """All inside hold."""

    inside: tuple["Node", ...]


@dataclass(frozen=True, slots=True)
class Some:
    """At least one inside holds."""

    inside: tuple["Node", ...]


@dataclass(frozen=True, slots=True)
class Opposite:
    """The one inside does not hold."""

    inside: "Node"


Node = Leaf | Flag | Every | Some | Opposite


@dataclass(frozen=True, slots=True)
class LeafTest:
    """A fact or part lies in a set of cells."""

    name: str
    mask: int


Cells = tuple[tuple[str, int], ...]
"""Part -> the cells asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyRule:
    """A rule with its conditions and advice on cells. rank 0 is the concern that decides first.

    options: whole answers that are acceptable: its alternatives, and a may rule's own advice.
    """

    rule: Rule
    rank: int
    when: Node
    unless: Node
    choosing: Node
    advice: Cells
    options: tuple[Cells, ...]
    beats: frozenset[int]

    @property
    def is_option_only(self) -> bool:
        """Say whether the rule sets no standard."""
        return self.rule.strength is Strength.MAY


@dataclass(frozen=True, kw_only=True)
class Program:
    """Numbered tests, terms in an order in which each uses only earlier ones, and rules by id.

    beating_order: rule numbers so that whoever beats a rule comes before it.
    """

    rules: RuleSet
    grid: Grid
    leaves: tuple[LeafTest, ...]
    term_names: tuple[str, ...]
    terms: tuple[Node, ...]
    ready: tuple[ReadyRule, ...]
    beating_order: tuple[int, ...]


class _Numbering:
    """Hands out one number for each different test."""

    def __init__(self, grid: Grid, terms: dict[str, int]) -> None:
        self.grid, self.terms = grid, terms
        self.leaves: dict[LeafTest, int] = {}

    def node(self, condition: Condition) -> Node:
        """Return the numbered form of a condition."""
        match condition:
            case Test(name=name, allowed=allowed):
                test = LeafTest(name, self.grid.mask(name, allowed))
                return Leaf(self.leaves.setdefault(test, len(self.leaves)))
            case TermTest(term=term, wanted=wanted):
                flag = Flag(self.terms[fold(term)])
                return flag if wanted else Opposite(flag)
            case All(inside):
                return Every(tuple(self.node(each) for each in inside))
            case AnyOf(inside):
                return Some(tuple(self.node(each) for each in inside))
            case Not(each):
                return Opposite(self.node(each))

    def cells(self, answer: Answer) -> Cells:
        """Return an answer with its values as sets of cells."""
        return tuple((part, self.grid.mask(part, allowed)) for part, allowed in answer)


def build(rules: RuleSet) -> Program:
    """Return the program of a rule set; the order of its rules and terms does not matter."""
    grid = grid_for(rules.vocabulary, _mentioned(rules))
    terms = _in_order(rules.terms)
    numbering = _Numbering(grid, {fold(term.name): i for i, term in enumerate(terms)})
    ordered = sorted(rules.rules, key=lambda rule: rule.id)
    places = {rule.id: place for place, rule in enumerate(ordered)}
    nodes = tuple(numbering.node(term.condition) for term in terms)
    ready = tuple(_ready(rule, rules, numbering, places) for rule in ordered)
    return Program(
        rules=rules,
        grid=grid,
        leaves=tuple(numbering.leaves),
        term_names=tuple(term.name for term in terms),
        terms=nodes,
        ready=ready,
        beating_order=_beating_order(ready),
    )


def _ready(rule: Rule, rules: RuleSet, numbering: _Numbering, places: dict[str, int]) -> ReadyRule:
    own = (rule.advice,) if rule.strength is Strength.MAY else ()
    return ReadyRule(
        rule=rule,
        rank=rules.rank(rule.concern),
        when=numbering.node(rule.when),
        unless=Some(tuple(numbering.node(each) for each in rule.unless)),
        choosing=Every(()) if rule.choosing is None else numbering.node(rule.choosing),
        advice=numbering.cells(rule.advice),
        options=tuple(numbering.cells(answer) for answer in (*own, *rule.alternatives)),
        beats=frozenset(places[beaten] for beaten in rule.beats if beaten in places),
    )


def _mentioned(rules: RuleSet) -> dict[str, list[Allowed]]:
    """Return every set of values the rule set mentions, by fact or part."""
    found: dict[str, list[Allowed]] = {}
    for condition in _conditions(rules):
        for test in tests_in(condition):
            if isinstance(test, Test):
                found.setdefault(test.name, []).append(test.allowed)
    for rule in rules.rules:
        for answer in (rule.advice, *rule.alternatives):
            for part, allowed in answer:
                found.setdefault(part, []).append(allowed)
    return found


def _conditions(rules: RuleSet) -> Iterator[Condition]:
    for term in rules.terms:
        yield term.condition
    for rule in rules.rules:
        yield rule.when
        yield from rule.unless
        if rule.choosing is not None:
            yield rule.choosing


def _in_order(terms: Iterable[Term]) -> tuple[Term, ...]:
    """Return the terms so that each uses only earlier ones; the reader has refused circles."""
    by_name = {fold(term.name): term for term in terms}
    done: dict[str, Term] = {}

    def visit(name: str) -> None:
        if name in done:
            return
        for test in tests_in(by_name[name].condition):
            if isinstance(test, TermTest):
                visit(fold(test.term))
        done[name] = by_name[name]

    for name in sorted(by_name):
        visit(name)
    return tuple(done.values())


def _beating_order(ready: tuple[ReadyRule, ...]) -> tuple[int, ...]:
    """Return rule numbers so that whoever beats a rule comes before it."""
    beaters: dict[int, list[int]] = {place: [] for place in range(len(ready))}
    for place, rule in enumerate(ready):
        for beaten in rule.beats:
            beaters[beaten].append(place)
    order: dict[int, None] = {}

    def visit(place: int) -> None:
        for beater in beaters[place]:
            if beater not in order:
                visit(beater)
        order.setdefault(place)

    for place in range(len(ready)):
        visit(place)
    return tuple(order)


def leaves_in(node: Node) -> Iterator[int]:
    """Yield the numbers of the tests that a node asks itself (terms not opened)."""
    match node:
        case Leaf(index):
            yield index
        case Flag():
            pass
        case Every(inside) | Some(inside):
            for each in inside:
                yield from leaves_in(each)
        case Opposite(each):
            yield from leaves_in(each)


def flags_in(node: Node) -> Iterator[int]:
    """Yield the numbers of the terms that a node asks."""
    match node:
        case Flag(index):
            yield index
        case Leaf():
            pass
        case Every(inside) | Some(inside):
            for each in inside:
                yield from flags_in(each)
        case Opposite(each):
            yield from flags_in(each)
