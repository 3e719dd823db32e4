"""`tactics margin`: how far inside the line and how high over the net to aim."""

import argparse
import sys

from tactics.cli import messages
from tactics.cli.court_options import Given, add_court_options
from tactics.cli.main import Exit
from tactics.cli.positions import read_position
from tactics.cli.questions import Question, read_question
from tactics.cli.terminal import can_draw, heading_for
from tactics.engine.aims import margin_found
from tactics.engine.troubles import remark_problems
from tactics.engine.wish import IN_WORDS
from tactics.flight.margin import LEAST_WANTED, MOST_WANTED
from tactics.model.choice import Choice
from tactics.model.standard import STANDARD
from tactics.problem import Problem
from tactics.reading.quantities import Measure
from tactics.reading.shot_codes import ShotCode
from tactics.report.layout import text_of
from tactics.report.margin_text import ASCII, DRAWN, margin_sections


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "facts", nargs="*", metavar="NAME=VALUE",
        help='the stroke and the situation: stroke=forehand level=club "pace=70 %%" '
        "spin=top direction=straight balance=moving",
    )  # fmt: skip
    parser.add_argument("--facts", metavar="FILE", dest="file", help="a YAML file of facts")
    parser.add_argument(
        "--share", metavar="SHARE", default="80 %", help="wanted share of balls in (default: 80 %%)"
    )
    parser.add_argument("--ascii", action="store_true", help="draw with plain characters")
    add_court_options(parser)


def run(options: argparse.Namespace) -> int:
    """Print the margin; return 2 where the question cannot be answered."""
    question = read_question(options, STANDARD)
    share = _share(options.share, question)
    position = read_position(question, STANDARD)
    if position is None or question.stops():
        messages.show_problems(question.problems, question.sources)
        return Exit.COULD_NOT_RUN
    choice, numbers = Choice(), IN_WORDS
    if question.choices:
        choice, numbers = question.choices[0].choice, question.choices[0].numbers
    found = margin_found(choice, position, STANDARD, share, numbers)
    question.problems += remark_problems(found.remarks, question.place)
    messages.show_problems(question.problems, question.sources)
    if question.stops():
        return Exit.COULD_NOT_RUN
    marks = ASCII if options.ascii or not can_draw(sys.stdout) else DRAWN
    print(text_of(margin_sections(found, position, marks), heading_for(sys.stdout)), end="")
    return Exit.FINE


def _share(text: str, question: Question) -> float:
    """Return the wanted share from 0 to 1; one that cannot be had is a problem."""
    given = Given(name="share")
    percent = given.number("share", text, Measure.SHARE)
    question.sources.append(given.source)
    question.problems += given.problems
    if percent is None:
        return 0.0
    low, high = 100 * LEAST_WANTED, 100 * MOST_WANTED
    if not low <= percent <= high:
        question.problems.append(
            Problem(
                code=ShotCode.CANNOT_BE,
                span=question.place(("share",), "share"),
                sentence=f"a wanted share of {percent:g} % cannot be asked for: {low:.0f} to "
                f"{high:.0f} % is possible (nobody is sure of every ball)",
                hint=f'is --share "{100 * percent:.0f} %" meant?' if 0.3 <= percent < 1.0 else "",
            )
        )
    return percent / 100.0
