"""Chosen answers -> a scenario: places on the screen, words, the flip and the advised target."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.names import fold
from tactics.model.rule import Rule, Term
from tactics.model.scenario import Ask, Flip, Option, Origin, Scenario
from tactics.model.situation import Situation
from tactics.model.verdict import KEPT, Grade
from tactics.quiz.beyond import Beyond, Turned
from tactics.quiz.choosing import Shown, Trio
from tactics.quiz.drafts import Draft
from tactics.quiz.naming import Named
from tactics.quiz.nearby import Nearby
from tactics.quiz.phrases import question
from tactics.quiz.plain import situation_of
from tactics.quiz.play import Ball
from tactics.quiz.shots import aim_with, choice_of
from tactics.quiz.telling import changed, facts_asked, facts_in_term, facts_sentence, told
from tactics.report.visible import visible

_THEN = {
    Turned.WRONG: "Then it is",
    Turned.SECOND_BEST: "Then this is better",
    Turned.NOT_THE_AIM: "Then rather",
}
_AS_WELL = "Then this is fine as well"
_SERVES_REST_ON = frozenset(("own hand", "opponent hand", "serve side"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """Where a scenario belongs: its quiz, its number there, and the place of the sound option."""

    seed: str
    number: int
    position: int


@dataclass(frozen=True)
class Finishing:
    """Makes scenarios. revisions: rule id -> revision."""

    advisor: Advisor
    revisions: Mapping[str, str]

    def facts_of(self, draft: Draft, neighbours: Sequence[str]) -> tuple[str, ...]:
        """Return the facts worth telling for a draft and the rules beside it."""
        places = {ready.rule.id: n for n, ready in enumerate(self.advisor.program.ready)}
        asked = facts_asked(self.advisor.program, draft.place)
        if draft.template.ask is Ask.SERVE:
            asked |= _SERVES_REST_ON
        for rule in neighbours:
            asked |= facts_asked(self.advisor.program, places[rule])
        return told(self.advisor, draft.situation, asked)

    def scenario(
        self, draft: Draft, trio: Trio, where: Where, beyond: Beyond | None = None
    ) -> Scenario:
        """Return the scenario of a draft and the answers chosen for it.

        beyond: a clearer change than that of the answers themselves.
        """
        rule = self.advisor.program.ready[draft.place].rule
        charged = [each.held.charged[0] for each in trio.shown if each.held.charged]
        neighbour = trio.rule if beyond is None else beyond.rule
        beside = [*charged, *([neighbour] if neighbour else [])]
        facts = self.facts_of(draft, beside)
        order = _order(where.position)
        near = trio.turn.near.near if trio.turn.near is not None else None
        near = near if beyond is None else beyond.near
        flip = None
        if near is not None:
            facts = self._with(near.fact, facts)
            if beyond is not None:
                flip = self._flip_beyond(beyond, draft, facts, order)
            else:
                flip = self._flip_inside(near, draft, trio, facts, order)
        return Scenario(
            ask=draft.template.ask,
            situation=draft.situation,
            told=facts,
            context=choice_of(draft.given),
            prompt=self.prompt(draft),
            facts=facts_sentence(self.advisor, draft.situation, facts),
            options=tuple(_option(trio.shown[place], rule.id) for place in order),
            sound=where.position,
            rule=rule.id,
            revision=self.revisions[rule.id],
            because=visible(rule.because),
            neighbour=neighbour if neighbour != rule.id else "",
            cue=visible(rule.cue),
            aim=aim_with(draft.wanted.aim, {**draft.given, **trio.shown[0].values}),
            flip=flip,
            is_conflict=draft.is_conflict,
            seed=where.seed,
            number=where.number,
        )

    def _flip_inside(
        self, near: Nearby, draft: Draft, trio: Trio, facts: tuple[str, ...], order: list[int]
    ) -> Flip | None:
        """Return the change after which another of the three answers is right.

        None where that hangs on what the question does not say.
        """
        there = advise(self.advisor, near.situation(draft.situation))
        shown = [trio.shown[place] for place in order]
        grades = tuple(judge(each.held.choice, there).grade for each in shown)
        flip = self._flip(near, draft.situation, facts, trio.rule, order.index(1), grades)
        if grades[flip.sound] not in KEPT:
            return None
        was_kept = grades[order.index(0)] in KEPT
        then = _AS_WELL if was_kept else _THEN[Turned.WRONG]
        return self._with_words(flip, then, shown[flip.sound].text)

    def _flip_beyond(
        self, beyond: Beyond, draft: Draft, facts: tuple[str, ...], order: list[int]
    ) -> Flip:
        """Return the change after which an answer is right that need not be on the screen."""
        place = order.index(beyond.place)
        grades = tuple(beyond.grades[each] for each in order)
        flip = self._flip(beyond.near, draft.situation, facts, beyond.rule, place, grades)
        answer = Option(
            text=beyond.text,
            grade=Grade.SOUND,
            origin=Origin.NEIGHBOUR,
            choice=choice_of(beyond.values),
            rules=(beyond.rule,),
        )
        flip = self._with_words(flip, _THEN[beyond.turned], beyond.text)
        return flip if beyond.is_shown else replace(flip, answer=answer)

    def _flip(
        self,
        near: Nearby,
        before: Situation,
        facts: tuple[str, ...],
        rule_id: str,
        sound: int,
        grades: tuple[Grade, ...],
    ) -> Flip:
        """Return a flip without its sentence. sound: the place of what is right then."""
        rule = self.rules[rule_id]
        after = near.situation(before)
        return Flip(
            fact=near.fact,
            was=near.was,
            now=near.now,
            sound=sound,
            grades=grades,
            rule=rule_id,
            revision=self.revisions[rule_id],
            situation=after,
            facts=facts_sentence(self.advisor, after, facts),
            because=visible(rule.because),
            cue=visible(rule.cue),
            said="",
        )

    def _with_words(self, flip: Flip, then: str, text: str) -> Flip:
        """Return a flip with its sentences: the change, and what it does."""
        change = changed(self.advisor, flip.situation, flip.fact)
        return replace(flip, said=f"Change one thing: {change}. {then}: {text}.")

    @cached_property
    def rules(self) -> dict[str, Rule]:
        """Return rule id -> rule."""
        return {rule.id: rule for rule in self.advisor.rules.rules}

    def prompt(self, draft: Draft) -> str:
        """Return the question of a draft."""
        return question(draft.template.ask, draft.context)

    def _with(self, fact: str, facts: tuple[str, ...]) -> tuple[str, ...]:
        wanted = {*facts, fact}
        return tuple(t.folded for t in self.advisor.vocabulary.facts if t.folded in wanted)

    def named(self, place: int, ball: Ball, named: Named, where: Where) -> Scenario:
        """Return a scenario that asks for a name."""
        rule = self.advisor.program.ready[place].rule
        situation = situation_of(ball)
        asked = facts_asked(self.advisor.program, place) | {named.near.fact}
        for term in named.terms:
            asked |= self._facts_in(term.name)
        facts = told(self.advisor, situation, asked)
        order = _order(where.position)
        terms = [named.terms[place] for place in order]
        right = named.terms[0]
        grades = tuple(Grade.SOUND if place == 1 else Grade.UNSOUND for place in order)
        flip = self._flip(named.near, situation, facts, rule.id, order.index(1), grades)
        second = named.terms[1]
        flip = self._with_words(flip, _THEN[Turned.WRONG], _name_of(second))
        flip = replace(flip, because=_meaning(second))
        return Scenario(
            ask=Ask.NAME,
            situation=situation,
            told=facts,
            context=Choice(),
            prompt=question(Ask.NAME, {}),
            facts=facts_sentence(self.advisor, situation, facts),
            options=tuple(
                Option(
                    text=_name_of(term),
                    grade=Grade.SOUND if term is right else Grade.UNSOUND,
                    origin=Origin.ADVISED if term is right else Origin.NEIGHBOUR,
                    term=term.name,
                )
                for term in terms
            ),
            sound=where.position,
            rule=rule.id,
            revision=self.revisions[rule.id],
            because=_meaning(right),
            cue=visible(rule.cue),
            flip=flip,
            seed=where.seed,
            number=where.number,
        )

    def _facts_in(self, term: str) -> frozenset[str]:
        index = [fold(name) for name in self.advisor.program.term_names].index(fold(term))
        return facts_in_term(self.advisor.program, index)


def _name_of(term: Term) -> str:
    return visible(term.name[:1].upper() + term.name[1:])


def _meaning(term: Term) -> str:
    return visible(f"{_name_of(term)} means: {' '.join(term.means.split())}.")


def _order(position: int) -> list[int]:
    """Return which answer stands at each place: the sound one (0) at `position`."""
    others = [1, 2] if position != 1 else [2, 1]
    return [*others[:position], 0, *others[position:]]


def _option(shown: Shown, rule: str) -> Option:
    return Option(
        text=shown.text,
        grade=shown.held.grade,
        origin=shown.origin,
        choice=choice_of(shown.values),
        rules=shown.held.charged or (rule,),
    )
