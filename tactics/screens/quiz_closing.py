"""What stands at the end of a quiz: counts, what comes back when, one line to take along."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from tactics.model.scenario import Answer, Ask
from tactics.model.verdict import Grade
from tactics.quiz.if_then import if_then
from tactics.quiz.steps import QuizState
from tactics.report.layout import counted

CLAIM = (
    "This quiz helps you remember your coach's rules and see when each applies. "
    "It supports a coach and never replaces one."
)
_NOT_ANSWERED = "left open"
_NAMED, _DAYS = 2, 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """What comes back: rule -> day, the titles of rules, and today."""

    due: Mapping[str, date]
    titles: Mapping[str, str]
    today: date


def closing_lines(state: QuizState, ahead: Ahead) -> tuple[str, ...]:
    """Return the closing words, one paragraph each; they never mark the person."""
    return tuple(_closing(state, ahead))


def _closing(state: QuizState, ahead: Ahead) -> Iterator[str]:
    if not state.answers:
        if state.is_stopped:
            yield "Stopped before the first answer. Nothing is lost."
        return
    start = "Stopped; every answer is kept" if state.is_stopped else "That is enough for today"
    yield f"{start}. {counted(len(state.answers), 'question')}: {_counts(state.answers)}."
    yield from _coming_back(state, ahead)
    plan = _plan(state)
    if plan:
        yield f"To take along: {plan}"
    remarks = sum(bool(answer.disagrees) for answer in state.answers)
    if remarks:
        yield f"{counted(remarks, 'line')} left for your coach."
    yield CLAIM


def _counts(answers: tuple[Answer, ...]) -> str:
    counts = Counter(_NOT_ANSWERED if a.grade is None else a.grade.value for a in answers)
    order = (*(grade.value for grade in Grade), _NOT_ANSWERED)
    return ", ".join(f"{counts[word]} {word}" for word in order if counts[word])


def _coming_back(state: QuizState, ahead: Ahead) -> Iterator[str]:
    """Yield the days on which rules of this quiz come back, the nearest first."""
    met = dict.fromkeys(answer.rule for answer in state.answers)
    days = sorted({ahead.due[rule] for rule in met if rule in ahead.due})
    for day in days[:_DAYS]:
        rules = [rule for rule in met if ahead.due.get(rule) == day]
        names = [ahead.titles.get(rule, rule) for rule in rules]
        more = f"; and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
        yield f"Comes back {_day(day, ahead.today)}: {'; '.join(names[:_NAMED])}{more}."
    later = sum(ahead.due.get(rule, date.min) in days[_DAYS:] for rule in met)
    if later:
        yield f"Later than that: {counted(later, 'rule')}."


def _day(day: date, today: date) -> str:
    ahead = (day - today).days
    if ahead <= 1:
        return "tomorrow" if ahead == 1 else "today"
    return f"in {ahead} days"


def _plan(state: QuizState) -> str:
    """Return the plan of the first question that was missed, else of the last one that has one.

    A name that was asked for is nothing to do on court: it is taken only where there is no other.
    """
    both = list(zip(state.asked, state.answers, strict=True))
    missed = [scenario for scenario, answer in both if answer.grade is not Grade.SOUND]
    order = [*missed, *(scenario for scenario, _ in reversed(both))]
    played = sorted(order, key=lambda scenario: scenario.ask is Ask.NAME)
    return next((plan for plan in map(if_then, played) if plan), "")
