"""`tactics quiz --page`: papers in one file for a phone, and a copy that results are read with."""

import argparse
import sys
from dataclasses import replace
from pathlib import Path

from tactics.cli import files
from tactics.cli.main import Exit
from tactics.cli.quiz_copies import keep_page
from tactics.cli.quiz_files import OpenedQuiz, open_quiz, rules_for
from tactics.cli.quiz_players import Player, scheduler, tell
from tactics.cli.quiz_questions import new_seed, written_questions
from tactics.cli.quiz_rules import Wishes, usable_advisor, wishes
from tactics.cli.rule_files import LoadedRules, load_rules
from tactics.cli.terminal import announced
from tactics.engine.advisor import Advisor
from tactics.model.scenario import Quiz
from tactics.quiz.book import Book
from tactics.quiz.days import study_day
from tactics.quiz.generate import Maker
from tactics.quiz.handing_out import day_words, page_of
from tactics.quiz.handout import Handout, Paper, dealt, even_days, on_paper
from tactics.quiz.kept import Trouble
from tactics.quiz.plan import Planning
from tactics.quiz.requests import Request
from tactics.quiz.spread import spread
from tactics.report.html.quiz_page import quiz_html
from tactics.report.layout import counted
from tactics.report.visible import visible

_HANDS_FROM = ((9, 3), (4, 2))
"""Papers from which their rules come in three, or two, hands that take turns."""


def write_page(player: Player, options: argparse.Namespace) -> int:
    """Write the page that was asked for, and keep what its results are read with."""
    opened = open_quiz(options.file) if options.file else None
    if options.file and opened is None:
        print(f'tactics: there is no quiz file "{options.file}"', file=sys.stderr)
        return Exit.COULD_NOT_RUN
    advisor = usable_advisor(_rules(opened, options))
    if advisor is None:
        return Exit.COULD_NOT_RUN
    with announced("making the questions"):
        papers = _papers(player, options, advisor, opened)
    if papers is None:
        return Exit.COULD_NOT_RUN
    handout = Handout(
        made=study_day(player.now),
        nickname=(options.page_for or "").strip(),
        rules_name=advisor.rules.name,
        papers=papers,
    )
    html = quiz_html(page_of(handout, advisor.vocabulary)).encode("utf-8")
    keep_page(player.folder, handout)
    files.write_atomic(Path(options.page), html)
    print("\n".join(_said(handout, Path(options.page), len(html))))
    return Exit.FINE


def _rules(opened: OpenedQuiz | None, options: argparse.Namespace) -> LoadedRules:
    if opened is not None:
        return rules_for(opened, options.rules)
    return load_rules(options.rules, with_drills=False)


def _papers(
    player: Player, options: argparse.Namespace, advisor: Advisor, opened: OpenedQuiz | None
) -> tuple[Paper, ...] | None:
    if opened is not None:
        made = written_questions(opened, advisor, options)
        if made is None:
            return None
        whole = replace(made.quiz, scenarios=(*made.quiz.scenarios, *made.rest.ready()))
        return (Paper(day=study_day(player.now), quiz=on_paper(whole)),)
    asked = wishes(options, advisor)
    if asked is None:
        return None
    quizzes = _quizzes(player, options, advisor, asked)
    if not quizzes:
        print("tactics: nothing fair can be asked about these rules", file=sys.stderr)
        return None
    days = even_days(study_day(player.now), options.days, options.every)
    dated = zip(days, quizzes, strict=False)
    return tuple(Paper(day=day, quiz=on_paper(quiz)) for day, quiz in dated)


def _quizzes(
    player: Player, options: argparse.Namespace, advisor: Advisor, asked: Wishes
) -> list[Quiz]:
    maker, seed = Maker(advisor), new_seed(options)
    hands = next((hands for papers, hands in _HANDS_FROM if options.days >= papers), 1)
    rules = _planned(player, options, maker, asked, options.count * hands)
    requests = [
        Request(
            seed=f"{seed}/{number}",
            rules=hand,
            count=options.count,
            hand=options.hand,
            errors=asked.errors,
        )
        for number, hand in enumerate(dealt(rules, options.days, options.count), start=1)
    ]
    made = (quiz for quiz in maker.make(requests) if quiz.scenarios)
    return [replace(quiz, scenarios=spread(quiz.scenarios)) for quiz in made]


def _planned(
    player: Player, options: argparse.Namespace, maker: Maker, asked: Wishes, count: int
) -> tuple[str, ...]:
    """Return the rules of the papers: what is due for the player, as far as anything is known."""
    known = [rule for rule in maker.places if asked.only is None or rule in asked.only]
    book, order = Book(), new_seed(options)
    schedule = scheduler()
    if options.page_for and player.is_known and (store := player.open()) is not None:
        with store:
            kept, order = store.book(schedule), store.seed
        if isinstance(kept, Trouble):
            tell(kept)
        else:
            book = kept
    revisions = maker.finishing.revisions
    planning = Planning(
        book=book,
        scheduler=schedule,
        revisions={rule: revisions[rule] for rule in known},
        day=study_day(player.now),
        first=asked.first,
        order=order,
    )
    return planning.plan(count)


def _said(handout: Handout, target: Path, size: int) -> tuple[str, ...]:
    whom = f" for {visible(handout.nickname)}" if handout.nickname else ""
    papers = len(handout.papers)
    questions = counted(handout.questions, "question")
    on = f" on {papers} papers" if papers > 1 else ""
    last = f", the last for {day_words(handout.papers[-1].day)}" if papers > 1 else ""
    return (
        f"wrote {files.shown(target)}: {questions}{on}{whom}{last} ({round(size / 1000)} KB)",
        f"Its number is {handout.name}. Send the file; it needs no network. The code that comes "
        "back is read by",
        "  tactics quiz --collect CODE",
    )
