"""The quiz line by line: the same steps as on the full screen, in words only."""

from collections.abc import Iterator
from dataclasses import dataclass

from tactics.model.vocabulary import Vocabulary
from tactics.quiz.steps import Pick, Skip, Stage, Sure
from tactics.report.quiz_lines import HOW_SURE, feedback_lines, question_lines
from tactics.screens import quiz_words as said
from tactics.screens.quiz_sitting import Sitting

_HOW = "Type 1, 2 or 3. l: leave it open, r: hear it again, q: stop."
_NOT_UNDERSTOOD = "That was not one of the answers."
_SEEN_DIFFERENTLY = "i"
_ON_ONE_LINE = "Type i and your words on one line, then Enter."
_SURE = {"s": True, "sure": True, "n": False, "not sure": False}


@dataclass(slots=True)
class QuizLines:
    """What is said next, and what each line of answer does."""

    sitting: Sitting
    words: Vocabulary
    nickname: str
    _said: str = ""
    _is_heard: bool = False

    def ask(self) -> Iterator[str]:
        """Yield the lines before the next answer."""
        if self._said:
            yield self._said
        if not self._is_heard:
            yield from self._shown()
        yield self._keys()
        self._said, self._is_heard = "", True

    def take(self, written: str) -> bool:
        """Take a line; return False when the quiz is over."""
        self.sitting.rest.begin()
        answer = written.strip()
        folded = answer.casefold()
        if folded in ("q", "quit", "stop"):
            self.sitting.stops()
        elif folded == "r":
            self._is_heard = False
        elif not self._acts(answer, folded):
            self._said = _NOT_UNDERSTOOD
        return not self.sitting.is_over

    def _acts(self, answer: str, folded: str) -> bool:
        match self.sitting.state.stage:
            case Stage.ASKING:
                return self._answers(folded)
            case Stage.SURE:
                return self._tells_how_sure(folded)
            case _:
                return self._goes_on(answer, folded)

    def _answers(self, folded: str) -> bool:
        if folded == "l":
            self.sitting.does(Skip())
        elif folded in ("1", "2", "3"):
            self.sitting.does(Pick(number=int(folded) - 1))
        else:
            return False
        self._is_heard = False
        return True

    def _tells_how_sure(self, folded: str) -> bool:
        if folded in ("1", "2", "3"):
            return self._answers(folded)
        if folded not in _SURE:
            return False
        self.sitting.does(Sure(is_sure=_SURE[folded]))
        self._is_heard = False
        return True

    def _goes_on(self, answer: str, folded: str) -> bool:
        if folded.startswith(f"{_SEEN_DIFFERENTLY} "):
            self.sitting.disagrees(" ".join(answer.split()[1:]))
            self._said = said.KEPT_FOR_COACH
            return True
        if folded == _SEEN_DIFFERENTLY:
            self._said = _ON_ONE_LINE
            return True
        reply = self.sitting.reply
        if folded == "c" and reply is not None and reply.can_twin:
            self.sitting.goes_on(with_twin=True)
        elif not folded:
            self.sitting.goes_on()
        else:
            return False
        self._is_heard = False
        return True

    def _shown(self) -> Iterator[str]:
        sitting = self.sitting
        match sitting.state.stage:
            case Stage.ASKING:
                state = sitting.state
                heading = said.title(self.nickname, sitting.scenario, state.number, state.total)
                yield from question_lines(sitting.scenario, self.words, heading, state.before)
            case Stage.FEEDBACK if sitting.reply is not None:
                yield from feedback_lines(sitting.scenario, sitting.reply, self.words)
            case _:
                return

    def _keys(self) -> str:
        match self.sitting.state.stage:
            case Stage.ASKING:
                return _HOW
            case Stage.SURE:
                return HOW_SURE
            case _:
                reply = self.sitting.reply
                twin = ", c: the same ball with that one thing changed"
                more = twin if reply is not None and reply.can_twin else ""
                on = "finish" if self.sitting.is_last else "next question"
                rest = "i and a line: I see it differently, r: hear it again, q: stop."
                return f"Enter: {on}{more}, {rest}"
