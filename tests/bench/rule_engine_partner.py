"""The same conditions as expressions of the PyPI library `rule-engine`, for comparison of speed.

It knows yes and no only, so a situation and a choice are made exact first.
"""

from collections.abc import Iterator, Mapping
from math import inf

import rule_engine  # type: ignore[import-untyped]  # it ships no types

from tactics.engine.cells import Axis, cells_of
from tactics.engine.program import Every, Flag, Leaf, LeafTest, Node, Opposite, Program, Some
from tactics.model.known import Interval, OneOf

Value = str | float | bool | None
"""A word, a number, whether a term holds, or that the fact does not apply or was not charted."""


def exact_values(program: Program, masks: Mapping[str, int]) -> dict[str, Value]:
    """Return an exact value for every fact and part: one from the lowest possible cell.

    masks: fact or part -> possible cells, as in `Advice.masks` and `Case.masks`.
    """
    return {
        _symbol(name): _value(axis, cells_of(masks[name])[0])
        for name, axis in program.grid.axes.items()
        if name in masks
    }


def _value(axis: Axis, cell: int) -> Value:
    if cell == axis.absent:
        return None
    allowed = axis.allowed_of(cell)
    if isinstance(allowed, OneOf):
        return next(iter(allowed.words))
    low, high = allowed.intervals[0].low[0], allowed.intervals[0].high[0]
    if low == -inf or high == inf:
        return low + 1.0 if low > -inf else high - 1.0 if high < inf else 0.0
    return (low + high) / 2


class RuleEnginePartner:
    """Every term and rule of a program as one expression each."""

    def __init__(self, program: Program) -> None:
        writer = _Writer(program)
        self._terms = [
            (_term_symbol(place), rule_engine.Rule(writer.text(node), context=_context()))
            for place, node in enumerate(program.terms)
        ]
        self._rules = [
            rule_engine.Rule(
                writer.text(Every((rule.when, Opposite(rule.unless), rule.choosing))),
                context=_context(),
            )
            for rule in program.ready
        ]

    def applying(self, values: Mapping[str, Value]) -> list[bool]:
        """Say of every rule, in the program's order, whether it applies to these exact values."""
        thing = dict(values)
        for symbol, term in self._terms:
            thing[symbol] = term.matches(thing)
        return [rule.matches(thing) for rule in self._rules]


def _context() -> rule_engine.Context:
    return rule_engine.Context(default_value=None)


def _symbol(name: str) -> str:
    return "f_" + "".join(letter if letter.isalnum() else "_" for letter in name)


def _term_symbol(place: int) -> str:
    return f"term_{place}"


class _Writer:
    def __init__(self, program: Program) -> None:
        self._program = program

    def text(self, node: Node) -> str:
        """Return a condition as an expression."""
        match node:
            case Leaf(index):
                return self._test(self._program.leaves[index])
            case Flag(index):
                return _term_symbol(index)
            case Every(inside):
                return _joined(" and ", map(self.text, inside), "true")
            case Some(inside):
                return _joined(" or ", map(self.text, inside), "false")
            case Opposite(each):
                return f"not ({self.text(each)})"

    def _test(self, test: LeafTest) -> str:
        axis, symbol = self._program.grid.axes[test.name], _symbol(test.name)
        if not test.mask & axis.everything:
            return "false"
        if test.mask & axis.everything == axis.everything:
            return f"{symbol} != null"
        allowed = axis.allowed_of(test.mask)
        if isinstance(allowed, OneOf):
            return f"{symbol} in [{', '.join(map(_quoted, sorted(allowed.words)))}]"
        ranges = _joined(" or ", (_range(axis, symbol, each) for each in allowed.intervals), "")
        return f"({symbol} != null and {ranges})"


def _range(axis: Axis, symbol: str, interval: Interval) -> str:
    return _joined(" and ", _bounds(axis, symbol, interval), "true")


def _bounds(axis: Axis, symbol: str, interval: Interval) -> Iterator[str]:
    """Yield the comparisons of a range; the ends of all that can occur need none."""
    (low, above), (high, up_to) = interval.low, interval.high
    if interval.low != axis.cuts[0]:
        yield f"{symbol} {'>' if above else '>='} {low!r}"
    if interval.high != axis.cuts[-1]:
        yield f"{symbol} {'<=' if up_to else '<'} {high!r}"


def _joined(operator: str, texts: Iterator[str], empty: str) -> str:
    found = [*texts]
    return f"({operator.join(found)})" if found else empty


def _quoted(word: str) -> str:
    return f'"{word}"'
