"""A quiz as it runs: state + event -> state. No clock, no disk, no screen.

After a pick comes "sure or not", then the answer is `unsaved`; feedback begins only once the
caller has put it on disk and says so with `Saved`.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from tactics.model.scenario import Answer, Credit, Option, Origin, Quiz, Scenario, credit_of
from tactics.model.verdict import Grade
from tactics.quiz.days import study_day


class Stage(StrEnum):
    """What the player is looking at."""

    ASKING = "asking"
    SURE = "sure"
    SAVING = "saving"
    FEEDBACK = "feedback"
    OVER = "over"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """An option was picked. free: a target of the player's own instead, already graded."""

    number: int | None
    free: Option | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sure:
    """The player says whether the pick is sure."""

    is_sure: bool


@dataclass(frozen=True, slots=True)
class Skip:
    """The player does not know, and says so; it never costs."""


@dataclass(frozen=True, slots=True)
class TimeOut:
    """The clock ran out, where one is on; it counts as no answer."""


@dataclass(frozen=True, slots=True)
class Saved:
    """The answer is on disk."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Disagree:
    """The player sees it differently: a line to the coach about the last answer."""

    text: str


@dataclass(frozen=True, slots=True)
class Twin:
    """The player wants the same picture with the one fact changed, next."""


@dataclass(frozen=True, slots=True)
class Next:
    """On to the next question."""


@dataclass(frozen=True, slots=True)
class Stop:
    """Enough for today; nothing is lost."""


Event = Pick | Sure | Skip | TimeOut | Saved | Disagree | Twin | Next | Stop


@dataclass(frozen=True, slots=True, kw_only=True)
class QuizState:
    """current: the question on screen. answers: on disk, of the questions `asked`, one each.

    unsaved: given, not yet on disk.

    number, total: of the questions planned; a twin has no number of its own. twin: the contrast
    question on offer. before: the question that the current one is the twin of. asked_at: when
    the current question came up.
    """

    stage: Stage
    current: Scenario | None
    waiting: tuple[Scenario, ...]
    number: int
    total: int
    asked_at: datetime
    twin: Scenario | None = None
    before: Scenario | None = None
    pick: Pick | None = None
    asked: tuple[Scenario, ...] = ()
    answers: tuple[Answer, ...] = ()
    unsaved: Answer | None = None
    is_stopped: bool = False

    @property
    def option(self) -> Option | None:
        """Return what was picked, or None."""
        if self.pick is None or self.current is None:
            return None
        number = self.pick.number
        return self.pick.free if number is None else self.current.options[number]


def start(quiz: Quiz, now: datetime) -> QuizState:
    """Return the state before the first question is answered."""
    first, *others = quiz.scenarios or (None,)
    return QuizState(
        stage=Stage.OVER if first is None else Stage.ASKING,
        current=first,
        waiting=tuple(each for each in others if each is not None),
        number=min(len(quiz.scenarios), 1),
        total=len(quiz.scenarios),
        asked_at=now,
    )


def next_step(state: QuizState, event: Event, now: datetime) -> QuizState:
    """Return the state after an event; an event that makes no sense now changes nothing."""
    match event, state.stage:
        case Stop(), Stage.ASKING | Stage.SURE | Stage.SAVING | Stage.FEEDBACK:
            return replace(state, stage=Stage.OVER, is_stopped=True, unsaved=None)
        case Pick(), Stage.ASKING | Stage.SURE:
            return replace(state, stage=Stage.SURE, pick=event)
        case Sure(is_sure=is_sure), Stage.SURE:
            return _given(state, now, is_sure=is_sure)
        case ((Skip() | TimeOut()), (Stage.ASKING | Stage.SURE)):
            return _given(replace(state, pick=None), now, timed_out=isinstance(event, TimeOut))
        case Saved(), Stage.SAVING:
            return _saved(state)
        case Disagree(text=text), Stage.FEEDBACK:
            last = replace(state.answers[-1], disagrees=text.strip())
            return replace(state, answers=(*state.answers[:-1], last))
        case Twin(), Stage.FEEDBACK if state.twin is not None:
            asked = _ask(replace(state, waiting=(state.twin, *state.waiting)), now)
            return replace(asked, before=state.current)
        case Next(), Stage.FEEDBACK:
            return _ask(state, now)
        case _:
            return state


def _given(
    state: QuizState, now: datetime, *, is_sure: bool | None = None, timed_out: bool = False
) -> QuizState:
    assert state.current is not None
    option = state.option
    elapsed_ms = int((now - state.asked_at).total_seconds() * 1000)
    answer = Answer(
        day=study_day(now),
        ask=state.current.ask,
        rule=state.current.rule,
        revision=state.current.revision,
        pair=state.current.pair,
        picked=None if state.pick is None else state.pick.number,
        grade=None if option is None else option.grade,
        credit=_credit(option),
        sure=is_sure,
        confused_with=confused_with(state.current, state.pick),
        took_ms=max(elapsed_ms, 0),
        timed_out=timed_out,
        is_twin=state.current.is_twin,
    )
    return replace(state, stage=Stage.SAVING, unsaved=answer)


def _credit(option: Option | None) -> Credit | None:
    """Return what an answer earns: nothing is counted where none was given or rules leave it."""
    if option is None or option.grade is Grade.UNDECIDED:
        return None
    return credit_of(option.grade)


def confused_with(scenario: Scenario, pick: Pick | None) -> str:
    """Return the rule whose advice was given instead: what is right beyond the one change.

    On a twin that is what was right before the change.
    """
    if pick is None or pick.number is None or pick.number == scenario.sound:
        return ""
    if scenario.is_twin:
        was_right = scenario.options[pick.number].origin is Origin.ADVISED
        rule = scenario.neighbour if was_right else ""
    else:
        flip = scenario.flip
        is_its = flip is not None and flip.answer is None and pick.number == flip.sound
        rule = flip.rule if flip is not None and is_its else ""
    return rule if rule != scenario.rule else ""


def _saved(state: QuizState) -> QuizState:
    answer = state.unsaved
    assert answer is not None
    assert state.current is not None
    missed = answer.grade is not None and answer.grade is not Grade.SOUND
    twin = twin_of(state.current) if missed else None
    return replace(
        state,
        stage=Stage.FEEDBACK,
        unsaved=None,
        asked=(*state.asked, state.current),
        answers=(*state.answers, answer),
        twin=twin,
    )


def _ask(state: QuizState, now: datetime) -> QuizState:
    if not state.waiting:
        return replace(state, stage=Stage.OVER, pick=None, twin=None)
    return replace(
        state,
        stage=Stage.ASKING,
        current=state.waiting[0],
        waiting=state.waiting[1:],
        number=state.number + (not state.waiting[0].is_twin),
        pick=None,
        twin=None,
        before=None,
        asked_at=now,
    )


def twin_of(scenario: Scenario) -> Scenario | None:
    """Return the contrast question: the same picture and options, one fact changed.

    What the coach noted was about the ball before the change.
    None where the change does not make exactly one other option sound and the rest wrong.
    """
    flip = scenario.flip
    if flip is None or scenario.is_twin or not flip.is_whole or flip.sound == scenario.sound:
        return None
    options = list(scenario.options)
    options[flip.sound] = flip.answer or options[flip.sound]
    graded = zip(options, flip.grades, strict=True)
    return replace(
        scenario,
        situation=flip.situation,
        facts=flip.facts,
        options=tuple(replace(option, grade=grade) for option, grade in graded),
        sound=flip.sound,
        rule=flip.rule,
        revision=flip.revision,
        neighbour=scenario.rule,
        because=flip.because,
        cue=flip.cue,
        aim=options[flip.sound].aim,
        flip=None,
        note="",
        is_twin=True,
    )
