"""What a rule asks of a situation (or, after `if choosing`, of a choice)."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from tactics.model.known import Allowed
from tactics.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """The fact (or part) `name` lies in the allowed set. `text` is what the coach wrote."""

    name: str
    allowed: Allowed
    text: str = field(default="", compare=False)
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class TermTest:
    """The term holds (or, with `wanted` false, does not)."""

    term: str
    wanted: bool = True
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class All:
    """Every one holds; with none inside it always holds."""

    inside: tuple["Condition", ...] = ()


@dataclass(frozen=True, slots=True)
class AnyOf:
    """At least one holds; with none inside it never holds."""

    inside: tuple["Condition", ...] = ()


@dataclass(frozen=True, slots=True)
class Not:
    """The one inside does not hold."""

    inside: "Condition"


Condition = Test | TermTest | All | AnyOf | Not
ALWAYS = All()
NEVER = AnyOf()


def tests_in(condition: Condition) -> Iterator[Test | TermTest]:
    """Yield every test in a condition, in reading order."""
    match condition:
        case Test() | TermTest():
            yield condition
        case All(inside) | AnyOf(inside):
            for each in inside:
                yield from tests_in(each)
        case Not(each):
            yield from tests_in(each)


def names_in(conditions: Iterable[Condition]) -> set[str]:
    """Return the names of all facts, parts and terms that conditions test."""
    return {
        test.term if isinstance(test, TermTest) else test.name
        for condition in conditions
        for test in tests_in(condition)
    }
