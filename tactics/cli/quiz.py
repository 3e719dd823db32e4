"""`tactics quiz`: ten fresh situations from the coach's rules, and what is kept of the answers."""

import argparse
import gc
import sys

from tactics.cli.main import Exit

_CLOCK_S, _QUESTIONS = 60, 10


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.description = (
        "Ten situations from a rule set, about six minutes. It helps you remember your coach's "
        "rules and see when each applies; it supports a coach and never replaces one. Stop any "
        "time: every answer is kept at once, on this computer only."
    )
    parser.add_argument(
        "file", nargs="?", metavar="QUIZ", help="a quiz file, or the name of one in quizzes/"
    )
    _add_questions(parser)
    _add_player(parser)
    _add_page(parser)
    screen = parser.add_argument_group("how it is shown")
    screen.add_argument("--plain", action="store_true", help="line by line, in words only")
    screen.add_argument("--ascii", action="store_true", help="draw with plain characters")
    screen.add_argument(
        "--clock", type=_seconds, nargs="?", const=_CLOCK_S, metavar="SECONDS",
        help=f"a clock for each question on the full screen ({_CLOCK_S} s if no number follows); "
        "+ gives more time, and time that runs out is never wrong",
    )  # fmt: skip


def _add_questions(parser: argparse.ArgumentParser) -> None:
    asked = parser.add_argument_group("what is asked")
    asked.add_argument(
        "--rules", action="append", default=[], metavar="FILE",
        help="a rule file or the name of a shipped rule set; may be given several times",
    )  # fmt: skip
    asked.add_argument(
        "--from", action="append", default=[], dest="charts", metavar="CHART",
        help="drill the rules that were broken in a chart; may be given several times",
    )  # fmt: skip
    asked.add_argument("--topic", metavar="WORDS", help="one topic only: a concern, a term, ...")
    asked.add_argument(
        "--hand",
        choices=("right", "left"),
        help="your playing hand (right, or as the quiz file says)",
    )
    asked.add_argument(
        "--count", type=_count, metavar="N", help=f"how many ({_QUESTIONS}, or all of a quiz file)"
    )
    asked.add_argument(
        "--seed", metavar="TEXT",
        help="any text; with the same rules and options it gives the same quiz to anybody",
    )  # fmt: skip


def _add_player(parser: argparse.ArgumentParser) -> None:
    player = parser.add_argument_group("whose answers")
    player.add_argument("--player", metavar="NICKNAME", help="a nickname, never a full name")
    player.add_argument("--folder", metavar="FOLDER", help="keep the answers in this folder")
    instead = player.add_mutually_exclusive_group()
    instead.add_argument("--progress", action="store_true", help="show what holds until when")
    instead.add_argument(
        "--export", nargs="?", const="-", metavar="FILE",
        help="write everything that is kept: JSON, or CSV where the file ends in .csv",
    )  # fmt: skip
    instead.add_argument("--erase", action="store_true", help="erase everything that is kept")
    player.add_argument("--json", action="store_true", help="show the progress as JSON")
    player.add_argument("--yes", action="store_true", help="do not ask before erasing")


def _add_page(parser: argparse.ArgumentParser) -> None:
    page = parser.add_argument_group("a page for a phone instead")
    page.add_argument(
        "--page", metavar="FILE.html",
        help="write the questions into one file that a phone opens without a network; its result "
        "comes back as a short code",
    )  # fmt: skip
    page.add_argument(
        "--for", dest="page_for", metavar="NICKNAME",
        help="who the page is for; without it, whoever opens it gives a nickname",
    )  # fmt: skip
    page.add_argument(
        "--days", type=_papers, default=1, metavar="N", help="so many dated papers (1)"
    )
    page.add_argument(
        "--every", type=_papers, default=2, metavar="N", help="days from one paper to the next (2)"
    )
    page.add_argument(
        "--collect", nargs="+", metavar="CODE", help="read codes, or files of results, that came "
        "back; also the page file, where it was made on another computer",
    )  # fmt: skip


def run(options: argparse.Namespace) -> int:
    """Run a quiz, or show, export or erase what is kept of a player."""
    gc.disable()  # start-up makes objects and no rubbish; looking for it delays the first question
    try:
        return _run(options)
    finally:
        gc.enable()


def _run(options: argparse.Namespace) -> int:
    from tactics.cli.quiz_players import chosen_player, erase_answers, export_answers

    if options.file and (options.topic or options.charts):
        return _not_both("--topic" if options.topic else "--from")
    if options.file is None:
        options.count, options.hand = options.count or _QUESTIONS, options.hand or "right"
    if options.page_for:
        options.player = options.page_for
    if options.collect and options.player is None:
        options.player = ""  # the code, or its page, says whose answers they are
    player = chosen_player(options)
    if player is None:
        return Exit.COULD_NOT_RUN
    if options.erase:
        return erase_answers(player, is_asked=not options.yes)
    if options.export:
        return export_answers(player, options.export)
    if options.progress:
        from tactics.cli.quiz_progress import show_progress

        return show_progress(player, options.rules, as_json=options.json)
    if options.collect:
        from tactics.cli.quiz_collect import collect

        return collect(player, options)
    if options.page:
        from tactics.cli.quiz_pages import write_page

        return write_page(player, options)
    from tactics.cli.quiz_run import run_quiz

    return run_quiz(player, options)


def _not_both(option: str) -> int:
    print(f"tactics: a quiz file brings its own questions: leave out {option}", file=sys.stderr)
    print(f"  = or leave out the file, and {option} chooses from all the rules", file=sys.stderr)
    return Exit.COULD_NOT_RUN


def _seconds(text: str) -> float:
    if not text.isdecimal() or not 5 <= int(text) <= 600:
        raise argparse.ArgumentTypeError("a clock has 5 to 600 seconds")
    return float(text)


def _count(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 30:
        raise argparse.ArgumentTypeError("a quiz has 1 to 30 questions")
    return int(text)


def _papers(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 30:
        raise argparse.ArgumentTypeError("it can be 1 to 30")
    return int(text)
