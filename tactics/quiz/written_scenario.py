"""A written question put together: facts in words, the answers, and the one changed fact."""

from dataclasses import dataclass

from tactics.model.choice import Choice
from tactics.model.known import Allowed
from tactics.model.quiz_file import NOTHING_CHOSEN, WrittenScenario
from tactics.model.scenario import Ask, Flip, Option, Scenario
from tactics.quiz.telling import changed, facts_sentence
from tactics.quiz.written_ball import WholeBall
from tactics.quiz.written_bench import Bench
from tactics.quiz.written_turn import Turned, facts_told, said
from tactics.report.visible import visible


@dataclass(frozen=True, slots=True, kw_only=True)
class Core:
    """What a question is made of. right: number of the sound option. asked: facts that decide.

    turn: the change that turns it; rule_there, because_there: what decides then, and why.
    answer_there: what is right then, where none of the options is. is_steady: no change turns it.
    """

    ask: Ask
    prompt: str
    options: tuple[Option, ...]
    right: int
    rule: str
    because: str
    asked: frozenset[str]
    turn: Turned | None
    rule_there: str
    because_there: str
    context: Choice = NOTHING_CHOSEN
    aim: tuple[tuple[str, Allowed], ...] = ()
    is_conflict: bool = False
    answer_there: Option | None = None
    is_steady: bool = False


def put_together(
    bench: Bench, written: WrittenScenario, whole: WholeBall, core: Core, seed: str
) -> Scenario:
    """Return a written scenario as a question."""
    facts = facts_told(bench.advisor, whole.situation, written.given, core.asked, core.turn)
    flip = None if core.turn is None else _flip(bench, core, core.turn, facts)
    return Scenario(
        ask=core.ask,
        situation=whole.situation,
        told=facts,
        context=core.context,
        prompt=core.prompt,
        facts=facts_sentence(bench.advisor, whole.situation, facts),
        options=core.options,
        sound=core.right,
        rule=core.rule,
        revision=bench.revisions[core.rule],
        because=visible(written.because or core.because),
        neighbour="" if flip is None else flip.rule,
        cue=visible(bench.rule(core.rule).cue),
        note=visible(written.note),
        aim=core.aim,
        flip=flip,
        is_conflict=core.is_conflict,
        is_steady=core.is_steady,
        seed=f"{seed}/{written.id}",
    )


def _flip(bench: Bench, core: Core, turn: Turned, facts: tuple[str, ...]) -> Flip:
    change = changed(bench.advisor, turn.situation, turn.near.fact)
    right = core.answer_there or core.options[turn.sound]
    return Flip(
        fact=turn.near.fact,
        was=turn.near.was,
        now=turn.near.now,
        sound=turn.sound,
        grades=turn.grades,
        rule=core.rule_there,
        revision=bench.revisions[core.rule_there],
        situation=turn.situation,
        facts=facts_sentence(bench.advisor, turn.situation, facts),
        because=visible(core.because_there),
        cue=visible(bench.rule(core.rule_there).cue),
        said=said(
            change, right.text, turn.grades, core.right, is_new=core.answer_there is not None
        ),
        answer=core.answer_there,
    )
