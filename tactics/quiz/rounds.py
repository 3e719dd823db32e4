"""Quizzes in the making: every open place is tried in rounds, many at once.

The evaluator is quickest with many answers, so drafts of all quizzes go through together: first
what their answers are worth here, then in the balls around, then what is right over there.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice
from math import inf
from random import Random

from tactics.engine.advisor import Advisor
from tactics.model.scenario import Ask, Scenario
from tactics.quiz.balance import Balance, earned, look_of, words_in
from tactics.quiz.beyond import Beyond, Looking
from tactics.quiz.choosing import Chooser, Trio
from tactics.quiz.drafts import Draft, Drawing, is_in_reach
from tactics.quiz.finishing import Finishing, Where
from tactics.quiz.grading import Desk
from tactics.quiz.naming import Named, Naming
from tactics.quiz.opponents import opponents
from tactics.quiz.play import GAME_SITUATION, Ball, Play
from tactics.quiz.requests import Request
from tactics.quiz.revision import revisions
from tactics.quiz.telling import facts_sentence
from tactics.quiz.turns import (
    Table,
    Turn,
    no_turns,
    put_across,
    put_answers,
    put_around,
    read_across,
    table_of,
    turns_of,
)

ROUNDS = 12
_ROUNDS_FOR_A_CONFLICT = 3
_ROUNDS_FOR_A_NAME = 2
_MOST_EARNED = 0.7
"""What a habit may have earned above a guess so far in a quiz."""
_PATIENCE, _PATIENCE_WHERE_NAMED, _PATIENCE_ALONE = 8, 6, 2
"""For how many rounds that is insisted on: not as long where certain rules are to be asked about,
and where somebody waits for a question that is made alone."""
_ROUNDS_FOR_ITS_RULE, _ROUNDS_WHERE_NAMED = 3, 9
_TRIES = 5
"""How often drawing a draft for a place is tried in each round."""
_NAMES_TRIED = 6
_ABOUT_A_SHOT = frozenset((Ask.SHOT, Ask.AIM, Ask.HEIGHT, Ask.SERVE))


@dataclass(slots=True, kw_only=True, eq=False)
class Slot:
    """A place in a quiz that waits for its scenario.

    position: of the sound option. chosen: what `found` is made of.
    """

    rule: str
    number: int
    position: int
    wants_conflict: bool
    rng: Random
    found: Scenario | None = None
    chosen: tuple[Draft, Trio] | None = None

    @property
    def is_open(self) -> bool:
        """Say whether nothing is chosen yet."""
        return self.found is None and self.chosen is None


@dataclass(slots=True, kw_only=True)
class Tray:
    """A quiz in the making. rules: those that may be asked about."""

    request: Request
    rules: Sequence[str]
    slots: list[Slot]
    balance: Balance

    @property
    def patience(self) -> int:
        """Return up to which round three options are refused that would pay a habit."""
        if len(self.slots) == 1:
            return _PATIENCE_ALONE
        return _PATIENCE_WHERE_NAMED if self.request.rules else _PATIENCE

    @property
    def loyalty(self) -> int:
        """Return from which round on a place may ask about another rule."""
        return _ROUNDS_WHERE_NAMED if self.request.rules else _ROUNDS_FOR_ITS_RULE

    @property
    def scenarios(self) -> tuple[Scenario, ...]:
        """Return what was found, in order."""
        return tuple(slot.found for slot in self.slots if slot.found is not None)


@dataclass(frozen=True)
class Workshop:
    """What is the same for all quizzes from one rule set, worked out once."""

    advisor: Advisor

    @cached_property
    def play(self) -> Play:
        """Return what draws balls."""
        return Play(self.advisor)

    @cached_property
    def drawing(self) -> Drawing:
        """Return what draws drafts."""
        return Drawing(self.advisor, self.play)

    @cached_property
    def naming(self) -> Naming:
        """Return what finds names for balls."""
        return Naming(self.play)

    @cached_property
    def finishing(self) -> Finishing:
        """Return what turns chosen answers into scenarios."""
        return Finishing(self.advisor, revisions(self.advisor.rules))

    @cached_property
    def looking(self) -> Looking:
        """Return what looks for changes beyond the answers shown."""
        return Looking(self.drawing)

    @cached_property
    def places(self) -> dict[str, int]:
        """Return rule id -> number, of the rules that can be asked about."""
        return {
            ready.rule.id: place
            for place, ready in enumerate(self.advisor.program.ready)
            if not ready.is_option_only
        }

    @cached_property
    def _against(self) -> dict[int, tuple[int, ...]]:
        return dict(opponents(self.advisor))

    def kinds(self, place: int) -> frozenset[Ask]:
        """Return the kinds of question that may be asked about a rule."""
        found = self.drawing.asks_of(place).kinds
        return found if self.naming.has_names(place) else found - {Ask.NAME}

    def try_all(self, trays: Sequence[Tray], number: int) -> bool:
        """Try every open place once; False where none is open. number: of the round."""
        places = [(tray, slot) for tray in trays for slot in tray.slots if slot.is_open]
        drawn = [(tray, slot, self._drawn(tray, slot, number)) for tray, slot in places]
        drafts = [(tray, slot, draft) for tray, slot, draft in drawn if draft is not None]
        tables = self._tables(drafts)
        self._turn_around(tables)
        for tray, slot, table in tables:
            self._choose(tray, slot, table, [*turns_of(table), *no_turns(table)], number)
        return bool(places)

    def _asks_nothing(self, draft: Draft) -> bool:
        """Say whether no fact can turn a question: its rule speaks in a whole game situation."""
        return self.drawing.sides.facts_of[draft.place] <= {GAME_SITUATION}

    def _tables(self, drafts: list[tuple[Tray, Slot, Draft]]) -> list[tuple[Tray, Slot, Table]]:
        """Grade the answers of drafts here; drafts with too few to choose from fall away."""
        desk = Desk(self.advisor)
        rows = [put_answers(draft, desk) for _, _, draft in drafts]
        graded = desk.grade()
        found = [
            (tray, slot, table_of(draft, each, graded, slot.rng))
            for (tray, slot, draft), each in zip(drafts, rows, strict=True)
        ]
        return [(tray, slot, table) for tray, slot, table in found if table is not None]

    def _turn_around(self, tables: list[tuple[Tray, Slot, Table]]) -> None:
        """Grade answers in the balls around, and what is right there as well."""
        desk = Desk(self.advisor)
        for _, slot, table in tables:
            if not self._asks_nothing(table.draft):
                put_around(self.drawing, table, desk, slot.rng)
        graded, desk = desk.grade(), Desk(self.advisor)
        across = []
        for _, slot, table in tables:
            for around in table.around:
                around.read(graded)
            across.append(put_across(self.drawing, table, desk, slot.rng))
        graded = desk.grade()
        for (_, _, table), each in zip(tables, across, strict=True):
            read_across(table, each, graded)

    def _drawn(self, tray: Tray, slot: Slot, number: int) -> Draft | None:
        """Return a draft about a place's rule; a question that asks for a name is done at once."""
        if number >= tray.loyalty:
            slot.rule = slot.rng.choice(self._about_shots(tray) or list(tray.rules))
        for _ in range(_TRIES):
            draft = self._draft(tray, slot, number)
            if draft is not None or not slot.is_open:
                return draft
        return None

    def _about_shots(self, tray: Tray) -> list[str]:
        """Return rules about a stroke: other questions pay no habit, and would crowd them out."""
        return [
            rule for rule in tray.rules
            if self.kinds(self.places[rule]) & tray.request.asks & _ABOUT_A_SHOT
        ]  # fmt: skip

    def _draft(self, tray: Tray, slot: Slot, number: int) -> Draft | None:
        drawing, place, rng = self.drawing, self.places[slot.rule], slot.rng
        ball = drawing.ball(place, tray.request.hand, self._other(slot, place, number), rng)
        if ball is None:
            return None
        seen = drawing.advice(ball)
        beside = drawing.sides.find(place, ball, rng)
        template = drawing.asks_of(place).template(
            str(ball[GAME_SITUATION]),
            tray.request.asks,
            rng,
            decided=drawing.decided(place, seen[1]),
            has_names=self._may_ask_a_name(tray, place, number),
            beside=drawing.graded_beside(beside),
        )
        if template is None or not (template.ask is Ask.PLAY_ON or is_in_reach(ball)):
            return None
        if template.ask is Ask.NAME:
            self._name(tray, slot, self.naming.name(place, ball, rng), ball)
            return None
        own = tray.request.errors.get(slot.rule, ())
        return drawing.draft(place, ball, seen, template, rng, own=own, beside=beside)

    def _may_ask_a_name(self, tray: Tray, place: int, number: int) -> bool:
        is_early = number < _ROUNDS_FOR_A_NAME or tray.request.asks == {Ask.NAME}
        return is_early and self.naming.has_names(place)

    def _other(self, slot: Slot, place: int, number: int) -> int | None:
        """Return a rule that pulls against the one in question, where a conflict is wanted."""
        if not slot.wants_conflict or number >= _ROUNDS_FOR_A_CONFLICT:
            return None
        others = self._against[place]
        return others[slot.rng.randrange(len(others))] if others else None

    def _choose(self, tray: Tray, slot: Slot, table: Table, turns: list[Turn], number: int) -> None:
        draft, finishing = table.draft, self.finishing
        # the words that every question about this draft has, whichever turn is taken
        facts = finishing.facts_of(draft, [])
        text = facts_sentence(self.advisor, draft.situation, facts) + finishing.prompt(draft)
        chooser = Chooser(words=self.advisor.vocabulary, balance=tray.balance)
        trio = chooser.choose(
            table,
            turns,
            words_in(text),
            slot.rng,
            most=_MOST_EARNED if number <= tray.patience else inf,
        )
        if trio is not None:
            slot.chosen = draft, trio

    def finish(self, trays: Sequence[Tray]) -> None:
        """Make the scenarios of what was chosen, each with the clearest change that turns it."""
        chosen = [
            (tray, slot, *slot.chosen)
            for tray in trays
            for slot in tray.slots
            if slot.chosen is not None
        ]
        found = self._beyond([(slot, draft, trio) for _, slot, draft, trio in chosen])
        still = [
            (slot, draft, trio) for _, slot, draft, trio in chosen
            if trio.turn.near is None and slot not in found
        ]  # fmt: skip
        steady = self._steady(still)
        for tray, slot, draft, trio in chosen:
            where, beyond = _where(tray, slot), found.get(slot)
            scenario = self.finishing.scenario(draft, trio, where, beyond)
            slot.found = replace(scenario, is_steady=slot in steady)

    def _beyond(self, chosen: list[tuple[Slot, Draft, Trio]]) -> dict[Slot, Beyond]:
        """Return the changes that turn questions more clearly than their own answers do."""
        desk = Desk(self.advisor)
        asked = {
            slot: self.looking.put(draft, trio, desk, slot.rng)
            for slot, draft, trio in chosen
            if not trio.turn.is_whole
        }
        graded = desk.grade()
        found = {slot: self.looking.find(each, graded) for slot, each in asked.items()}
        return {slot: beyond for slot, beyond in found.items() if beyond is not None}

    def _steady(self, chosen: list[tuple[Slot, Draft, Trio]]) -> set[Slot]:
        """Return the places whose answer no single change touches."""
        desk = Desk(self.advisor)
        put = [(slot, draft, self.looking.put_every(draft, trio, desk))
               for slot, draft, trio in chosen]  # fmt: skip
        graded = desk.grade()
        return {
            slot for slot, draft, rows in put
            if all(self.looking.is_untouched(draft, row, graded) for row in rows)
        }  # fmt: skip

    def _name(self, tray: Tray, slot: Slot, some: Iterator[Named], ball: Ball) -> None:
        """Ask for a name, of the names on offer that pay no habit."""
        best: tuple[float, Named, dict[str, float]] | None = None
        for named in islice(some, _NAMES_TRIED):
            looks = [look_of(term.name, 0.0) for term in named.terms]
            gains = earned(looks, frozenset())
            cost = tray.balance.cost(gains)
            if best is None or cost < best[0]:
                best = (cost, named, gains)
        if best is not None:
            tray.balance.take(best[2])
            place = self.places[slot.rule]
            slot.found = self.finishing.named(place, ball, best[1], _where(tray, slot))


def _where(tray: Tray, slot: Slot) -> Where:
    return Where(seed=tray.request.seed, number=slot.number, position=slot.position)
