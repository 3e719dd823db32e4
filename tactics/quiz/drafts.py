"""A question in the making: a ball, the advised answer, and others that may be as good or wrong."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from random import Random

from tactics.engine.advise import Advice, advise
from tactics.engine.advisor import Advisor
from tactics.engine.match import YES
from tactics.engine.program import ReadyRule
from tactics.model.known import OneOf
from tactics.model.legality import LEGALITY
from tactics.model.rule import Rule
from tactics.model.scenario import Ask
from tactics.model.situation import Situation
from tactics.model.trait import Role
from tactics.quiz.beside import Beside, Sides
from tactics.quiz.candidates import Candidate, Candidates, Values
from tactics.quiz.lawful import Line, names_in, ready
from tactics.quiz.plain import Value, is_in, known_of, situation_of
from tactics.quiz.play import Ball, Play
from tactics.quiz.sensible import Sense, sense_of
from tactics.quiz.shots import Wanted, natural_stroke, wanted_in
from tactics.quiz.templates import RuleAsks, Template

_NOT_BESIDE_A_LINE = ("middle", "at body")


_REACH = "reachable"


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A ball with what is advised. context: the parts given with the question.

    bare: the facts a verdict can rest on. answers: the advised one first. beside: the change to
    look at first.
    """

    place: int
    template: Template
    beside: Beside | None
    ball: Ball
    situation: Situation
    bare: Situation
    advice: Advice
    wanted: Wanted
    context: Values
    sense: Sense
    intent: Value
    advised: Values
    answers: tuple[Candidate, ...]
    is_conflict: bool

    @property
    def rule(self) -> str:
        """Return the id of the rule the question is about."""
        return self.advice.advisor.program.ready[self.place].rule.id

    def is_meant(self, values: Values) -> bool:
        """Say whether an answer does in words what the rule aims at, where the advised one does.

        Any intent that the rule itself advises will do.
        """
        rule = self.advice.advisor.program.ready[self.place].rule
        intents = dict(rule.advice).get("intent")
        return all(
            is_in(values.get(part), asked)
            or (part == "intent" and intents is not None and is_in(values.get(part), intents))
            for part, asked in rule.aim
            if isinstance(asked, OneOf) and is_in(self.advised.get(part), asked)
        )

    @property
    def given(self) -> Values:
        """Return the parts that every answer has in common."""
        given: dict[str, Value] = {}
        if "stroke" not in self.advised:
            given["stroke"] = natural_stroke(self.ball)
        if "intent" not in self.advised and self.template.ask in (Ask.SHOT, Ask.SERVE):
            given["intent"] = self.intent
        return {**given, **self.context}


@dataclass(frozen=True)
class Drawing:
    """Draws drafts about the rules of one set."""

    advisor: Advisor
    play: Play

    @cached_property
    def choice_lines(self) -> tuple[Line, ...]:
        """Return what cannot happen about choices."""
        facts = {trait.folded for trait in self.advisor.vocabulary.of_role(Role.FACT)}
        every = (*LEGALITY, *self.advisor.rules.cannot_happen)
        return tuple(
            Line(line, ready(line.when, self.play.laws.terms), names_in(line.when))
            for line in every
            if not names_in(line.when) <= facts
        )

    def allows(self, ball: Ball, values: Values) -> bool:
        """Say whether an answer can be played at all."""
        both = {**ball, **values}
        return not any(line.holds(both) for line in self.choice_lines)

    def changeable(self, ask: Ask) -> tuple[str, ...]:
        """Return the facts that may change: whether a ball can be had, where that is asked."""
        every = self.play.changeable
        return every if ask is Ask.PLAY_ON else tuple(fact for fact in every if fact != _REACH)

    @cached_property
    def sides(self) -> Sides:
        """Return what finds the rules next door."""
        return Sides(self.play)

    @cached_property
    def _rules(self) -> tuple[Rule, ...]:
        return tuple(ready.rule for ready in self.advisor.program.ready)

    @cached_property
    def _asks(self) -> tuple[RuleAsks, ...]:
        return tuple(RuleAsks(rule.rule) for rule in self.advisor.program.ready)

    def asks_of(self, place: int) -> RuleAsks:
        """Return what can be asked about a rule."""
        return self._asks[place]

    def advice(self, ball: Ball) -> tuple[Situation, Advice]:
        """Return the situation of a ball and what the rules say in it."""
        situation = situation_of(ball)
        return situation, advise(self.advisor, situation)

    def decided(self, place: int, advice: Advice) -> frozenset[str]:
        """Return the parts that a rule has a say in: none where it is silent or set aside."""
        if advice.rules[place] is not YES or any(place == beaten for beaten, _ in advice.beaten):
            return frozenset()
        if self._rules[place].choosing is not None:
            return self.asks_of(place).graded
        return frozenset(
            "direction" if part == "finds" else part
            for part, standard in advice.standards.items()
            if place in standard.deciding and not standard.clashing
        )

    def graded_beside(self, beside: Beside | None) -> frozenset[str]:
        """Return the parts that the rule next door grades."""
        if beside is None or beside.other is None:
            return frozenset()
        return self.asks_of(beside.other).graded

    def ball(self, place: int, hand: str, against: int | None, rng: Random) -> Ball | None:
        """Return a ball to which a rule applies, and `against` (a rule that pulls elsewhere)."""
        sides, asked = self.sides, self.sides.facts_of[place]
        wanted = (*self.asks_of(place).needs, *sides.conditions(place))
        if against is not None:
            wanted = (*wanted, *sides.conditions(against))
            asked |= sides.facts_of[against]
        return self.play.ball(rng, hand, wanted, sides.unwanted(place, against), asked)

    def draft(
        self,
        place: int,
        ball: Ball,
        seen: tuple[Situation, Advice],
        template: Template,
        rng: Random,
        *,
        own: Sequence[Values] = (),
        beside: Beside | None = None,
    ) -> Draft | None:
        """Return a draft about a rule, or None where what is advised cannot be played."""
        situation, advice = seen
        rule = self.advisor.program.ready[place].rule
        sense = sense_of(ball, rule)
        wanted = self.asks_of(place).wanted(wanted_in(advice, ball, sense))
        context = self._context(template, wanted, rng)
        advised = {part: wanted.value(part, rng) for part in template.parts}
        if not stands_beside_its_line(advised):
            del advised["inside line"]
        if any(value is None for value in (*advised.values(), *context.values())):
            return None
        if not self._is_fitted(advice, ball, sense, (context, advised)):
            return None
        other = None if beside is None or beside.other is None else self._rules[beside.other]
        found = Candidates(
            advisor=self.advisor,
            rules=(rule,) if other is None else (rule, other),
            advised=advised,
            own=own,
            sense=sense,
            rng=rng,
            context=context,
        ).all()
        return Draft(
            place=place,
            template=replace(template, parts=tuple(advised)),
            beside=beside,
            ball=ball,
            situation=situation,
            bare=situation_of({f: v for f, v in ball.items() if f in self.play.judged}),
            advice=advice,
            wanted=wanted,
            context=context,
            sense=sense,
            intent=wanted.value("intent", rng),
            advised=advised,
            answers=tuple(each for each in found if self.allows(ball, {**context, **each.values})),
            is_conflict=pulls_apart(advice, advised),
        )

    def _is_fitted(
        self,
        advice: Advice,
        ball: Ball,
        sense: Sense,
        both: tuple[dict[str, Value], dict[str, Value]],
    ) -> bool:
        """Say whether the advised answer can be played; an everyday intent gives way if need be.

        both: the parts given beforehand, and those of the answer.
        """
        context, advised = both
        holder = advised if "intent" in advised else context
        intents = [holder["intent"]] if "intent" in holder else []
        intents += sense.words(self.advisor.vocabulary, "intent") if intents else [None]
        for intent in intents:
            if intent is not None:
                holder["intent"] = intent
            whole = {**context, **advised}
            if self._is_played(ball, sense, whole) and _is_kept(advice, whole):
                return True
        return False

    def _is_played(self, ball: Ball, sense: Sense, values: Values) -> bool:
        return sense.allows(values) and self.allows(ball, values)

    def _context(self, template: Template, wanted: Wanted, rng: Random) -> dict[str, Value]:
        """Return the parts given beforehand: what the rule speaks about, and what lies before."""
        found: dict[str, Value] = {}
        for part, allowed in template.context:
            value = wanted.value(part, rng)
            words = self.advisor.vocabulary.trait(part).words
            names = [word.name for word in words if is_in(word.name, allowed)]
            found[part] = value if is_in(value, allowed) else (names[0] if names else None)
        if template.ask in (Ask.AIM, Ask.HEIGHT, Ask.AFTER):
            for part in ("intent", "direction"):
                if part not in template.parts and part not in found:
                    found[part] = wanted.value(part, rng)
        if template.ask is Ask.AFTER:
            found.setdefault("response", "played")
        return found


def is_in_reach(ball: Ball) -> bool:
    """Say whether a ball can be played: of any other, no shot can be asked."""
    return ball.get(_REACH) in (None, "yes")


def stands_beside_its_line(values: Values) -> bool:
    """Say whether a room inside the line means something where an answer goes."""
    return "inside line" not in values or values.get("direction") not in _NOT_BESIDE_A_LINE


def _is_kept(advice: Advice, values: Values) -> bool:
    """Say whether every part of an answer lies in what the rules leave of it, where they do."""
    grid = advice.advisor.program.grid
    return all(
        bool(grid.mask(part, known_of(value)) & advice.standards[part].allowed)
        for part, value in values.items()
        if part in advice.standards
    )


def pulls_apart(advice: Advice, sound: Values) -> bool:
    """Say whether some rule that applies here, or is set aside, asks for something else."""
    program = advice.advisor.program
    cells = {part: program.grid.mask(part, known_of(value)) for part, value in sound.items()}
    return any(
        _asks_otherwise(program.ready[place], sound, cells)
        for place in (*advice.applying, *(beaten for beaten, _ in advice.beaten))
        if not program.ready[place].is_option_only
    )


def _asks_otherwise(rule: ReadyRule, sound: Values, cells: Mapping[str, int]) -> bool:
    if any(part in cells and not cells[part] & mask for part, mask in rule.advice):
        return True
    aims = dict(rule.rule.aim)
    return any(
        part in sound and part in aims and not is_in(sound[part], aims[part])
        for part in ("intent", "direction")
    )
