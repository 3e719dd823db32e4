"""What is wrong with the answers of a written question, with what the rules say instead."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tactics.model.known import Allowed, Interval, Within
from tactics.model.quiz_file import WrittenScenario
from tactics.model.scenario import Origin
from tactics.model.trait import Role
from tactics.model.verdict import Grade, Reason, Verdict
from tactics.quiz.candidates import Values
from tactics.quiz.shots import Wanted
from tactics.quiz.written_bench import Bench
from tactics.quiz.written_words import Told
from tactics.reading.quiz_codes import QuizCode
from tactics.reading.wording import both, quoted
from tactics.report.words import say_short
from tactics.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """An answer with its verdict. place: where it stands in the file."""

    values: Values
    text: str
    verdict: Verdict
    origin: Origin
    place: Span


@dataclass(frozen=True, slots=True)
class Troubles:
    """Notes what is wrong with the answers of a scenario. parts: those they speak about."""

    bench: Bench
    told: Told
    written: WrittenScenario
    wanted: Wanted
    parts: tuple[str, ...]

    def unplayable(self, answer: Answered) -> None:
        """Note that an answer cannot be played."""
        self.told.note(
            QuizCode.CANNOT_HAPPEN,
            answer.place,
            f"this answer of scenario {quoted(self.written.id)} cannot be played here",
            "write a stroke, a place or a response that goes with the situation",
            of=self.written,
        )

    def alike(self, answers: Sequence[Answered]) -> None:
        """Note that two answers read the same."""
        for place, each in enumerate(answers):
            first = next((other for other in answers[:place] if other.text == each.text), None)
            if first is not None:
                self.told.note(
                    QuizCode.OPTIONS_ALIKE,
                    each.place,
                    f"two answers of scenario {quoted(self.written.id)} read the same: "
                    f"{quoted(each.text)}",
                    "numbers are shown with one decimal; write one that differs by more",
                    of=self.written,
                )

    def left_open(self, answer: Answered) -> None:
        """Note that the rules leave an answer open, and why."""
        verdict = answer.verdict
        words = self.bench.advisor.vocabulary
        if verdict.reason is Reason.CONFLICT:
            why = f"the rules {both(verdict.clashing)} disagree here"
            hint = "let one of the two rules beat the other, or ask about another situation"
        elif verdict.reason is Reason.NO_RULE:
            why = "no rule speaks about it"
            hint = "give the answers parts that the rules speak about"
        else:
            names = [words.trait(each).name for each in verdict.missing]
            why = f"it hangs on {both(quoted(name) for name in names) or 'more than is given'}"
            hint = "give one word or one number for it"
            if any(words.trait(each).role is Role.PART for each in verdict.missing):
                hint = "say it in every option, or once for all of them under chosen"
        self.told.note(
            QuizCode.OPEN_ANSWER,
            answer.place,
            f"the rules leave an answer of scenario {quoted(self.written.id)} open: {why}",
            hint,
            of=self.written,
        )

    def other_answer(self, own: Answered, sound: Sequence[Answered]) -> None:
        """Note that the coach's answer is not the one the rules give, with both reasons."""
        best = f"The rules want: {sound[0].text}." if sound else ""
        self.told.note(
            QuizCode.OTHER_ANSWER,
            self.written.place_of("answer"),
            f"the answer of scenario {quoted(self.written.id)} is {own.verdict.grade.value} by the "
            "rules",
            f"write answer: {self._number(sound[0])}, or change the rule"
            if sound and self.written.options
            else "write another answer, or change the rule",
            of=self.written,
            notes=tuple(
                each
                for each in (
                    f"The coach wrote: {own.text}"
                    + (f", because: {self.written.because}" if self.written.because else "."),
                    *self._reasons(own),
                    best or self.wanted_words(),
                )
                if each
            ),
        )

    def _number(self, answer: Answered) -> int:
        return [each.span for each in self.written.options].index(answer.place) + 1

    def _reasons(self, answer: Answered) -> Iterator[str]:
        for rule_id in (answer.verdict.charged or (answer.verdict.deciding,))[:2]:
            if rule_id:
                rule = self.bench.rule(rule_id)
                yield f"The rules say: {rule.title} [{rule.id}], because: {rule.because}"

    def several(self, kept: Sequence[Answered]) -> None:
        """Note that the rules accept more than one answer."""
        first, second, *_ = kept
        words = {Grade.SOUND: "sound", Grade.ACCEPTABLE: "acceptable"}
        self.told.note(
            QuizCode.SEVERAL_RIGHT,
            second.place,
            f"scenario {quoted(self.written.id)} has more than one answer that the rules accept",
            "change one of them until it breaks a rule, or give facts that tell them apart",
            of=self.written,
            notes=tuple(f"{words[each.verdict.grade]}: {each.text}" for each in (first, second)),
        )

    def none_sound(self, answers: Sequence[Answered]) -> None:
        """Note that no answer is sound."""
        self.told.note(
            QuizCode.NO_SOUND_OPTION,
            self.written.place_of("options"),
            f"no answer of scenario {quoted(self.written.id)} is sound",
            "write one that the rules want here",
            of=self.written,
            notes=(
                *(f"{each.verdict.grade.value}: {each.text}" + _by(each) for each in answers),
                self.wanted_words(),
            ),
        )

    def wanted_words(self) -> str:
        """Return what the rules want here, of the parts that the answers speak about."""
        words = self.bench.advisor.vocabulary
        wanted = self.wanted.aim
        parts = [part for part in self.parts if part in wanted]
        said_parts = [
            f"{words.trait(part).name} {say_short(_rounded(wanted[part]), words.trait(part))}"
            for part in parts
        ]
        return f"Here the rules want: {', '.join(said_parts)}." if said_parts else ""


def _rounded(allowed: Allowed) -> Allowed:
    """Return a set of numbers with limits of one decimal."""
    if not isinstance(allowed, Within):
        return allowed
    return Within(
        tuple(
            Interval((round(each.low[0], 1), each.low[1]), (round(each.high[0], 1), each.high[1]))
            for each in allowed.intervals
        )
    )


def _by(answer: Answered) -> str:
    return f" [{', '.join(answer.verdict.charged)}]" if answer.verdict.charged else ""
