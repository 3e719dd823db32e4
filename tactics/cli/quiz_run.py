"""A quiz from its first question to its last line."""

import argparse
import gc
import os
import sys
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import partial
from shutil import get_terminal_size

from tactics.cli import files
from tactics.cli.main import Exit
from tactics.cli.quiz_files import QUIZZES, OpenedQuiz, open_quiz, rules_for
from tactics.cli.quiz_players import Player, scheduler, tell
from tactics.cli.quiz_questions import Made, questions, written_questions
from tactics.cli.quiz_rules import usable_advisor, wishes
from tactics.cli.rule_files import LoadedRules, load_rules
from tactics.cli.terminal import can_draw, read_line
from tactics.engine.advisor import Advisor
from tactics.model.scenario import Answer, Scenario
from tactics.model.vocabulary import Vocabulary
from tactics.quiz.aiming import graded_spot
from tactics.quiz.days import study_day
from tactics.quiz.kept import Trouble
from tactics.quiz.schedule import Scheduler
from tactics.quiz.steps import start
from tactics.quiz.store import Store
from tactics.reading.suggest import did_you_mean, near
from tactics.report.layout import wrapped
from tactics.report.quiz_sheet import wrapped_to
from tactics.report.visible import visible
from tactics.screens.plain import Talk, run_talk, wants_lines
from tactics.screens.quiz_closing import Ahead, closing_lines
from tactics.screens.quiz_sitting import Sitting
from tactics.screens.view import End, in_ascii


def run_quiz(player: Player, options: argparse.Namespace) -> int:
    """Return the exit code of a quiz: 130 where it was stopped early."""
    opened = open_quiz(options.file) if options.file else None
    if options.file and opened is None:
        return _no_such_quiz(options.file)
    loaded = (
        load_rules(options.rules, with_drills=False) if opened is None else _for(opened, options)
    )
    advisor = usable_advisor(loaded)
    store = None if advisor is None else player.open()
    if advisor is None or store is None:
        return Exit.COULD_NOT_RUN
    with store:
        made = _made(player, options, advisor, store, opened)
        if made is None:
            return Exit.COULD_NOT_RUN
        if not made.quiz.scenarios:
            print("tactics: nothing fair can be asked about these rules", file=sys.stderr)
            return Exit.COULD_NOT_RUN
        return _sit(player, options, advisor, made, store)


def _made(
    player: Player,
    options: argparse.Namespace,
    advisor: Advisor,
    store: Store,
    opened: OpenedQuiz | None,
) -> Made | None:
    """Return the questions, or None with the reason said."""
    if opened is not None:
        return written_questions(opened, advisor, options)
    asked = wishes(options, advisor)
    return None if asked is None else questions(player, options, advisor, asked, store)


def _for(opened: OpenedQuiz, options: argparse.Namespace) -> LoadedRules:
    """Return the rules a quiz file is for, its own text among the sources of messages."""
    loaded = rules_for(opened, options.rules)
    own = () if opened.source is None else (opened.source,)
    return replace(loaded, sources=(*loaded.sources, *own))


def _no_such_quiz(written: str) -> int:
    names = [path.stem for path in files.shipped(QUIZZES, ".yaml")]
    close = near(written, names)
    hint = did_you_mean(close) if close else f"it can be {', '.join(names)}, or a path"
    print(f'tactics: there is no quiz "{visible(written)}"; {hint}', file=sys.stderr)
    return Exit.COULD_NOT_RUN


@dataclass(slots=True, kw_only=True)
class _Kept:
    """Puts answers into the store of a player."""

    store: Store
    quiz: int
    schedule: Scheduler = field(default_factory=scheduler)

    def keep(self, scenario: Scenario, answer: Answer) -> str:
        """Put an answer on disk."""
        return _sentence(self.store.save(self.quiz, scenario, answer, self.schedule))

    def remark(self, text: str) -> str:
        """Put a line for the coach beside the last answer."""
        return _sentence(self.store.disagree(self.quiz, text))


def _sentence(trouble: Trouble | None) -> str:
    return "" if trouble is None else f"{trouble.sentence} {trouble.hint}".strip()


def _sit(
    player: Player, options: argparse.Namespace, advisor: Advisor, made: Made, store: Store
) -> int:
    number = store.begin(made.quiz, study_day(player.now))
    if isinstance(number, Trouble):
        tell(number)
        return Exit.COULD_NOT_RUN
    kept = _Kept(store=store, quiz=number)
    sitting = Sitting(
        state=replace(start(made.quiz, player.now), total=made.total),
        keeper=kept,
        now=_now,
        grade=partial(graded_spot, advisor),
        rest=made.rest,
    )
    try:
        end = _show(sitting, player.nickname, options, advisor.vocabulary)
    except KeyboardInterrupt:  # between two questions
        end = End.STOPPED
    if end is End.STOPPED:
        sitting.stops()
    store.finish(number, stopped=sitting.state.is_stopped)
    _close(sitting, _ahead(kept, advisor, sitting), made.quiz.seed, plain_signs=options.ascii)
    if sitting.trouble:
        print(f"tactics: {sitting.trouble}", file=sys.stderr)
        return Exit.COULD_NOT_RUN
    return Exit.STOPPED if sitting.state.is_stopped else Exit.FINE


def _now() -> datetime:
    return datetime.now().astimezone()


def _ahead(kept: _Kept, advisor: Advisor, sitting: Sitting) -> Ahead:
    """Return what comes back when, for the rules of this quiz."""
    book = kept.store.book(kept.schedule) if sitting.state.answers else None
    pages = {} if book is None or isinstance(book, Trouble) else book.pages
    wanted = {(answer.rule, answer.revision) for answer in sitting.state.answers}
    return Ahead(
        due={rule: page.memory.due for (rule, revision), page in pages.items()
             if (rule, revision) in wanted},
        titles={rule.id: rule.title for rule in advisor.rules.rules},
        today=study_day(_now()),
    )  # fmt: skip


def _close(sitting: Sitting, ahead: Ahead, seed: str, *, plain_signs: bool) -> None:
    said = [*closing_lines(sitting.state, ahead), f"Seed of this quiz: {seed}"]
    for text in said:
        shown = visible(in_ascii(text) if plain_signs else text)
        print("\n".join(wrapped(shown)))


def _say(text: str) -> None:
    """Print a line; on a terminal it is broken between words, through a pipe it stays whole."""
    if sys.stdout.isatty():
        text = "\n".join(wrapped_to(text, get_terminal_size().columns - 1))
    print(text, flush=True)


def _show(sitting: Sitting, nickname: str, options: argparse.Namespace, words: Vocabulary) -> End:
    """Run the quiz on the screen or line by line, as the terminal allows."""
    plain_signs = options.ascii or not can_draw(sys.stdout)
    if wants_lines(sys.stdin, sys.stdout, os.environ, asked=options.plain):
        from tactics.screens.quiz_plain import QuizLines

        gc.enable()
        lines = QuizLines(sitting, words, nickname)
        talk = Talk(ask=lines.ask, take=lines.take, plain_signs=plain_signs)
        return run_talk(talk, _say, read_line)
    from tactics.report.quiz_court import ASCII, GLYPHS
    from tactics.screens.frame import Scene, run_scene
    from tactics.screens.quiz import QuizScreen

    gc.enable()
    shown = QuizScreen(
        sitting=sitting,
        words=words,
        marks=ASCII if plain_signs else GLYPHS,
        nickname=nickname,
        limit_s=options.clock,
    )
    return run_scene(
        Scene(
            draw=shown.draw,
            press=shown.press,
            tick=shown.tick,
            rest=shown.rest,
            plain_signs=plain_signs,
        )
    )
