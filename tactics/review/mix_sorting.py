"""Which balls a mix rule counts, and on which side of its share each lies.

Conditions mean here what they mean in a rule: the engine's own matcher answers them, with derived
facts, terms and the wing that a ball finds.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import product

import numpy as np

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.columns import Columns, columns_of
from tactics.engine.compile import compile_rules
from tactics.engine.coverage import as_covered
from tactics.engine.derive import FINDS_RESTS_ON, unseen_behind
from tactics.engine.judge import Case, case_of
from tactics.engine.lane_judge import Frame, frame_of
from tactics.engine.lanes import Three, unpacked
from tactics.engine.lanes import holds as lanes_hold
from tactics.engine.match import DEPENDS, NO, YES, Truth, holds
from tactics.engine.open_tests import open_leaves
from tactics.engine.program import Node, Program, flags_in, leaves_in
from tactics.model.ball import Ball
from tactics.model.condition import Condition, Test
from tactics.model.known import NOT_SEEN, OneOf, Within
from tactics.model.mix_rule import MixRule
from tactics.model.rule import Rule, RuleSet, Strength
from tactics.model.trait import Trait
from tactics.source import Span

SHARE, REST = "the share", "the others"


@dataclass(frozen=True, slots=True, kw_only=True)
class SortedBall:
    """Where a ball counts: its group and its place, or what was not charted and keeps it out."""

    group: tuple[str, ...] = ()
    place: str = ""
    missing: tuple[str, ...] = ()


Sorter = Callable[[Ball], tuple[SortedBall | None, ...]]
"""A ball -> for each mix rule where it counts; None where the mix is about other balls."""


_Words = tuple[tuple[str, Node], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ready:
    """A mix rule with its conditions numbered: which balls, each place, each word to tell apart.

    counted: the fact or part each of whose words is a place ("" where a condition says the share).
    """

    of: Node
    counted: str
    places: _Words
    splits: tuple[tuple[str, _Words], ...]

    def names(self, program: Program) -> Iterator[str]:
        """Yield every fact and part that is looked at, through terms as well."""
        groups = (self.places, *(words for _, words in self.splits))
        yield from _names_in((self.of, *(node for some in groups for _, node in some)), program)


def _names_in(nodes: Sequence[Node], program: Program) -> Iterator[str]:
    for node in nodes:
        yield from (program.leaves[index].name for index in leaves_in(node))
        yield from _names_in([program.terms[index] for index in flags_in(node)], program)


def sorter(rules: RuleSet) -> Sorter:
    """Return what sorts the balls of a rule set into its mixes."""
    advisor, ready = _prepared(rules)
    return _by_hand(rules, advisor, ready)


def sort_all(rules: RuleSet, balls: Sequence[Ball]) -> list[tuple[SortedBall | None, ...]]:
    """Return where each ball counts, as `sorter` says; a ball with nothing open on the lanes."""
    if not balls or not rules.mixes:
        return [()] * len(balls)
    advisor, ready = _prepared(rules)
    covered = [as_covered(rules, ball.situation) for ball in balls]
    columns = columns_of(advisor, covered, [ball.choice for ball in balls])
    frame = frame_of(advisor.program, columns)
    by_mix = [_on_lanes(each, frame) for each in ready]
    for place, found in enumerate(by_mix):
        alike = _Alike(advisor.program, ready[place], columns)
        made: dict[tuple[object, ...], SortedBall | None] = {}
        for row in found.open_rows:
            key = alike.key(row, balls[row])
            if key not in made:
                made[key] = _sorted(ready[place], _case(rules, advisor, balls[row]), balls[row])
            found.by_hand[row] = made[key]
    return [tuple(found.at(row) for found in by_mix) for row in range(len(balls))]


class _Alike:
    """Tells balls apart by what a mix can see of them, so that alike ones are sorted once."""

    def __init__(self, program: Program, ready: "_Ready", columns: Columns) -> None:
        names = set(ready.names(program))
        # which facts are named as missing behind these two hangs on the facts themselves
        self._behind = sorted(FINDS_RESTS_ON) if names & {"finds", "hands"} else []
        seen = sorted(names | {"direction", *self._behind})
        self._codes = np.array([columns.by_name[name].codes for name in seen]).T.copy()

    def key(self, row: int, ball: Ball) -> tuple[object, ...]:
        """Return what balls alike have in common; what was not seen itself is part of it."""
        unseen = tuple(ball.situation.get(name) is NOT_SEEN for name in self._behind)
        return (self._codes[row].tobytes(), *unseen)


@dataclass(frozen=True, slots=True)
class _Lanes:
    """Where the balls of one mix count: a code for each ball, -1 where it is about others.

    open_rows: balls the lanes leave open, to be sorted one by one into `by_hand`.
    """

    codes: list[int]
    kinds: tuple[SortedBall, ...]
    open_rows: list[int]
    by_hand: dict[int, SortedBall | None] = field(default_factory=dict)

    def at(self, row: int) -> SortedBall | None:
        """Return where one ball counts."""
        if row in self.by_hand:
            return self.by_hand[row]
        code = self.codes[row]
        return None if code < 0 else self.kinds[code]


def _on_lanes(ready: "_Ready", frame: Frame) -> _Lanes:
    count, truths = frame.columns.count, frame.truths

    def three(node: Node) -> Three:
        return lanes_hold(node, truths.full, truths.leaves, list(truths.terms))

    def words(some: _Words) -> list[tuple[str, int]]:
        return [(name, three(node).sure) for name, node in some]

    of = three(ready.of)
    places = words(ready.places)
    if not ready.counted:
        places.append((REST, truths.full & ~three(ready.places[0][1]).possible))
    kinds: list[SortedBall] = []
    codes = np.full(count, -1)
    settled = truths.full & ~of.possible
    for (place, at), *group in product(places, *(words(some) for _, some in ready.splits)):
        lanes = of.sure & at & ~settled
        for _, each in group:
            lanes &= each
        if lanes:
            codes[unpacked(lanes, count)] = len(kinds)
            kinds.append(SortedBall(group=tuple(name for name, _ in group), place=place))
            settled |= lanes
    open_rows = np.flatnonzero(unpacked(truths.full & ~settled, count))
    return _Lanes(codes.tolist(), tuple(kinds), open_rows.tolist())


def _prepared(rules: RuleSet) -> "tuple[Advisor, tuple[_Ready, ...]]":
    asked = tuple(_Asked(rules, mix) for mix in rules.mixes)
    conditions = [condition for each in asked for condition in each.conditions()]
    questions = tuple(_question(place, each) for place, each in enumerate(conditions))
    advisor = compile_rules(replace(rules, precedence=("",), rules=questions), engine="matcher")
    nodes = {int(ready.rule.id): ready.choosing for ready in advisor.program.ready}
    numbered = iter([nodes[place] for place in range(len(conditions))])
    return advisor, tuple(each.numbered(numbered) for each in asked)


def _by_hand(rules: RuleSet, advisor: Advisor, ready: "tuple[_Ready, ...]") -> Sorter:
    def sort(ball: Ball) -> tuple[SortedBall | None, ...]:
        case = _case(rules, advisor, ball)
        return tuple(_sorted(each, case, ball) for each in ready)

    return sort


def _case(rules: RuleSet, advisor: Advisor, ball: Ball) -> Case:
    return case_of(ball.choice, advise(advisor, as_covered(rules, ball.situation)))


@dataclass(frozen=True, slots=True)
class _Asked:
    """The conditions of a mix rule, in one order."""

    rules: RuleSet
    mix: MixRule

    def conditions(self) -> Iterator[Condition]:
        yield self.mix.of
        if self.mix.any_one:
            yield from (test for _, test in self._words(self.mix.any_one))
        else:
            yield self.mix.share
        for name in self.mix.for_each:
            yield from (test for _, test in self._words(name))

    def numbered(self, nodes: Iterator[Node]) -> _Ready:
        """Return the mix with the next numbered conditions in place of its own."""
        of = next(nodes)
        names = [name for name, _ in self._words(self.mix.any_one)] if self.mix.any_one else [SHARE]
        places = tuple((name, next(nodes)) for name in names)
        splits = tuple(
            (fact, tuple((name, next(nodes)) for name, _ in self._words(fact)))
            for fact in self.mix.for_each
        )
        return _Ready(of=of, counted=self.mix.any_one, places=places, splits=splits)

    def _words(self, name: str) -> tuple[tuple[str, Condition], ...]:
        trait = self.rules.vocabulary.trait(name)
        return tuple((word.name, _is_word(trait, word.name)) for word in trait.words)


def _is_word(trait: Trait, name: str) -> Test:
    value = trait.value_of(name)
    if not isinstance(value, OneOf | Within):
        raise TypeError(f"{name} is no word of {trait.name}")
    return Test(name=trait.folded, allowed=value)


def _question(place: int, condition: Condition) -> Rule:
    """Return a rule that asks one condition about situation and choice alike."""
    return Rule(
        id=str(place),
        title="",
        concern="",
        strength=Strength.MAY,
        choosing=condition,
        span=Span(file="", line=1),
    )


def _sorted(ready: _Ready, case: Case, ball: Ball) -> SortedBall | None:
    counts = _truth(ready.of, case)
    if counts is NO:
        return None
    missing = _open_in(ready.of, case, ball) if counts is DEPENDS else []
    group = tuple(_word_of(words, case) for _, words in ready.splits)
    place = _place(ready, case)
    for (fact, words), word in zip(ready.splits, group, strict=True):
        missing += [] if word else _open_in(words[0][1], case, ball) or [fact]
    if not place:
        open_facts = [fact for _, node in ready.places for fact in _open_in(node, case, ball)]
        missing += open_facts or [ready.counted]
    if missing:
        return SortedBall(missing=tuple(dict.fromkeys(missing)))
    return SortedBall(group=group, place=place)


def _word_of(words: _Words, case: Case) -> str:
    """Return the word that surely holds, or nothing."""
    return next((name for name, node in words if _truth(node, case) is YES), "")


def _place(ready: _Ready, case: Case) -> str:
    """Return the place of a ball, or nothing where it is open."""
    is_rest = not ready.counted and _truth(ready.places[0][1], case) is NO
    return REST if is_rest else _word_of(ready.places, case)


def _truth(node: Node, case: Case) -> Truth:
    return holds(node, case.leaves, case.terms)


def _open_in(node: Node, case: Case, ball: Ball) -> list[str]:
    """Return what was not charted and keeps a condition open; for a derived fact what is behind."""
    program: Program = case.program
    behind = unseen_behind(ball.choice, ball.situation)
    if ball.choice.get("direction") is NOT_SEEN:
        behind["finds"] = ("direction",)
    names: list[str] = []
    for index in open_leaves(program, node, case.leaves, case.terms):
        name = program.leaves[index].name
        names += behind.get(name, (name,))
    return names
