"""Scenarios written by hand -> questions. Where coach and rules differ, both reasons are told."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from random import Random

from tactics.engine.advisor import Advisor
from tactics.engine.coverage import is_covered
from tactics.model.known import word
from tactics.model.names import fold, slug
from tactics.model.quiz_file import QuizFile, WrittenScenario
from tactics.model.scenario import Ask, Scenario
from tactics.problem import Reading, by_place
from tactics.quiz.requests import Request
from tactics.quiz.topics import askable_rules, rules_of_topic, topic_hint
from tactics.quiz.written_asks import asked_of, context_of
from tactics.quiz.written_ball import WholeBall, whole_ball
from tactics.quiz.written_bench import Bench
from tactics.quiz.written_names import NamesAsked
from tactics.quiz.written_shots import ShotAsked
from tactics.quiz.written_words import Told
from tactics.reading.codes import Code
from tactics.reading.quiz_codes import QuizCode
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.wording import quoted

Prepared = Callable[[], Scenario]
"""Makes a question of which nothing is wrong any more; that takes a moment."""


def scenarios_of(advisor: Advisor, quiz_file: QuizFile, seed: str) -> Reading[tuple[Scenario, ...]]:
    """Return the questions of a quiz file in a shuffled order, with what is wrong about them.

    A scenario with a problem is left out. The same seed gives the same questions.
    """
    read = prepared_of(advisor, quiz_file, seed)
    made = tuple(make() for make in read.value or ())
    return Reading(value=made, problems=read.problems)


def prepared_of(advisor: Advisor, quiz_file: QuizFile, seed: str) -> Reading[tuple[Prepared, ...]]:
    """Return what makes each question, in the order in which they are asked."""
    bench = Bench(advisor)
    told = Told(quiz_file)
    found: list[Prepared] = list(_written(bench, quiz_file, seed, told))
    drawn: list[Prepared] = [
        partial(_as_it_is, each) for each in _drawn(bench, quiz_file, seed, told)
    ]
    mixed = Random(f"{seed}/order").sample([*found, *drawn], len(found) + len(drawn))
    numbered = tuple(
        each if each in drawn else partial(_numbered, each, number)
        for number, each in enumerate(mixed)
    )
    return Reading(value=numbered, problems=by_place(told.problems))


def _as_it_is(scenario: Scenario) -> Scenario:
    return scenario


def _numbered(make: Prepared, number: int) -> Scenario:
    return replace(make(), number=number)


def _written(bench: Bench, quiz_file: QuizFile, seed: str, told: Told) -> Iterator[Prepared]:
    for written in quiz_file.scenarios:
        made = Writing(bench, quiz_file.hand, told, written).prepared(seed)
        if made is not None:
            yield made


def _drawn(bench: Bench, quiz_file: QuizFile, seed: str, told: Told) -> tuple[Scenario, ...]:
    """Return the fresh situations that a file asks for."""
    rules = tuple(_named_rules(bench.asked, quiz_file, told))
    if not quiz_file.draw:
        return ()
    drawn = Request(seed=f"{seed}+", rules=rules, count=quiz_file.draw, hand=quiz_file.hand)
    found = bench.maker.make((drawn,))[0].scenarios
    if not found and not told.problems:
        told.note(
            QuizCode.NOTHING_TO_ASK,
            quiz_file.span,
            "nothing fair can be asked about these rules",
            "name other rules or topics",
        )
    return found


def _named_rules(advisor: Advisor, quiz_file: QuizFile, told: Told) -> Iterator[str]:
    askable = {fold(rule): rule for rule in askable_rules(advisor)}
    for each in quiz_file.rules:
        if fold(each.text) in askable:
            yield askable[fold(each.text)]
            continue
        spelt = near(each.text, askable.values())
        told.note(
            Code.UNKNOWN_RULE,
            each.span,
            f"{quoted(each.text)} is not a rule that can be asked about",
            did_you_mean(spelt) if spelt else "write the id of a rule as it stands in the rule set",
            replacement=spelt[0] if len(spelt) == 1 else "",
        )
    for each in quiz_file.topics:
        found = rules_of_topic(advisor, each.text)
        yield from found
        if not found:
            hint, wanted = topic_hint(advisor, each.text)
            told.note(
                QuizCode.UNKNOWN_TOPIC,
                each.span,
                f"there is no topic {quoted(each.text)} in these rules",
                hint,
                replacement=wanted,
            )


@dataclass(frozen=True, slots=True)
class Writing:
    """One written scenario on its way to a question."""

    bench: Bench
    hand: str
    told: Told
    written: WrittenScenario

    def prepared(self, seed: str) -> Prepared | None:
        """Return what makes the question, or None with what is wrong about the scenario."""
        ball = self._ball()
        if ball is None or not self._knows_its_rule():
            return None
        ask = asked_of(self.written, ball)
        rng = Random(f"{seed}/{self.written.id}")
        if ask is Ask.NAME:
            named = NamesAsked(self.bench, self.told, self.written, ball).scenario(seed, rng)
            return None if named is None else partial(_as_it_is, named)
        given = context_of(self.written, ball, ask)
        return ShotAsked(self.bench, self.told, self.written, ball, ask, given).prepared(seed, rng)

    def _ball(self) -> WholeBall | None:
        rules = self.bench.asked.rules
        written = self.written
        given = written.given
        if not is_covered(rules, given.with_facts({"own hand": word(self.hand)})):
            self.told.note(
                QuizCode.OUTSIDE_THE_RULES,
                written.place_of("given"),
                f"the rules do not speak about the situation of scenario {quoted(written.id)}: "
                f"they are for {self.told.applies_to(rules)}",
                "give a situation that the rules are for, or name other rules behind for",
                of=written,
            )
            return None
        ball = whole_ball(self.bench.play, given, self.hand)
        if ball.broken is not None:
            self.told.note(
                QuizCode.CANNOT_HAPPEN,
                written.place_of("given"),
                f"the situation of scenario {quoted(written.id)} cannot happen: "
                f"{ball.broken.because}",
                "change or take out one of the facts given",
                of=written,
            )
            return None
        return ball

    def _knows_its_rule(self) -> bool:
        written, places = self.written, self.bench.places
        if not written.rule or written.rule in places:
            return True
        spelt = near(written.rule, [slug(each) for each in places])
        self.told.note(
            Code.UNKNOWN_RULE,
            written.place_of("rule"),
            f"{quoted(written.rule)} of scenario {quoted(written.id)} is not a rule that can be "
            "asked about",
            did_you_mean(spelt) if spelt else "write the id of a rule as it stands in the rule set",
            of=written,
        )
        return False
