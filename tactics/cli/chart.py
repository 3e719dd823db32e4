"""`tactics chart`: the balls of a lesson, charted at the court; or a blank sheet to fill in."""

import argparse
import os
import sys
from collections.abc import Sequence
from datetime import date, datetime
from functools import partial
from pathlib import Path

from tactics.charting.noted import STANDING_FACTS
from tactics.cli import files, messages
from tactics.cli.arguments import arguments_source, read_arguments
from tactics.cli.chart_file import ChartFile, alone_with, open_chart
from tactics.cli.main import Exit
from tactics.cli.quiz_rules import usable_advisor
from tactics.cli.rule_files import load_rules
from tactics.cli.terminal import can_draw, read_line
from tactics.engine.advisor import Advisor
from tactics.engine.coverage import is_covered
from tactics.model.ball import Ball
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.screens.charting import Charting
from tactics.screens.view import End


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "chart", nargs="?", metavar="FILE.csv",
        help="the chart to write; one that is there already goes on where it stopped",
    )  # fmt: skip
    parser.add_argument(
        "facts", nargs="*", metavar="NAME=VALUE",
        help='what holds for player and day, such as "own hand=left" level=club "stature=1.62 m"; '
        "what is not said here is asked once",
    )  # fmt: skip
    parser.add_argument(
        "--rules", action="append", default=[], metavar="FILE",
        help="a rule file or the name of a shipped rule set; may be given several times",
    )  # fmt: skip
    parser.add_argument("--player", default="", metavar="NICKNAME", help="never a full name")
    parser.add_argument(
        "--lesson", "--session", default="", metavar="TEXT", help="what the lesson is called"
    )
    parser.add_argument("--date", type=_date, metavar="DATE", help="2026-03-14 (default: today)")
    parser.add_argument(
        "--later", action="store_true", help="show grades only at the end, not after each ball"
    )
    parser.add_argument(
        "--mark", action="store_true", help="ask for your own grade of each ball as well"
    )
    parser.add_argument("--plain", action="store_true", help="line by line, in words only")
    parser.add_argument("--ascii", action="store_true", help="draw with plain characters")
    parser.add_argument(
        "--blank", metavar="FILE.xlsx",
        help="write a spreadsheet to fill in instead, with drop-down lists and a page to print",
    )  # fmt: skip


def run(options: argparse.Namespace) -> int:
    """Chart until somebody stops; 130 after Ctrl-C, with every ball on disk."""
    if options.blank:
        from tactics.cli.blank import write_blank

        return write_blank(options)
    if not options.chart:
        print("tactics: name the chart to write: tactics chart lesson.csv", file=sys.stderr)
        return Exit.COULD_NOT_RUN
    advisor = usable_advisor(load_rules(options.rules, with_drills=False))
    if advisor is None:
        return Exit.COULD_NOT_RUN
    day = _day(options, advisor.vocabulary)
    if day is None:
        return Exit.COULD_NOT_RUN
    path = Path(options.chart)
    files.must_be_writable(path)
    with alone_with(path) as is_alone:
        if not is_alone:
            print(f"tactics: {files.shown(path)} is being charted in another window",
                  file=sys.stderr)  # fmt: skip
            return Exit.COULD_NOT_RUN
        file = open_chart(path, advisor.vocabulary)
        return Exit.COULD_NOT_RUN if file is None else _sit(file, advisor, day, options)


def _day(options: argparse.Namespace, words: Vocabulary) -> Situation | None:
    """Return what was said about player and day, or None with the problems shown."""
    source = arguments_source(options.facts)
    read = read_arguments(source, words)
    if read.value is None or not read.is_usable:
        messages.show_problems(read.problems, [source])
        return None
    situation, choice = read.value
    others = [name for name, _ in (*situation.facts, *choice.parts) if name not in STANDING_FACTS]
    if others:
        print(
            f"tactics: {others[0]} is asked at every ball; for the whole lesson there can be "
            f"{', '.join(STANDING_FACTS)}",
            file=sys.stderr,
        )
        return None
    return situation


def _sit(file: ChartFile, advisor: Advisor, day: Situation, options: argparse.Namespace) -> int:
    from tactics.charting.deciding import Decider
    from tactics.charting.entry import Sitting, begin
    from tactics.charting.questions import Form
    from tactics.charting.summary import counts_lines, differing_lines, later_lines

    sitting = Sitting(
        form=Form(decider=Decider(advisor), asks_mark=options.mark),
        date=options.date or datetime.now().astimezone().date().isoformat(),
        lesson=options.lesson,
        shows_grades=not options.later,
    )
    charting = Charting(begin(sitting, file.balls, options.player.strip(), day), file.save)
    try:
        ended = _ask(charting, options)
    except OSError as error:
        print(
            f"tactics: the last ball could not be written ({error.strerror or error}); what "
            f"was charted before it is safe in {files.shown(file.path)}. Put that right, then go "
            "on with the same command.",
            file=sys.stderr,
        )
        return Exit.COULD_NOT_RUN
    first = charting.entry.began_with
    new = charting.entry.balls[first:]
    later = () if charting.entry.sitting.shows_grades else later_lines(new, first + 1, advisor)
    differing = differing_lines(new, first + 1, advisor)
    print("\n".join((*_unfinished(charting), *later, *counts_lines(new, advisor), *differing)))
    _say_who_speaks(new, advisor, file.path)
    print(f"On disk: {files.shown(file.path)}. Next: tactics audit {files.shown(file.path)}")
    return Exit.STOPPED if ended is End.STOPPED else Exit.FINE


def _unfinished(charting: Charting) -> tuple[str, ...]:
    """Return that a ball was begun and is not on disk; without that it would seem to be."""
    entry = charting.entry
    if entry.taken_up is not None:
        return (f"Ball {entry.taken_up + 1} stays as it was: its correction was not finished.",)
    if entry.answers:
        return (f"Ball {len(entry.balls) + 1} was begun and not finished, so it is not on disk.",)
    return ()


def _say_who_speaks(balls: Sequence[Ball], advisor: Advisor, path: Path) -> None:
    """Name the rule set that comes with the program and speaks about the balls left ungraded."""
    uncovered = [ball for ball in balls if not is_covered(advisor.rules, ball.situation)]
    if not uncovered:
        return
    for shipped in files.shipped(files.RULES, ".yaml"):
        rules = load_rules([shipped.stem], with_drills=False).reading.value
        if rules is None or not rules.applies_to:
            continue
        if all(is_covered(rules, ball.situation) for ball in uncovered):
            print(f"For the balls not covered there are rules: --rules {shipped.stem}, here and "
                  f"in tactics audit {files.shown(path)}")  # fmt: skip
            return


def _ask(charting: Charting, options: argparse.Namespace) -> End:
    from tactics.screens.plain import Talk, run_talk, wants_lines

    plain_signs = options.ascii or not can_draw(sys.stdout)
    if wants_lines(sys.stdin, sys.stdout, os.environ, asked=options.plain):
        from tactics.screens.charting_lines import Lines

        lines = Lines(charting)
        talk = Talk(ask=lines.ask, take=lines.take, plain_signs=plain_signs)
        interrupted = False

        def read() -> str:
            nonlocal interrupted
            try:
                return read_line()
            except KeyboardInterrupt:
                interrupted = True
                raise

        run_talk(talk, partial(print, flush=True), read)
        return End.STOPPED if interrupted else End.FINISHED
    from tactics.screens.frame import Scene, run_scene

    return run_scene(Scene(draw=charting.draw, press=charting.press, plain_signs=plain_signs))


def _date(text: str) -> str:
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError("a date is written 2026-03-14") from None
