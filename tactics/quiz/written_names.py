"""A written question that asks what is seen: names of situations, as the rule set defines them."""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from tactics.engine.match import NO, YES, Truth
from tactics.model.names import fold
from tactics.model.quiz_file import WrittenScenario
from tactics.model.rule import Term
from tactics.model.scenario import Ask, Option, Origin, Scenario
from tactics.model.situation import Situation
from tactics.model.verdict import Grade
from tactics.quiz.phrases import question
from tactics.quiz.play import Ball
from tactics.quiz.telling import facts_in_term
from tactics.quiz.written_ball import WholeBall
from tactics.quiz.written_bench import Bench
from tactics.quiz.written_scenario import Core, put_together
from tactics.quiz.written_turn import turned
from tactics.quiz.written_words import Told
from tactics.reading.quiz_codes import QuizCode
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.wording import both, either, quoted
from tactics.report.visible import visible

_GRADES = {True: Grade.SOUND, False: Grade.UNSOUND}


@dataclass(frozen=True, slots=True)
class NamesAsked:
    """One written scenario that asks for a name."""

    bench: Bench
    told: Told
    written: WrittenScenario
    whole: WholeBall

    def scenario(self, seed: str, rng: Random) -> Scenario | None:
        """Return the question with its answers shuffled, or None with what is wrong."""
        terms = self._terms()
        if terms is None or not self._are_fair(terms):
            return None
        shown = rng.sample(terms, len(terms))
        right = next(n for n, term in enumerate(shown) if self._fits(term, self.whole.known) is YES)
        rule = self._rule(shown[right])
        return None if rule is None else self._finished(shown, right, rule, seed)

    def _terms(self) -> list[Term] | None:
        known = {fold(term.name): term for term in self.bench.advisor.rules.terms}
        found = []
        for option in self.written.options:
            term = known.get(fold(option.name))
            if term is not None:
                found.append(term)
                continue
            names = [each.name for each in known.values()]
            spelt = near(option.name, names)
            self.told.note(
                QuizCode.UNKNOWN_NAME,
                option.span,
                f"{quoted(option.name)} of scenario {quoted(self.written.id)} is not a named "
                "situation of these rules",
                did_you_mean(spelt) if spelt else f"it can be {either(names)}",
                of=self.written,
                replacement=spelt[0] if len(spelt) == 1 else "",
            )
        if not self.written.options:
            self.told.note(
                QuizCode.NOTHING_TO_ASK,
                self.written.span,
                f"scenario {quoted(self.written.id)} asks for a name and offers none",
                "write three names behind options",
                of=self.written,
            )
        return found if found and len(found) == len(self.written.options) else None

    def _fits(self, term: Term, situation: Situation) -> Truth:
        names = [fold(each) for each in self.bench.advisor.program.term_names]
        return self.bench.advice(situation).terms[names.index(fold(term.name))]

    def _are_fair(self, terms: Sequence[Term]) -> bool:
        truths = [self._fits(term, self.whole.known) for term in terms]
        fitting = [term for term, truth in zip(terms, truths, strict=True) if truth is YES]
        open_ones = [term for term, truth in zip(terms, truths, strict=True)
                     if truth not in (YES, NO)]  # fmt: skip
        own = self.written.answer
        place = self.written.place_of("options")
        whose = f"scenario {quoted(self.written.id)}"
        if open_ones:
            self.told.note(
                QuizCode.OPEN_ANSWER, place,
                f"whether {quoted(open_ones[0].name)} fits in {whose} is left open",
                "give one word or one number for each fact that the name is made of",
                of=self.written, notes=tuple(map(_meaning, open_ones)),
            )  # fmt: skip
        elif own is not None and fold(own.name) not in {fold(term.name) for term in fitting}:
            self._note_other(terms, fitting)
        elif len(fitting) > 1:
            self.told.note(
                QuizCode.SEVERAL_RIGHT, place,
                f"more than one name fits in {whose}: {both(t.name for t in fitting)}",
                "offer another name instead of one of them, or give other facts",
                of=self.written, notes=tuple(map(_meaning, fitting)),
            )  # fmt: skip
        elif not fitting:
            self.told.note(
                QuizCode.NO_SOUND_OPTION, place,
                f"none of the names of {whose} fits",
                "offer one that fits, or give other facts",
                of=self.written, notes=tuple(map(_meaning, terms)),
            )  # fmt: skip
        else:
            return True
        return False

    def _note_other(self, terms: Sequence[Term], fitting: Sequence[Term]) -> None:
        own = self.written.answer
        name = "" if own is None else own.name
        meant = [term for term in terms if fold(term.name) == fold(name)]
        reason = f", because: {self.written.because}" if self.written.because else "."
        self.told.note(
            QuizCode.OTHER_ANSWER,
            self.written.place_of("answer"),
            f"the answer of scenario {quoted(self.written.id)} does not fit by the rules",
            "write another answer, or change what is given",
            of=self.written,
            notes=(f"The coach wrote: {name}{reason}", *map(_meaning, (*meant, *fitting))),
        )

    def _rule(self, term: Term) -> str | None:
        """Return the rule the question is about: the one named, else one that uses the name."""
        places = self.bench.places
        users = [rule for rule, place in places.items()
                 if fold(term.name) in self.bench.naming.names_of(place)]  # fmt: skip
        rules = self.bench.advice(self.whole.situation).rules
        applying = [rule for rule in users if rules[places[rule]] is YES]
        found = [*applying, *users]
        if self.written.rule in found or (found and not self.written.rule):
            return self.written.rule or found[0]
        self.told.note(
            QuizCode.SILENT_RULE,
            self.written.place_of("rule"),
            f"scenario {quoted(self.written.id)} asks for {quoted(term.name)}, which "
            f"{quoted(self.written.rule) if self.written.rule else 'no rule'} uses",
            f"name {either(found[:3])}" if found else "ask for a name that some rule uses",
            of=self.written,
        )
        return None

    def _finished(self, shown: Sequence[Term], right: int, rule_id: str, seed: str) -> Scenario:
        bench, whole = self.bench, self.whole
        asked = frozenset(name for term in shown for name in self._facts_in(term))
        turn = turned(
            bench.play,
            (whole.situation, whole.ball),
            right,
            [fact for fact in bench.play.changeable if fact in asked],
            lambda there, ball: self._grades(there, ball, shown),
        )
        core = Core(
            ask=Ask.NAME,
            prompt=question(Ask.NAME, {}),
            options=tuple(
                Option(
                    text=_name(term),
                    grade=_GRADES[number == right],
                    origin=Origin.ADVISED if number == right else Origin.WRITTEN,
                    term=term.name,
                )
                for number, term in enumerate(shown)
            ),
            right=right,
            rule=rule_id,
            because=_meaning(shown[right]),
            asked=asked,
            turn=turn,
            rule_there=rule_id,
            because_there="" if turn is None else _meaning(shown[turn.sound]),
        )
        return put_together(bench, self.written, whole, core, seed)

    def _grades(self, there: Situation, _ball: Ball, shown: Sequence[Term]) -> list[Grade]:
        return [_GRADES[self._fits(term, there) is YES] for term in shown]

    def _facts_in(self, term: Term) -> frozenset[str]:
        names = [fold(each) for each in self.bench.advisor.program.term_names]
        return facts_in_term(self.bench.advisor.program, names.index(fold(term.name)))


def _name(term: Term) -> str:
    return visible(term.name[:1].upper() + term.name[1:])


def _meaning(term: Term) -> str:
    return visible(f"{_name(term)} means: {' '.join(term.means.split())}.")
