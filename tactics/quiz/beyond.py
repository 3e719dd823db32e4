"""The changed fact that turns a question whose own three answers turn none.

A ball further off is looked at as well, and what is right there need not be on the screen: it
takes the place of a wrong answer, so that the changed ball can be asked as a question too.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import IntEnum
from functools import cached_property
from itertools import islice
from random import Random
from typing import NamedTuple

from tactics.engine.advise import Advice, advise
from tactics.engine.judge import judge
from tactics.model.verdict import BROKEN, Grade, Verdict
from tactics.quiz.candidates import Values
from tactics.quiz.choosing import Trio, is_clear
from tactics.quiz.drafts import Draft, Drawing, stands_beside_its_line
from tactics.quiz.grading import Desk, Graded
from tactics.quiz.nearby import Nearby, around
from tactics.quiz.phrases import option_text
from tactics.quiz.plain import is_in
from tactics.quiz.sensible import Sense, sense_of
from tactics.quiz.shots import Wanted, choice_of, natural_stroke, wanted_in

_MOST_ASKED = 40
"""Changes looked at, of facts that the rule itself asks about."""
_TRIED, _OFFERED = 5, 4
"""Changes tried of each kind, and answers on offer that are tried after a change."""


class Turned(IntEnum):
    """What becomes of the answer that was right, the clearest change first."""

    WRONG = 0
    SECOND_BEST = 1
    NOT_THE_AIM = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Beyond:
    """What is right after a change. rule: the id of the one that decides there.

    place: the wrong answer that it takes the place of, 1 or 2 of the trio. grades: of the trio
    after the change, this answer in its place.
    """

    near: Nearby
    turned: Turned
    values: Values
    text: str
    place: int
    is_shown: bool
    grades: tuple[Grade, Grade, Grade]
    rule: str


class Old(NamedTuple):
    """What becomes of the sound answer after a change; grade None: wrong one way or the other."""

    grade: Grade | None
    charged: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A chosen question and the changes put on the desk for it, each with its row."""

    draft: Draft
    trio: Trio
    changes: tuple[tuple[Nearby, int], ...]
    rng: Random


@dataclass(frozen=True)
class Looking:
    """Looks beyond the answers of chosen questions."""

    drawing: Drawing

    def put(self, draft: Draft, trio: Trio, desk: Desk, rng: Random) -> Asked:
        """Put what the sound answer is worth in many balls around on the desk."""
        shown = trio.shown[0]
        return Asked(
            draft=draft,
            trio=trio,
            changes=tuple(
                (near, desk.put(near.situation(draft.bare), shown.held.choice))
                for near in self._around(draft, {**draft.given, **shown.values}, rng)
            ),
            rng=rng,
        )

    def _around(self, draft: Draft, sound: Values, rng: Random) -> Iterator[Nearby]:
        """Yield changes of facts that the rule asks about, and those that let others speak."""
        play, sides = self.drawing.play, self.drawing.sides
        asked = sides.facts_of[draft.place]
        changeable = self.drawing.changeable(draft.template.ask)
        facts = [fact for fact in changeable if fact in asked]
        found = {
            (near.fact, near.now): near
            for near in islice(around(play, draft.ball, rng.sample(facts, len(facts))), _MOST_ASKED)
        }
        for place, between in sides.against(draft.ball, sound):
            facts = [fact for fact in changeable if fact in between]
            for near in around(play, draft.ball, facts):
                if sides.speaks(place, near.ball):
                    found[near.fact, near.now] = near
        yield from (near for near in found.values() if _is_played_alike(draft, near))

    def put_every(self, draft: Draft, trio: Trio, desk: Desk) -> tuple[int, ...]:
        """Put what the sound answer is worth after every single change on the desk."""
        choice = trio.shown[0].held.choice
        changeable = self.drawing.changeable(draft.template.ask)
        every = around(self.drawing.play, draft.ball, changeable)
        return tuple(desk.put(near.situation(draft.bare), choice) for near in every)

    def is_untouched(self, draft: Draft, row: int, graded: Graded) -> bool:
        """Say whether a change leaves the sound answer right, or breaks only what was given."""
        if graded.grade(row) is Grade.SOUND:
            return True
        charged = graded.charged(row)
        ready = self.drawing.advisor.program.ready
        spoken = {
            part for each in ready if each.rule.id in charged for part, _ in each.advice
        }  # fmt: skip
        return bool(spoken) and not spoken & {*draft.template.parts, "finds"}

    def find(self, asked: Asked, graded: Graded) -> Beyond | None:
        """Return the clearest change that turns a question, or None where none was found."""
        by_turn: dict[Turned, list[tuple[Nearby, int]]] = {turned: [] for turned in Turned}
        for near, row in asked.changes:
            grade = graded.grade(row)
            if graded.is_broken(row):
                by_turn[Turned.WRONG].append((near, row))
            elif grade is Grade.ACCEPTABLE:
                by_turn[Turned.SECOND_BEST].append((near, row))
            elif grade is Grade.SOUND:
                by_turn[Turned.NOT_THE_AIM].append((near, row))
        for turned, changes in by_turn.items():
            for near, row in changes[:_TRIED]:
                old = Old(graded.grade(row), graded.charged(row))
                found = self._right(asked, near, turned, old)
                if found is not None:
                    return found
        return None

    def _right(self, asked: Asked, near: Nearby, turned: Turned, old: Old) -> Beyond | None:
        """Return what is right after a change, if that can be shown and surely turns it."""
        draft, trio = asked.draft, asked.trio
        advice = advise(self.drawing.advisor, near.situation(draft.bare))
        rule = self.drawing.advisor.program.ready[draft.place].rule
        there = There(self.drawing, draft, near, advice, sense_of(near.ball, rule))
        was = trio.shown[0].values
        if not _is_turned(old.grade, turned):
            return None
        if turned is Turned.NOT_THE_AIM and not there.is_off_the_aim(was):
            return None
        values = next((each for each in there.rights if is_clear(was, each)), None)
        if values is None:
            return None
        text = option_text(values, draft.template.parts, self.drawing.advisor.vocabulary)
        texts = [each.text for each in trio.shown]
        if text == texts[0]:
            return None
        grades = [old.grade or Grade.DOUBTFUL]
        grades += [there.judge(each.values).grade for each in trio.shown[1:]]
        place = texts.index(text) if text in texts else _place(grades)
        grades[place] = Grade.SOUND
        first, second, third = grades
        return Beyond(
            near=near,
            turned=turned,
            values=values,
            text=text,
            place=place,
            is_shown=text in texts,
            grades=(first, second, third),
            rule=self._deciding(there, old, was, values),
        )

    def _deciding(self, there: "There", old: Old, was: Values, now: Values) -> str:
        """Return the rule that the old answer breaks there, else one that wants the new one."""
        if old.charged:
            return old.charged[0]
        ready = self.drawing.advisor.program.ready
        for place in there.advice.applying:
            rule = ready[place].rule
            wanted = {**dict(rule.advice), **dict(rule.aim)}
            if not ready[place].is_option_only and any(
                is_in(now[part], asked) and not is_in(was.get(part), asked)
                for part, asked in wanted.items()
                if part in now
            ):
                return rule.id
        return there.draft.rule


@dataclass(frozen=True)
class There:
    """A changed ball and what the rules say in it."""

    drawing: Drawing
    draft: Draft
    near: Nearby
    advice: Advice
    sense: Sense

    @cached_property
    def rng(self) -> Random:
        """Return what draws where several values are as good: always the same for a question."""
        return Random(repr(sorted(self.draft.advised.items())))

    @cached_property
    def wanted(self) -> Wanted:
        """Return what is wanted there."""
        return wanted_in(self.advice, self.near.ball, self.sense)

    @property
    def rights(self) -> Iterator[Values]:
        """Yield answers that are sound there: first what is advised, then what was on offer."""
        advised = self._advised(self.wanted)
        if self._is_possible(advised):
            verdict = self.judge(advised)
            if verdict.grade is Grade.SOUND:
                yield advised
            elif verdict.charged:
                yield from self._only_right([self._mended(verdict)])
        offered = [
            each.values
            for each in self.draft.answers
            if self.sense.is_modest(each.values, advised)
        ]  # fmt: skip
        yield from self._only_right(self.rng.sample(offered, min(len(offered), _OFFERED)))

    def _advised(self, wanted: Wanted) -> Values:
        return {part: wanted.value(part, self.rng) for part in self.draft.template.parts}

    def _mended(self, verdict: Verdict) -> Values:
        """Return what is advised with what rules about such a choice ask for besides."""
        wanted, program = self.wanted, self.advice.advisor.program
        for place, ready in enumerate(program.ready):
            if ready.rule.id in verdict.charged:
                wanted = self.drawing.asks_of(place).wanted(wanted)
        return self._advised(wanted)

    def _only_right(self, answers: Iterable[Values]) -> Iterator[Values]:
        for values in answers:
            if self._is_possible(values) and self.judge(values).grade is Grade.SOUND:
                yield values

    def _is_possible(self, values: Values) -> bool:
        return (
            None not in values.values()
            and stands_beside_its_line(values)
            and self.sense.allows(values)
            and self.drawing.allows(self.near.ball, {**self.draft.context, **values})
        )

    def judge(self, values: Values) -> Verdict:
        """Return the verdict on an answer there."""
        return judge(choice_of({**self._given, **values}), self.advice)

    @cached_property
    def _given(self) -> Values:
        return self.draft.given

    def is_off_the_aim(self, values: Values) -> bool:
        """Say whether an answer misses what one tries for there, in a part that is asked about."""
        aim = self.wanted.aim
        return any(part in aim and not is_in(value, aim[part]) for part, value in values.items())


def _is_played_alike(draft: Draft, near: Nearby) -> bool:
    """Say whether the stroke that goes without saying is the same after a change."""
    given = draft.given
    return (
        "stroke" not in given
        or "stroke" in draft.context
        or (given["stroke"] == natural_stroke(near.ball))
    )


def _is_turned(grade: Grade | None, turned: Turned) -> bool:
    if turned is Turned.WRONG:
        return grade is None or grade in BROKEN
    return grade is (Grade.ACCEPTABLE if turned is Turned.SECOND_BEST else Grade.SOUND)


def _place(grades: list[Grade]) -> int:
    """Return the wrong answer to take the place of: the one that is not surely wrong there."""
    return 1 if grades[2] in BROKEN else 2
