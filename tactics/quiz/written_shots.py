"""A written question about a choice: its answers graded, and what is wrong with them."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from random import Random

from tactics.engine.advise import Advice
from tactics.engine.judge import judge
from tactics.engine.match import YES
from tactics.model.known import Absent, Allowed
from tactics.model.quiz_file import WrittenScenario
from tactics.model.scenario import Ask, Option, Origin, Scenario
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, KEPT, Grade, Verdict
from tactics.quiz.candidates import Values
from tactics.quiz.drafts import pulls_apart
from tactics.quiz.phrases import option_text, question
from tactics.quiz.plain import Value
from tactics.quiz.play import Ball
from tactics.quiz.shots import Wanted, choice_of
from tactics.quiz.telling import facts_asked
from tactics.quiz.written_asks import parts_of, plain_choice
from tactics.quiz.written_ball import WholeBall
from tactics.quiz.written_bench import Bench
from tactics.quiz.written_beyond import FINDS_RESTS_ON, Looking, WrittenAsk
from tactics.quiz.written_scenario import Core, put_together
from tactics.quiz.written_troubles import Answered, Troubles
from tactics.quiz.written_turn import turned
from tactics.quiz.written_words import Told
from tactics.reading.quiz_codes import QuizCode
from tactics.reading.wording import quoted
from tactics.source import Span

_TRIED = 40
_EVERYBODY_SEES = ("balance", "body height", "court depth", "opponent depth")
"""Facts that may turn a question though neither its rule nor its author names them."""


@dataclass(frozen=True, slots=True)
class ShotAsked:
    """One written scenario that asks for a choice. given: the parts all answers share."""

    bench: Bench
    told: Told
    written: WrittenScenario
    whole: WholeBall
    ask: Ask
    given: Values

    @property
    def troubles(self) -> Troubles:
        """Return what notes the troubles of its answers."""
        return Troubles(
            self.bench,
            self.told,
            self.written,
            self._wanted(self.whole.known),
            parts_of(self.written, self.ask),
        )

    def prepared(self, seed: str, rng: Random) -> Callable[[], Scenario] | None:
        """Return what makes the question, its answers shuffled, or None with what is wrong.

        All that can be wrong is known then; what would turn the question is looked for later.
        """
        answers = self._answers(rng)
        if answers is None:
            return None
        answers = rng.sample(answers, len(answers))
        right = next(n for n, each in enumerate(answers) if each.verdict.grade is Grade.SOUND)
        rule = self._rule(answers, right)
        return None if rule is None else partial(self._finished, answers, right, rule, seed)

    # --- the answers -----------------------------------------------------------------------

    def _answers(self, rng: Random) -> list[Answered] | None:
        """Return three answers of which exactly one is right, or None with what is wrong."""
        written = self.written
        if written.options:
            places = [each.span for each in written.options]
            values = [plain_choice(each.choice) for each in written.options]
            answers = [
                self._answered(each, Origin.WRITTEN, span)
                for each, span in zip(values, places, strict=True)
            ]
            return answers if self._are_fair(answers) else None
        own = None
        if written.answer is not None:
            own = self._answered(
                plain_choice(written.answer.choice), Origin.ADVISED, written.answer.span
            )
            if not self._are_fair([own]):
                return None
        return self._found(own, rng)

    def _answered(self, values: Values, origin: Origin, place: Span) -> Answered:
        order = [part for part in parts_of(self.written, self.ask) if part in values]
        return Answered(
            values=values,
            text=option_text(values, order, self.bench.advisor.vocabulary),
            verdict=self._verdict(self.whole.known, values),
            origin=origin,
            place=place,
        )

    def _verdict(self, situation: Situation, values: Values) -> Verdict:
        return judge(choice_of({**self.given, **values}), self._advice(situation))

    def _advice(self, situation: Situation) -> Advice:
        return self.bench.advice(situation)

    def _are_fair(self, answers: Sequence[Answered]) -> bool:
        """Say whether exactly one answer is right and no other acceptable; note why not."""
        before = len(self.told.problems)
        for each in answers:
            if not self.bench.drawing.allows(self.whole.ball, {**self.given, **each.values}):
                self.troubles.unplayable(each)
        unclear = [each for each in answers if each.verdict.grade is Grade.UNDECIDED]
        if unclear and len(self.told.problems) == before:
            self.troubles.left_open(unclear[0])
        self.troubles.alike(answers)
        if len(self.told.problems) > before:
            return False
        sound = [each for each in answers if each.verdict.grade is Grade.SOUND]
        kept = [each for each in answers if each.verdict.grade in KEPT]
        own = self._own(answers)
        if own is not None and own not in sound and (sound or own.verdict.grade in BROKEN):
            self.troubles.other_answer(own, sound)
        elif len(kept) > 1:
            self.troubles.several(kept)
        elif not sound:
            self.troubles.none_sound(answers)
        return len(self.told.problems) == before

    def _own(self, answers: Sequence[Answered]) -> Answered | None:
        """Return the coach's own answer."""
        answer = self.written.answer
        if answer is None:
            return None
        values = plain_choice(answer.choice)
        return next((each for each in answers if each.values == values), None)

    # --- answers that the program finds ------------------------------------------------------

    def _found(self, own: Answered | None, rng: Random) -> list[Answered] | None:
        if own is None:
            parts = parts_of(self.written, self.ask)
            wanted = self._wanted(self.whole.situation)
            values = {part: wanted.value(part, rng) for part in parts}
            own = self._answered(values, Origin.ADVISED, self.written.span)
        rule = self.written.rule or own.verdict.deciding
        wrong: list[Answered] = []
        if own.verdict.grade is Grade.SOUND and rule in self.bench.places:
            wrong = list(self._wrong(own, rule, rng))
        if len(wrong) < 2:
            self.told.note(
                QuizCode.NOTHING_TO_ASK,
                self.written.span,
                f"no three answers were found for scenario {quoted(self.written.id)}",
                "write three options, or give facts in which a rule speaks firmly",
                of=self.written,
                notes=(self.troubles.wanted_words(),),
            )
            return None
        return [own, *wrong[:2]]

    def _wrong(self, own: Answered, rule: str, rng: Random) -> Iterator[Answered]:
        """Yield answers that break the rules, those that break this rule first."""
        some = self.bench.answers(self.bench.rule(rule), own.values, self.whole.ball, rng)
        found, texts = list[Answered](), {own.text}
        for each in some[:_TRIED]:
            if None in each.values.values() or not self.bench.drawing.allows(
                self.whole.ball, {**self.given, **each.values}
            ):
                continue
            answer = self._answered(each.values, each.origin, own.place)
            if answer.verdict.grade in BROKEN and answer.text not in texts:
                texts.add(answer.text)
                found.append(answer)
        yield from sorted(found, key=lambda each: rule not in each.verdict.charged)

    # --- the rule it is about ----------------------------------------------------------------

    def _rule(self, answers: Sequence[Answered], right: int) -> str | None:
        """Return the id of the rule it is about, or None where the one named is silent."""
        wrong = [each for n, each in enumerate(answers) if n != right]
        charged = [rule for each in wrong for rule in each.verdict.charged]
        named = self.written.rule
        if not named:
            known = [rule for rule in charged if rule in self.bench.places]
            return max(known, key=known.count) if known else answers[right].verdict.deciding
        if named in charged:
            return named
        place = self.bench.places[named]
        applies = self._advice(self.whole.known).rules[place] is YES
        self.told.note(
            QuizCode.SILENT_RULE,
            self.written.place_of("rule"),
            f"scenario {quoted(self.written.id)} is not about {quoted(named)}: "
            + ("none of its answers breaks it" if applies else "the rule does not apply here"),
            f"{_meant(charged)}, or change what is given",
            of=self.written,
        )
        return None

    # --- the question ------------------------------------------------------------------------

    def _finished(
        self, answers: Sequence[Answered], right: int, rule_id: str, seed: str
    ) -> Scenario:
        bench, whole = self.bench, self.whole
        asked = facts_asked(bench.advisor.program, bench.places[rule_id])
        grade = partial(self._grades, self._advice(whole.situation), answers)
        facts = self._facts_to_turn(asked)
        turn = turned(bench.play, (whole.situation, whole.ball), right, facts, grade)
        beyond, looking = None, Looking(bench, self._ask(answers, right, rule_id))
        if turn is None or turn.grades[right] in KEPT:
            beyond = looking.further([*facts, *_EVERYBODY_SEES], grade)
            turn = turn if beyond is None else beyond.turn
        there = rule_id
        if beyond is not None:
            there = beyond.rule
        elif turn is not None:
            charged = self._verdict(turn.situation, answers[right].values).charged
            there = next((each for each in charged if each in bench.places), rule_id)
        core = Core(
            ask=self.ask,
            prompt=question(self.ask, self._said_given()),
            options=tuple(self._option(each, rule_id) for each in answers),
            right=right,
            rule=rule_id,
            because=bench.rule(rule_id).because,
            asked=asked,
            turn=turn,
            rule_there=there,
            because_there=bench.rule(there).because,
            context=choice_of(self.given),
            aim=self._aim(answers[right]),
            is_conflict=pulls_apart(self._advice(whole.situation), answers[right].values),
            answer_there=None if beyond is None else beyond.answer,
            is_steady=turn is None and looking.is_steady(),
        )
        return put_together(bench, self.written, whole, core, seed)

    def _ask(self, answers: Sequence[Answered], right: int, rule: str) -> WrittenAsk:
        return WrittenAsk(
            situation=self.whole.situation,
            ball=self.whole.ball,
            given=self.given,
            parts=parts_of(self.written, self.ask),
            answers=[each.values for each in answers],
            right=right,
            rule=rule,
        )

    def _wanted(self, situation: Situation) -> Wanted:
        named = self.written.rule
        rules = self.bench.asked.rules.rules
        rule = self.bench.rule(named) if named in self.bench.places else rules[0]
        return self.bench.wanted(situation, self.whole.ball, rule)

    def _facts_to_turn(self, asked: frozenset[str]) -> list[str]:
        """Return the facts that may change: those of the rule first, then those given."""
        changeable = self.bench.play.changeable
        given = {name for name, _ in self.written.given.facts} - asked
        return [*(f for f in changeable if f in asked), *(f for f in changeable if f in given)]

    def _grades(
        self, here: Advice, answers: Sequence[Answered], there: Situation, ball: Ball
    ) -> list[Grade]:
        """Return the grades after a change; where no rule notices it they stay as they are."""
        advice = self._advice(there)
        stays = all(there.get(f) == here.situation.get(f) for f in FINDS_RESTS_ON)
        if stays and advice.rules == here.rules:
            return [each.verdict.grade for each in answers]
        found = []
        for each in answers:
            both_parts = {**self.given, **each.values}
            verdict = judge(choice_of(both_parts), advice)
            is_playable = self.bench.drawing.allows(ball, both_parts)
            found.append(verdict.grade if is_playable else Grade.UNDECIDED)
        return found

    def _said_given(self) -> dict[str, Value]:
        """Return the parts that the question says."""
        chosen = plain_choice(self.written.chosen)
        return {part: value for part, value in self.given.items() if part in chosen}

    def _option(self, answer: Answered, rule: str) -> Option:
        return Option(
            text=answer.text,
            grade=answer.verdict.grade,
            origin=Origin.ADVISED if answer.verdict.grade is Grade.SOUND else answer.origin,
            choice=choice_of(answer.values),
            rules=answer.verdict.charged or (rule,),
        )

    def _aim(self, right: Answered) -> tuple[tuple[str, Allowed], ...]:
        aim: dict[str, Allowed] = dict(self._wanted(self.whole.situation).aim)
        for part, known in choice_of({**self.given, **right.values}).parts:
            if not isinstance(known, Absent):
                aim[part] = known
        return tuple(sorted(aim.items(), key=lambda pair: pair[0]))


def _meant(charged: Sequence[str]) -> str:
    found = tuple(dict.fromkeys(charged))[:3]
    return f"name {' or '.join(found)}" if found else "take the rule out"
