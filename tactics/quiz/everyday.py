"""What an ordinary ball is like: how often each fact is anything else, and what never changes."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from tactics.model.facts import AT_NET, FACING_NET, RALLY, RETURNING, SERVING
from tactics.model.known import Allowed, Known, OneOf, Within
from tactics.model.trait import Trait
from tactics.quiz.plain import Value

PHASES = {SERVING: 12, RETURNING: 15, RALLY: 43, AT_NET: 15, FACING_NET: 15}
"""Game situation -> how often it is drawn where a rule leaves it open."""

WEIGHTS: Mapping[str, Mapping[str, int]] = {
    "balance": {"set": 5, "moving": 4, "stretched": 2, "jammed": 1},
    "opponent movement": {"still": 6, "recovering": 3},
    "opponent hand": {"right": 3, "left": 1},
    "incoming direction": {"crosscourt": 4, "straight": 2, "wide": 2, "T": 2},
    "incoming spin": {"top": 12, "flat": 6, "heavy top": 4, "slice": 5},
    "bounce": {"falling": 12, "rising": 9, "top": 6, "volley": 4},
    "wing": {"forehand": 6, "backhand": 6},
    "time": {"normal": 6, "plenty": 3, "late": 2},
}
"""Fact -> words that come oftener than others (1)."""

_LEFT_ALONE = frozenset(("surface", "wind", "wind strength", "score state"))
"""Facts that stay ordinary unless a rule asks for something else: they would only distract."""
PERSONAL = frozenset(("format", "stage", "level", "stature", "restricted today", "backhand grip",
                       "own hand"))  # fmt: skip
"""Facts that no ball changes: they belong to the player and the game."""
_STATURES_M = {"red": 1.2, "orange": 1.35, "green": 1.5}
_PICTURED = frozenset(("court depth", "court width", "opponent depth", "opponent width"))
"""Facts that show in the picture, and vary even where no rule asks about them."""
_VARIED = frozenset(("balance", "body height", "opponent movement", "incoming depth", "wing"))
"""Facts that everybody looks at; they vary more often than the rest."""
_SELDOM, _SOMETIMES, _OFTEN = 0.02, 0.15, 0.5
"""How often a fact that is not asked about is drawn at all: what stays ordinary goes unsaid."""
_STATURE_M = 1.75

Usual = str | Within | None
"""An ordinary word or band; None where nothing is ordinary."""


@dataclass(frozen=True)
class Everyday:
    """Ordinary balls under one rule set.

    asked: facts that some rule asks about. fixed: facts outside of which it does not apply.
    """

    facts: tuple[Trait, ...]
    asked: frozenset[str]
    fixed: Mapping[str, Allowed]

    @cached_property
    def personal(self) -> dict[str, Value]:
        """Return what belongs to an ordinary player; only a rule that asks for it changes it."""
        usual = {
            trait.folded: _plain(trait.ordinary_value(""))
            for trait in self.facts
            if trait.folded in PERSONAL and trait.folded not in self.fixed
        }
        words: dict[str, Value] = {f: each for f, each in usual.items() if isinstance(each, str)}
        return {**words, "stature": self._stature_m}

    @cached_property
    def _stature_m(self) -> float:
        """Return how tall an ordinary player of the rule set's stage is."""
        stage = self.fixed.get("stage")
        name = next(iter(stage.words)) if isinstance(stage, OneOf) else ""
        return _STATURES_M.get(name, _STATURE_M)

    @cached_property
    def usual(self) -> dict[tuple[str, str], tuple[Usual, float]]:
        """Return (fact, game situation) -> its ordinary value, and how often it is another."""
        return {
            (trait.folded, phase): (_plain(trait.ordinary_value(phase)), self._how_often(trait))
            for trait in self.facts
            for phase in PHASES
        }

    def _how_often(self, trait: Trait) -> float:
        if trait.folded in _PICTURED:
            return 1.0
        if trait.folded not in self.asked or trait.folded in PERSONAL:
            return 0.0
        if trait.own or trait.folded in _LEFT_ALONE:
            return _SELDOM
        return _OFTEN if trait.folded in _VARIED else _SOMETIMES


def _plain(known: Known) -> Usual:
    if isinstance(known, OneOf):
        return next(iter(known.words))
    return known if isinstance(known, Within) else None
