"""Ordinary balls, drawn fact by fact, and balls pushed into what a rule asks for."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from random import Random

from tactics.engine.advisor import Advisor
from tactics.engine.cells import Axis, axis_for
from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test
from tactics.model.facts import RETURNING
from tactics.model.known import Allowed, Interval, Known, OneOf, Within, between
from tactics.model.names import fold
from tactics.model.trait import Kind, Trait
from tactics.quiz.bearings import pace_kmh, take_bearings
from tactics.quiz.everyday import PERSONAL, PHASES, WEIGHTS, Everyday
from tactics.quiz.lawful import Holds, Laws, ready
from tactics.quiz.places import Ruler
from tactics.quiz.plain import Value, is_in

GAME_SITUATION = "game situation"
_DERIVED = frozenset(("hands", "contact height", "incoming pace"))
MOVES_WITH: Mapping[str, tuple[str, ...]] = {
    "court depth": ("incoming pace",),
    "opponent depth": ("incoming pace",),
    "body height": ("contact height",),
    "stature": ("contact height",),
    "incoming time": ("incoming pace",),
    "own hand": ("hands",),
    "opponent hand": ("hands",),
    "bounce": ("incoming depth",),
}
"""Fact -> facts that follow it and are no second change."""
_FINDS_RESTS_ON = frozenset(("own hand", "opponent hand", "serve side", "court width", "wing"))
_REPAIRS, _TRIES = 12, 4
_PACES_KMH = {RETURNING: (75.0, 190.0)}
_RALLY_PACES_KMH = (28.0, 135.0)
_OTHER = {"right": "left", "left": "right"}

Ball = dict[str, Value]


@dataclass(frozen=True)
class Play:
    """Draws balls that a rule set can be asked about. Everything random comes from `rng`."""

    advisor: Advisor

    @cached_property
    def laws(self) -> Laws:
        """Return what can happen."""
        return Laws(self.advisor.rules)

    @cached_property
    def _ready(self) -> dict[int, tuple[Condition, Holds]]:
        return {}

    def holds(self, condition: Condition) -> Holds:
        """Return a condition as a function of a ball."""
        # conditions are asked by identity: comparing whole trees would take longer than asking
        found = self._ready.get(id(condition))
        if found is None:
            found = self._ready[id(condition)] = (condition, ready(condition, self.laws.terms))
        return found[1]

    @cached_property
    def rulers(self) -> dict[str, Ruler]:
        """Return fact -> the numbers that may be drawn for it."""
        axes = self.advisor.program.grid.axes
        return {
            trait.folded: Ruler(_with_bands(axes[trait.folded], self.laws.limits(trait.folded)))
            for trait in self.facts
            if trait.kind is Kind.NUMBER
        }

    @cached_property
    def facts(self) -> tuple[Trait, ...]:
        """Return the facts that are drawn."""
        return tuple(
            trait for trait in self.advisor.vocabulary.facts
            if not trait.derived
            and trait.folded not in _DERIVED
            and (trait.words or trait.kind is Kind.NUMBER)
        )  # fmt: skip

    @cached_property
    def asked(self) -> frozenset[str]:
        """Return the facts that some rule or term asks about."""
        return frozenset(leaf.name for leaf in self.advisor.program.leaves)

    @cached_property
    def traits(self) -> dict[str, Trait]:
        """Return folded name -> fact."""
        return {trait.folded: trait for trait in self.facts}

    @cached_property
    def changeable(self) -> tuple[str, ...]:
        """Return the facts whose change some rule may notice; the game situation stays."""
        program = self.advisor.program
        noticed = self.asked
        if any("finds" in dict(rule.advice) for rule in program.ready):
            noticed |= _FINDS_RESTS_ON
        return tuple(
            trait.folded
            for trait in self.facts
            if trait.folded not in {*self._fixed, *PERSONAL, GAME_SITUATION}
            and {trait.folded, *MOVES_WITH.get(trait.folded, ())} & noticed
        )

    @cached_property
    def judged(self) -> frozenset[str]:
        """Return the facts that a verdict can rest on; the others only show."""
        return self.asked | _FINDS_RESTS_ON | {*self._fixed, GAME_SITUATION, "restricted today"}

    @cached_property
    def _fixed(self) -> dict[str, Allowed]:
        return dict(self.advisor.rules.applies_to)

    @cached_property
    def everyday(self) -> Everyday:
        """Return what an ordinary ball is like."""
        return Everyday(self.facts, self.asked, self._fixed)

    def ball(
        self,
        rng: Random,
        hand: str,
        wanted: tuple[Condition, ...] = (),
        unwanted: tuple[Condition, ...] = (),
        asked: frozenset[str] = frozenset(),
    ) -> Ball | None:
        """Return an allowed ball in which all of `wanted` hold, or None where none was found.

        unwanted: what should not hold, where that can be had. hand: of the player, "right" or
        "left". asked: facts that are always drawn freely.
        """
        locked: set[str] = {"own hand", *self._fixed}
        ball: Ball = {**self.everyday.personal, "own hand": hand}
        for fact, allowed in self._fixed.items():
            ball[fact] = self._pick(fact, allowed, rng)
        for condition in wanted:
            if not self._push(condition, True, ball, locked, rng):
                return None
        self._choose_phase(ball, locked, rng)
        self._fill(ball, asked, rng)
        is_allowed = self._repair(ball, locked, unwanted, rng)
        return ball if is_allowed and self._still(wanted, ball) else None

    def _still(self, wanted: tuple[Condition, ...], ball: Ball) -> bool:
        return all(self.holds(each)(ball) for each in wanted)

    def _choose_phase(self, ball: Ball, locked: set[str], rng: Random) -> None:
        if GAME_SITUATION not in ball:
            possible = [name for name in PHASES if self._suits(name, ball)]
            names = possible or list(PHASES)
            ball[GAME_SITUATION] = rng.choices(names, [PHASES[name] for name in names])[0]
        locked.add(GAME_SITUATION)

    def _suits(self, phase: str, ball: Ball) -> bool:
        words = self.advisor.vocabulary
        if any(phase in words.trait(fact).absent_in for fact in ball):
            return False
        return self.laws.allow_change({**ball, GAME_SITUATION: phase}, GAME_SITUATION)

    def _fill(self, ball: Ball, asked: frozenset[str], rng: Random) -> None:
        """Draw every fact that has no value yet."""
        phase = str(ball[GAME_SITUATION])
        for trait in self.facts:
            if phase in trait.absent_in:
                ball[trait.folded] = None
            elif trait.folded not in ball:
                ball[trait.folded] = self._usual(trait, phase, asked, rng)
        self.derive(ball)

    def derive(self, ball: Ball) -> None:
        """Write the facts that follow from others."""
        share, stature = ball.get("body height"), ball.get("stature")
        if isinstance(share, float) and isinstance(stature, float):
            ball["contact height"] = round(share * stature, 3)
        elif "body height" in ball:
            ball["contact height"] = None
        if ball.get("wind") == "none":
            ball["wind strength"] = 0.0
        if ball.get("bounce") == "volley":
            ball["incoming depth"] = None
        elif ball.get("incoming depth", 0.0) is None and ball.get("bounce") is not None:
            ball["incoming depth"] = 5.0
        if "incoming time" in ball:
            ball["incoming pace"] = pace_kmh(ball)
        if ball.get("own hand") and ball.get("opponent hand"):
            ball["hands"] = "same" if ball["own hand"] == ball["opponent hand"] else "opposite"

    def _fit_time(self, ball: Ball, locked: set[str], rng: Random) -> bool:
        """Give the ball a time that suits its way, unless a rule asks for another."""
        pace, low_high = ball.get("incoming pace"), _PACES_KMH.get(str(ball[GAME_SITUATION]))
        low, high = low_high or _RALLY_PACES_KMH
        if not isinstance(pace, float | int) or low <= pace <= high:
            return True
        if "incoming time" in locked:
            return False
        time_s = ball["incoming time"]
        assert isinstance(time_s, float)
        fitting = Within((between(time_s * pace / high, time_s * pace / low),))
        found = self.rulers["incoming time"].draw_inside(fitting, rng)
        if found is None:
            return False
        ball["incoming time"] = found
        self.derive(ball)
        return True

    def _usual(self, trait: Trait, phase: str, asked: frozenset[str], rng: Random) -> Value:
        usual, often = self.everyday.usual[trait.folded, phase]
        is_free = trait.folded in asked and trait.folded not in PERSONAL
        if usual is None or is_free or (often and rng.random() < often):
            return self._pick(trait.folded, self.laws.possible.get((phase, trait.folded)), rng)
        return usual if isinstance(usual, str) else self._pick(trait.folded, usual, rng)

    def _pick(self, fact: str, allowed: Allowed | Known | None, rng: Random) -> Value:
        """Return a value of a set, of all values where it is None."""
        trait = self.advisor.vocabulary.trait(fact)
        if trait.kind is Kind.NUMBER:
            asked = allowed if isinstance(allowed, Within) else None
            return self.number(fact, asked, rng)
        names = [
            each.name for each in trait.words
            if not isinstance(allowed, OneOf) or each.name in allowed.words
        ]  # fmt: skip
        weights = WEIGHTS.get(fact, {})
        return rng.choices(names, [weights.get(name, 1) for name in names])[0]

    def number(self, fact: str, allowed: Within | None, rng: Random) -> float | None:
        """Return a number of the set, clear of the rule set's limits, or None where none is."""
        found = self.rulers[fact].draw(allowed, rng) if fact in self.rulers else None
        if found is None and allowed is not None:
            low, high = allowed.intervals[0].low[0], allowed.intervals[0].high[0]
            middle = (max(low, -1000.0) + min(high, 1000.0)) / 2
            return round(middle, 2) if is_in(round(middle, 2), allowed) else None
        return None if found is None else float(found)

    def _push(
        self, condition: Condition, want: bool, ball: Ball, locked: set[str], rng: Random
    ) -> bool:
        """Change facts that are not locked so that the condition holds (or does not)."""
        if self.holds(condition)(ball) is want:
            return self._lock(condition, locked)
        match condition:
            case Test(name=name, allowed=allowed):
                return self._push_test(name, allowed, want, ball, locked, rng)
            case TermTest(term=term, wanted=wanted):
                inner = self.laws.terms[fold(term)]
                return self._push(inner, want is wanted, ball, locked, rng)
            case Not(inside):
                return self._push(inside, not want, ball, locked, rng)
            case All(inside) | AnyOf(inside):
                every = isinstance(condition, All) is want
                order = rng.sample(inside, len(inside))
                results = (self._push(each, want, ball, locked, rng) for each in order)
                return all(results) if every else any(results)

    def _lock(self, condition: Condition, locked: set[str]) -> bool:
        """Keep a fact whose value already suits; what holds for other reasons stays free."""
        if isinstance(condition, Test):
            locked.add(condition.name)
        return True

    def _push_test(
        self, name: str, allowed: Allowed, want: bool, ball: Ball, locked: set[str], rng: Random
    ) -> bool:
        trait = self.advisor.vocabulary.trait(name)
        if name == "hands":
            return self._push_hands(allowed, want, ball, locked)
        if name in locked or name in _DERIVED or trait.derived:
            return False
        phase = ball.get(GAME_SITUATION)
        if isinstance(phase, str) and phase in trait.absent_in:
            return not want
        for _ in range(_TRIES):
            value = self._value(trait, allowed, want, rng)
            if value is None or is_in(value, allowed) is not want:
                return False
            if self.laws.allow_change({**ball, name: value}, name):
                break
        ball[name] = value
        locked.add(name)
        if name in ("body height", "stature", "bounce", "incoming time"):
            self.derive(ball)
        return True

    def _push_hands(self, allowed: Allowed, want: bool, ball: Ball, locked: set[str]) -> bool:
        """Give the opponent the hand that makes the two hands the same, or opposite."""
        own = ball["own hand"]
        if "opponent hand" not in locked:
            ball["opponent hand"] = own if is_in("same", allowed) is want else _OTHER[str(own)]
            locked.add("opponent hand")
        self.derive(ball)
        return is_in(ball.get("hands"), allowed) is want

    def _value(self, trait: Trait, allowed: Allowed, want: bool, rng: Random) -> Value:
        if trait.kind is Kind.NUMBER:
            axis = self.advisor.program.grid.axes[trait.folded]
            mask = axis.mask_of(allowed)
            mask = mask & axis.everything if want else axis.everything & ~mask
            asked = axis.allowed_of(mask) if mask else None
            return self.number(trait.folded, asked, rng) if isinstance(asked, Within) else None
        assert isinstance(allowed, OneOf)
        names = [each.name for each in trait.words if (each.name in allowed.words) is want]
        weights = WEIGHTS.get(trait.folded, {})
        return rng.choices(names, [weights.get(n, 1) for n in names])[0] if names else None

    def _repair(
        self, ball: Ball, locked: set[str], unwanted: tuple[Condition, ...], rng: Random
    ) -> bool:
        """Change facts that are not locked until nothing is broken."""
        for _ in range(_REPAIRS):
            take_bearings(ball, locked)
            self.derive(ball)
            if not self._fit_time(ball, locked, rng):
                return False
            broken = [line.when for line in self.laws.broken(ball)]
            silencing = [each for each in unwanted if not broken and self.holds(each)(ball)]
            if not broken and not silencing:
                return True
            line = rng.choice(broken or silencing)
            if not self._push(line, False, ball, locked | PERSONAL, rng):
                return not broken
        return False


def _with_bands(axis: Axis, limits: Iterable[Allowed]) -> Axis:
    """Return an axis that is also cut where the words of its fact change, and at some limits."""
    bands = [Within((word.interval,)) for word in axis.trait.words]
    cells = [Within((Interval(low, high),)) for low, high in pairwise(axis.cuts)]
    return axis_for(axis.trait, [*bands, *cells, *limits])
