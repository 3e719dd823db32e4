"""What a quiz is asked to hold, and the player's own errors that may come up in it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from tactics.model.scenario import Ask
from tactics.quiz.candidates import Values

NO_ERRORS: Mapping[str, tuple[Values, ...]] = MappingProxyType({})
EVERY_ASK = frozenset(Ask)


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """One quiz. rules: ids in order, gone through again where there are fewer than `count`.

    hand: "right" or "left". errors: rule id -> broken choices of the player, part by part.
    """

    seed: str
    rules: tuple[str, ...] = ()
    count: int = 10
    asks: frozenset[Ask] = EVERY_ASK
    hand: str = "right"
    errors: Mapping[str, tuple[Values, ...]] = field(default_factory=lambda: NO_ERRORS)
