"""Which parts of the choice a question varies, and which it gives beforehand."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from random import Random

from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test
from tactics.model.facts import AT_NET, RALLY, SERVING
from tactics.model.known import Allowed, OneOf, Within, at_least
from tactics.model.rule import Rule
from tactics.model.scenario import Ask
from tactics.quiz.shots import Wanted, in_metres, scatter_m

PART_ORDER = (
    "stroke", "intent", "spin", "direction", "depth", "height over net", "inside line", "pace",
    "afterwards", "stance", "response",
)  # fmt: skip
"""The order in which the parts of an option are said."""

_SHOT_PARTS = frozenset(PART_ORDER[:8])
_MOST_PARTS = 3
_WEIGHTS = {
    Ask.SHOT: 5, Ask.SERVE: 5, Ask.AIM: 3, Ask.HEIGHT: 6, Ask.NAME: 3, Ask.AFTER: 3, Ask.PLAY_ON: 3,
}  # fmt: skip
_STROKE_NEEDS: Mapping[str, tuple[Condition, ...]] = {
    "volley": (Test(name="bounce", allowed=OneOf(frozenset(("volley",)))),),
    "half volley": (Test(name="bounce", allowed=OneOf(frozenset(("half volley",)))),),
    "smash": (
        Test(name="wing", allowed=OneOf(frozenset(("overhead",)))),
        Test(name="body height", allowed=Within((at_least(0.98),))),
        Test(name="game situation", allowed=OneOf(frozenset((AT_NET, RALLY)))),
    ),
}
"""What a ball has to be like for a stroke to be the natural one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """A pattern of options. parts: what varies, as said. context: parts given beforehand."""

    ask: Ask
    parts: tuple[str, ...]
    context: tuple[tuple[str, Allowed], ...] = ()


@dataclass(frozen=True)
class RuleAsks:
    """What can be asked about one rule."""

    rule: Rule

    @property
    def graded(self) -> frozenset[str]:
        """Return the parts the rule grades; what a ball finds is chosen by its direction."""
        return frozenset("direction" if part == "finds" else part for part, _ in self.rule.advice)

    @property
    def chosen(self) -> dict[str, Allowed]:
        """Return what a choice has to be like for the rule to speak about it."""
        return {} if self.rule.choosing is None else assumed(self.rule.choosing)

    @property
    def context(self) -> tuple[tuple[str, Allowed], ...]:
        """Return the parts of such a choice that are no part of the answer."""
        return tuple(pair for pair in self.chosen.items() if pair[0] not in self.graded)

    @property
    def needs(self) -> tuple[Condition, ...]:
        """Return what the ball has to be like for the strokes that the rule speaks about."""
        stroke = self.chosen.get("stroke")
        if not isinstance(stroke, OneOf):
            return ()
        return next((needs for name, needs in _STROKE_NEEDS.items() if name in stroke.words), ())

    @property
    def kinds(self) -> frozenset[Ask]:
        """Return the kinds of question that may be asked about the rule in some situation."""
        found = set()
        if self.graded & {"afterwards", "stance"}:
            found.add(Ask.AFTER)
        if "response" in self.graded:
            found.add(Ask.PLAY_ON)
        if self.graded & _SHOT_PARTS:
            found |= {Ask.SHOT, Ask.NAME} if self._phase != SERVING else {Ask.SERVE, Ask.NAME}
            found |= {Ask.AIM} if self.graded & {"direction", "inside line"} else set()
            found |= {Ask.HEIGHT} if "height over net" in self.graded else set()
        return frozenset(found)

    @property
    def _phase(self) -> str:
        """Return the game situation that the rule asks for, if it is one."""
        asked = assumed(self.rule.when).get("game situation")
        return next(iter(asked.words)) if isinstance(asked, OneOf) and len(asked.words) == 1 else ""

    def wanted(self, wanted: Wanted) -> Wanted:
        """Return what is wanted where the question is about this rule.

        Its own aim, as far as the other rules leave it; of a rule about a kind of choice all that
        it asks for, as the choice is one of that kind.
        """
        is_free = self.rule.choosing is None
        own = dict(self.rule.aim) if is_free else {**dict(self.rule.advice), **dict(self.rule.aim)}
        level = str(wanted.ball.get("level") or "club")
        words = wanted.advice.advisor.vocabulary
        metres = {
            part: in_metres(allowed, scatter_m(level), words.trait(part))
            for part, allowed in own.items()
            if part != "finds"
        }
        left = {
            part: each for part, each in metres.items() if not is_free or wanted.is_left(part, each)
        }
        return replace(wanted, aim={**wanted.aim, **left})

    def template(
        self,
        phase: str,
        asks: frozenset[Ask],
        rng: Random,
        *,
        decided: frozenset[str],
        has_names: bool = False,
        beside: frozenset[str] = frozenset(),
    ) -> Template | None:
        """Return one of the questions that can be asked about the rule, None where none can.

        decided: parts that the rule has a say in here. beside: parts that another rule grades next
        door; they may tell the two sides apart.
        """
        found = list(self._all(phase, self.graded & decided, beside & _SHOT_PARTS, rng))
        if has_names:
            found.append(Template(ask=Ask.NAME, parts=()))
        found = [each for each in found if each.ask in asks]
        if not found:
            return None
        return rng.choices(found, [_WEIGHTS[each.ask] for each in found])[0]

    def _all(
        self, phase: str, decided: frozenset[str], beside: frozenset[str], rng: Random
    ) -> Iterator[Template]:
        if decided & {"afterwards", "stance"}:
            parts = ("afterwards",) if phase == SERVING else ("afterwards", "stance")
            yield Template(ask=Ask.AFTER, parts=parts, context=self.context)
        if "response" in decided and phase != SERVING:
            yield Template(ask=Ask.PLAY_ON, parts=("response",), context=())
        graded = decided & _SHOT_PARTS
        if not graded:
            return
        is_serve = phase == SERVING
        base = _first_of_serve(graded) if is_serve else (_first(graded), "direction")
        yield self._of(Ask.SERVE if is_serve else Ask.SHOT, base, (graded, beside), rng)
        if not is_serve and graded & {"direction", "inside line"}:
            more = (graded & {"depth"}, frozenset[str]())
            yield self._of(Ask.AIM, ("direction", "inside line"), more, rng)
        if not is_serve and "height over net" in graded:
            yield Template(ask=Ask.HEIGHT, parts=("height over net",), context=self.context)

    def _of(
        self,
        ask: Ask,
        base: tuple[str, ...],
        more: tuple[frozenset[str], frozenset[str]],
        rng: Random,
    ) -> Template:
        """Return a template: the base, then a part the rule grades, then one graded next door."""
        given = {part for part, _ in self.context}
        parts = {part for part in base if part not in given}
        graded, beside = (sorted(each - given, key=PART_ORDER.index) for each in more)
        if not parts & set(graded) or (len(parts) < _MOST_PARTS and rng.random() < 0.5):
            parts |= set(_one(set(graded) - parts, rng))
        if not parts & set(beside) and len(parts) <= _MOST_PARTS:
            parts |= set(_one(set(beside) - parts, rng))
        if len(parts) == 1:
            parts |= set(_one(set(graded) - parts, rng))
        return Template(
            ask=ask, parts=tuple(sorted(parts, key=PART_ORDER.index)), context=self.context
        )


def _first(graded: frozenset[str]) -> str:
    return "stroke" if "stroke" in graded else "intent"


def _first_of_serve(graded: frozenset[str]) -> tuple[str, ...]:
    """Return the parts of every option; a place alone leaves too few wrong answers."""
    return ("direction", "pace") if graded == {"direction"} else ("direction",)


def _one(parts: set[str], rng: Random) -> list[str]:
    return [rng.choice(sorted(parts))] if parts else []


def assumed(condition: Condition) -> dict[str, Allowed]:
    """Return the parts that make a condition about a choice hold: the first way of several."""
    match condition:
        case Test(name=name, allowed=allowed):
            return {} if name == "finds" else {name: allowed}
        case All(inside):
            found: dict[str, Allowed] = {}
            for each in inside:
                found = {**assumed(each), **found}
            return found
        case AnyOf(inside) if inside:
            return assumed(inside[0])
        case AnyOf() | Not() | TermTest():
            return {}
