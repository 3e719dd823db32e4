"""Answers that come back from a paper done elsewhere: kept once, however often they come."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256

from tactics.model.scenario import Answer, Quiz, Scenario
from tactics.quiz.kept import Trouble
from tactics.quiz.record import answer_out
from tactics.quiz.revision import canonical
from tactics.quiz.schedule import Scheduler
from tactics.quiz.store import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """What became of a paper. out_of_date: rules that changed since, or are no longer there.

    is_new: False where the same answers to the same paper had come before; then nothing changed.
    """

    answered: int
    is_new: bool
    out_of_date: tuple[str, ...] = ()

    def lines(self, titles: Mapping[str, str]) -> tuple[str, ...]:
        """Return what to say about it, one sentence each. titles: of the rules as they are now."""
        if not self.is_new:
            return ("These answers are here already; nothing was added.",)
        first = f"{self.answered} {'answer' if self.answered == 1 else 'answers'} taken in."
        return (
            first,
            *(
                f'"{titles.get(rule, rule)}" '
                f"{'was changed by your coach' if rule in titles else 'is no longer a rule'} "
                "since the paper was made: what was answered does not count any more."
                for rule in self.out_of_date
            ),
        )


def take_in(
    store: Store,
    paper: str,
    quiz: Quiz,
    answers: Sequence[Answer],
    *,
    revisions: Mapping[str, str],
    scheduler: Scheduler,
) -> TakenIn | Trouble:
    """Keep the answers to a paper, all or none, and say what became of them.

    paper: what names this paper and no other. quiz: its questions, one for each answer and in
    their order. revisions: rule -> revision as the rules are now. Each answer counts on its own
    day; one about a rule that has changed since is kept and counts no more.
    """
    answered: list[tuple[Scenario, Answer]] = list(zip(quiz.scenarios, answers, strict=True))
    is_new = store.save_paper(_key(paper, answers), quiz, answered, scheduler)
    if isinstance(is_new, Trouble):
        return is_new
    old = (answer.rule for answer in answers if revisions.get(answer.rule) != answer.revision)
    return TakenIn(
        answered=sum(answer.credit is not None for answer in answers),
        is_new=is_new,
        out_of_date=tuple(dict.fromkeys(old)),
    )


def _key(paper: str, answers: Sequence[Answer]) -> str:
    """Return one word for a paper with these answers: other answers to it are another word."""
    told = canonical([paper, *(sorted(answer_out(answer).items()) for answer in answers)])
    return sha256(told.encode()).hexdigest()
