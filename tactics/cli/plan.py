"""`tactics plan`: what was charted -> the next lesson."""

import argparse
import sys
from pathlib import Path

from tactics.cli import files
from tactics.cli.beside_quiz import add_quiz, beside_quiz
from tactics.cli.homework import write_homework
from tactics.cli.main import Exit
from tactics.cli.rule_files import load_drills
from tactics.cli.season_files import PlayerSeason, add_chart_arguments, load_season
from tactics.cli.terminal import can_draw, heading_for
from tactics.model.plan import Plan
from tactics.report.court_text import ASCII, DRAWN
from tactics.report.layout import text_of
from tactics.report.plan_text import plan_sections
from tactics.report.plans import PlanPage, plan_page, with_homework
from tactics.report.side_by_side import beside_words, side_by_side_section
from tactics.review.plan import (
    SHORTEST_MINUTES,
    USUAL_MINUTES,
    effort_rules,
    is_junior,
    is_restricted_now,
    plan_lesson,
    rules_to_work_on,
)
from tactics.review.priorities import priorities

_LONGEST_MINUTES = 240


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    add_chart_arguments(parser)
    add_quiz(parser)
    parser.add_argument(
        "--minutes", type=_minutes, default=USUAL_MINUTES, metavar="NUMBER",
        help=f"length of the lesson (default: {USUAL_MINUTES})",
    )  # fmt: skip
    parser.add_argument(
        "--restricted", action="store_true",
        help="the player is sore or restricted: no serve and smash drills, effort is not graded "
        "(also taken from the last day of the charts)",
    )  # fmt: skip
    parser.add_argument(
        "--homework", metavar="FILE",
        help="write the homework as a quiz file, for: tactics quiz FILE",
    )  # fmt: skip
    parser.add_argument("--html", metavar="FILE", help="write the plan as one page for a browser")
    parser.add_argument("--ascii", action="store_true", help="draw courts with plain characters")


def run(options: argparse.Namespace) -> int:
    """Print or write the plan; return 2 where rules or charts could not be read."""
    found = load_season(options)
    if found is None:
        return Exit.COULD_NOT_RUN
    plan, page = _planned(found, options)
    if options.homework:
        write_homework(plan.homework, found, options.rules, Path(options.homework))
    beside = beside_quiz(found.ledger, found.advisor.rules, options)
    if options.html:
        from tactics.report.html.plan_page import plan_html

        path = Path(options.html)
        words = None if beside is None else beside_words(beside, found.advisor.rules)
        files.write_atomic(path, plan_html(page, words).encode("utf-8"))
        print(f"wrote {files.shown(path)}", file=sys.stderr)
    else:
        marks = ASCII if options.ascii or not can_draw(sys.stdout) else DRAWN
        sections = plan_sections(page, marks)
        if beside is not None:
            section = side_by_side_section(beside, found.advisor.rules)
            sections = (*sections[:-1], section, sections[-1])
        print(text_of(sections, heading_for(sys.stdout)), end="")
    return Exit.FINE


def _planned(found: PlayerSeason, options: argparse.Namespace) -> tuple[Plan, PlanPage]:
    rules, ledger = found.advisor.rules, found.ledger
    restricted = options.restricted or is_restricted_now(ledger)
    skip = effort_rules(rules) if restricted else frozenset()
    chosen = priorities(ledger, rules, skip)
    plan = plan_lesson(
        rules_to_work_on(chosen, skip),
        rules,
        load_drills(),
        minutes=options.minutes,
        is_restricted=restricted,
        is_junior=is_junior(ledger, rules.vocabulary),
    )
    page = plan_page(plan, chosen, ledger, found.advisor, found.player)
    if options.homework and plan.homework.rules:
        page = with_homework(page, files.shown(Path(options.homework)))
    return plan, page


def _minutes(text: str) -> int:
    number = int(text) if text.isdecimal() else 0
    if not SHORTEST_MINUTES <= number <= _LONGEST_MINUTES:
        raise argparse.ArgumentTypeError(
            f'"{text}" is not a number of minutes from {SHORTEST_MINUTES} to {_LONGEST_MINUTES}'
        )
    return number
