"""The changed fact that turns a written question where none of its three answers is right then.

What is right after the change is worked out from the rules, and takes the place of a wrong answer.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from random import Random

from tactics.engine.judge import judge
from tactics.model.scenario import Option, Origin
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, Grade, Verdict
from tactics.quiz.candidates import Values
from tactics.quiz.drafts import stands_beside_its_line
from tactics.quiz.nearby import Nearby, around
from tactics.quiz.phrases import option_text
from tactics.quiz.play import Ball
from tactics.quiz.sensible import sense_of
from tactics.quiz.shots import Wanted, choice_of
from tactics.quiz.written_bench import Bench
from tactics.quiz.written_turn import GradeThere, Turned

FINDS_RESTS_ON = ("own hand", "opponent hand", "serve side", "court width", "wing")
"""What a ball finds is worked out of these, and no rule asks about all of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenAsk:
    """A written question on its way. given: the parts all answers share; parts: those asked about.

    answers: the values of the three; right: the number of the sound one. rule: what it is about.
    """

    situation: Situation
    ball: Ball
    given: Values
    parts: Sequence[str]
    answers: Sequence[Values]
    right: int
    rule: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Further:
    """A change after which something else is right. rule: the id of the one that decides then."""

    turn: Turned
    answer: Option
    rule: str


@dataclass(frozen=True, slots=True)
class Looking:
    """Looks at balls around a written question for something else that is right there."""

    bench: Bench
    ask: WrittenAsk

    def further(self, facts: Iterable[str], grade: GradeThere) -> Further | None:
        """Return a change of one of `facts` after which something else is right.

        One that makes the sound answer wrong comes before one that makes it second best.
        """
        second: Further | None = None
        for near in around(self.bench.play, self.ask.ball, facts):
            there = near.situation(self.ask.situation)
            if self._goes_unnoticed(there):
                continue
            was = self._verdict(there, self.ask.answers[self.ask.right])
            is_broken = was.grade in BROKEN
            if not is_broken and (second is not None or was.grade is not Grade.ACCEPTABLE):
                continue
            answer = self._right(near, there, self._asked(was) or self.ask.rule)
            if answer is None:
                continue
            turn = self._turn(near, there, grade(there, near.ball))
            rule = self._asked(was) or next(iter(answer.rules), "") or self.ask.rule
            found = Further(turn=turn, answer=answer, rule=rule)
            if is_broken:
                return found
            second = found
        return second

    def is_steady(self) -> bool:
        """Say whether the sound answer stays sound whichever single fact is changed."""
        play, right = self.bench.play, self.ask.answers[self.ask.right]
        every = (near.situation(self.ask.situation)
                 for near in around(play, self.ask.ball, play.changeable))  # fmt: skip
        return all(
            self._goes_unnoticed(there) or self._verdict(there, right).grade is Grade.SOUND
            for there in every
        )

    def _goes_unnoticed(self, there: Situation) -> bool:
        """Say whether every rule says after a change what it said before."""
        here = self.ask.situation
        stays = all(there.get(fact) == here.get(fact) for fact in FINDS_RESTS_ON)
        return stays and self.bench.advice(there).rules == self.bench.advice(here).rules

    def _verdict(self, there: Situation, values: Values) -> Verdict:
        return judge(choice_of({**self.ask.given, **values}), self.bench.advice(there))

    def _asked(self, verdict: Verdict) -> str:
        """Return the first rule charged that can be asked about, or nothing."""
        return next((each for each in verdict.charged if each in self.bench.places), "")

    def _right(self, near: Nearby, there: Situation, rule: str) -> Option | None:
        """Return what is right there; None where it cannot be played or is on the screen."""
        wanted = self.bench.wanted(there, near.ball, self.bench.rule(rule))
        rng = Random(f"{rule}/{near.fact}")
        values = self._values(wanted, rng)
        verdict = self._verdict(there, values)
        if verdict.grade in BROKEN:
            values = self._values(self._mended(wanted, verdict), rng)
            verdict = self._verdict(there, values)
        text = self._text(values)
        is_fair = verdict.grade is Grade.SOUND and self._is_possible(near, values, rule)
        if not is_fair or text in map(self._text, self.ask.answers):
            return None
        return Option(
            text=text,
            grade=Grade.SOUND,
            origin=Origin.NEIGHBOUR,
            choice=choice_of(values),
            rules=(verdict.deciding,) if verdict.deciding in self.bench.places else (),
        )

    def _values(self, wanted: Wanted, rng: Random) -> Values:
        return {part: wanted.value(part, rng) for part in self.ask.answers[self.ask.right]}

    def _mended(self, wanted: Wanted, verdict: Verdict) -> Wanted:
        """Return what is wanted with what rules about such a choice ask for besides."""
        for rule in verdict.charged:
            if rule in self.bench.places:
                wanted = self.bench.drawing.asks_of(self.bench.places[rule]).wanted(wanted)
        return wanted

    def _is_possible(self, near: Nearby, values: Values, rule: str) -> bool:
        whole = {**self.ask.given, **values}
        return (
            None not in values.values()
            and stands_beside_its_line(values)
            and sense_of(near.ball, self.bench.rule(rule)).allows(whole)
            and self.bench.drawing.allows(near.ball, whole)
        )

    def _text(self, values: Values) -> str:
        order = [part for part in self.ask.parts if part in values]
        return option_text(values, order, self.bench.advisor.vocabulary)

    def _turn(self, near: Nearby, there: Situation, grades: Sequence[Grade]) -> Turned:
        """Return the change; the new answer stands where a wrong one is least surely wrong."""
        wrong = [n for n in range(len(grades)) if n != self.ask.right]
        place = next((n for n in wrong if grades[n] not in BROKEN), wrong[0])
        after = [*grades[:place], Grade.SOUND, *grades[place + 1 :]]
        return Turned(near=near, situation=there, grades=tuple(after), sound=place)
