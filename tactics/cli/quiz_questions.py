"""The questions of a quiz: planned for the player and made from the rules, or read from a file."""

import argparse
import os
import sys
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from random import Random

from tactics.cli import messages
from tactics.cli.quiz_files import OpenedQuiz
from tactics.cli.quiz_players import Player, scheduler, tell
from tactics.cli.quiz_rules import Wishes
from tactics.engine.advisor import Advisor
from tactics.model.scenario import Quiz, Scenario
from tactics.quiz.days import study_day
from tactics.quiz.generate import GENERATOR, Maker
from tactics.quiz.kept import Trouble
from tactics.quiz.plan import Planning
from tactics.quiz.requests import Request
from tactics.quiz.seeds import plan_from, seed_with
from tactics.quiz.spread import spread
from tactics.quiz.store import Store
from tactics.screens.quiz_sitting import NoMore, Rest


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """The first question at least, how many there will be, and the rest in the making."""

    quiz: Quiz
    total: int
    rest: Rest


class Later:
    """The rest of a quiz, made while the first question is being read."""

    def __init__(self, make: Callable[[], tuple[Scenario, ...]]) -> None:
        self._make = make
        self._made: tuple[Scenario, ...] = ()
        self._error: Exception | None = None
        self._thread: threading.Thread | None = None

    def begin(self) -> None:
        """Start making it; a second call does nothing."""
        if self._thread is None:
            self._thread = threading.Thread(target=self._work, daemon=True)
            self._thread.start()

    def ready(self) -> tuple[Scenario, ...]:
        """Return it, and wait for it if need be."""
        self.begin()
        if self._thread is not None:
            self._thread.join()
        if self._error is not None:
            raise self._error
        return self._made

    def _work(self) -> None:
        try:
            self._made = self._make()
        except Exception as error:
            self._error = error


def new_seed(options: argparse.Namespace) -> str:
    """Return the seed that was given, else a short one by chance."""
    return options.seed or os.urandom(2).hex()


def questions(
    player: Player, options: argparse.Namespace, advisor: Advisor, asked: Wishes, store: Store
) -> Made | None:
    """Return the questions, or None with the reason said."""
    word = new_seed(options)
    maker = Maker(advisor)
    known = [rule for rule in maker.places if asked.only is None or rule in asked.only]
    if options.seed:
        rules, seed = plan_from(word, known, asked.first, options.count), word
    else:
        planned = _planned(player, maker, known, asked, store, options.count)
        if planned is None:
            return None
        rules, seed = planned, seed_with(word, planned, list(maker.places))
    request = Request(
        seed=seed, rules=rules, count=options.count, hand=options.hand, errors=asked.errors
    )
    others = sorted(set(known) - set(rules))
    spare = Random(f"spare/{seed}").sample(others, len(others))
    return _made(maker, request, spare, asked.source)


def _made(maker: Maker, request: Request, spare: list[str], source: str) -> Made:
    """Return the first question at once; the others wait for a moment when nobody waits."""
    opening = maker.make((replace(request, rules=request.rules[:1], count=1),))[0]
    missing = request.count - len(opening.scenarios)
    rules = (*request.rules[1:], *request.rules[:1])
    following = replace(request, seed=f"{request.seed}/on", rules=rules, count=missing)

    before = opening.scenarios[-1].rule if opening.scenarios else ""

    def make() -> tuple[Scenario, ...]:
        return spread(_as_many(maker, following, spare), after=before)

    quiz = replace(opening, source=source)
    if not opening.scenarios:
        quiz = replace(quiz, scenarios=make())
        return Made(quiz=quiz, total=len(quiz.scenarios), rest=NoMore())
    return Made(quiz=quiz, total=request.count, rest=Later(make))


def _as_many(maker: Maker, request: Request, spare: list[str]) -> tuple[Scenario, ...]:
    """Return as many questions as asked for; spare rules stand in where nothing fair is found."""
    found = maker.make((request,))[0].scenarios if request.count else ()
    for rule in spare:
        if len(found) >= request.count:
            break
        instead = replace(request, seed=f"{request.seed}/{rule}", rules=(rule,), count=1)
        found += maker.make((instead,))[0].scenarios
    return found


def _planned(
    player: Player, maker: Maker, known: list[str], asked: Wishes, store: Store, count: int
) -> tuple[str, ...] | None:
    schedule = scheduler()
    book, neighbours = store.book(schedule), store.neighbours()
    if isinstance(book, Trouble):
        tell(book)
        return None
    revisions = maker.finishing.revisions
    planning = Planning(
        book=book,
        scheduler=schedule,
        revisions={rule: revisions[rule] for rule in known},
        day=study_day(player.now),
        neighbours=frozenset() if isinstance(neighbours, Trouble) else neighbours,
        first=asked.first,
        order=store.seed,
    )
    return planning.plan(count)


def written_questions(
    opened: OpenedQuiz, advisor: Advisor, options: argparse.Namespace
) -> Made | None:
    """Return the questions of a quiz file, or None with its problems shown.

    As many as are asked for, and for the hand that is asked for, else all and for the file's own.
    """
    from tactics.quiz.revision import rules_hash
    from tactics.quiz.written import prepared_of
    from tactics.reading.quizzes import read_quiz

    if opened.source is None:
        messages.show_problems(opened.problems, ())
        return None
    seed = new_seed(options)
    read = read_quiz(opened.source, advisor.vocabulary)
    made = None
    if read.value is not None:
        quiz_file = replace(read.value, hand=options.hand or read.value.hand)
        made = prepared_of(advisor, quiz_file, seed)
    problems = (*opened.problems, *read.problems, *(made.problems if made is not None else ()))
    messages.show_problems(problems, [opened.source])
    if made is None or not made.value:
        print("tactics: the quiz file has no question that can be asked", file=sys.stderr)
        return None
    first, *others = made.value[: options.count]
    quiz = Quiz(
        scenarios=(first(),),
        seed=seed,
        rules_hash=rules_hash(advisor.rules),
        generator=GENERATOR,
        source=opened.path.stem,
    )
    return Made(
        quiz=quiz, total=1 + len(others), rest=Later(lambda: tuple(make() for make in others))
    )
