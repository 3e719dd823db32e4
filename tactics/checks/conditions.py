"""The pieces of a condition that a coach can take out one by one."""

from collections.abc import Iterator

from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test
from tactics.source import Span


def conjuncts(condition: Condition | None) -> Iterator[Condition]:
    """Yield the conditions that all have to hold, `all` inside `all` opened."""
    match condition:
        case None:
            return
        case All(inside):
            for each in inside:
                yield from conjuncts(each)
        case _:
            yield condition


def place_in(condition: Condition) -> Span | None:
    """Return where a condition stands in its file, None where it was not read from one."""
    match condition:
        case Test(span=span) | TermTest(span=span):
            return span
        case All(inside) | AnyOf(inside):
            return next((span for each in inside if (span := place_in(each)) is not None), None)
        case Not(each):
            return place_in(each)
