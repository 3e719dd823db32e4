"""`tactics rate`: a second coach grades the same balls without seeing how they came out."""

import argparse
import os
import sys
from functools import partial
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.charts import CHART_FILES, add_columns, own_columns, read_chart_file
from tactics.cli.main import Exit
from tactics.cli.rating_file import Keeper, open_keeper
from tactics.cli.rule_files import load_rules
from tactics.cli.terminal import can_draw, heading_for, read_line
from tactics.model.ball import Chart
from tactics.model.rule import RuleSet
from tactics.report.layout import counted

_SEED_LETTERS = "bdfghkmnprstvz"
_SEED_LENGTH = 6


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("chart", metavar="CHART", help=CHART_FILES)
    add_columns(parser)
    parser.add_argument(
        "--rules", action="append", default=[], metavar="FILE",
        help="a rule file or the name of a shipped rule set; may be given several times",
    )  # fmt: skip
    parser.add_argument(
        "--ratings", metavar="FILE",
        help="where the ratings are kept (default: beside the chart, NAME.ratings.csv)",
    )  # fmt: skip
    parser.add_argument(
        "--seed", metavar="TEXT", help="any text; it alone decides the order of the balls"
    )
    parser.add_argument("--plain", action="store_true", help="line by line, in words only")
    parser.add_argument(
        "--report", action="store_true", help="only show how far the ratings agree so far"
    )


def run(options: argparse.Namespace) -> int:
    """Ask for ratings, then say how far they agree; 2 where something could not be read."""
    loaded = load_rules(options.rules, with_drills=False)
    rules = loaded.reading.value
    if rules is None or not loaded.reading.is_usable:
        messages.show_problems(loaded.reading.problems, loaded.sources)
        print("tactics: the rules have to be put right before they can judge", file=sys.stderr)
        return Exit.COULD_NOT_RUN
    chart = _chart(options, rules)
    if chart is None:
        return Exit.COULD_NOT_RUN
    path = Path(options.ratings) if options.ratings else _beside(Path(options.chart))
    keeper = open_keeper(path, chart, rules.vocabulary, options.seed or _any_seed())
    if keeper is None:
        return Exit.COULD_NOT_RUN
    if not options.report:
        _rate(keeper, chart, rules, options)
    _report(keeper, chart, rules)
    return Exit.FINE


def _chart(options: argparse.Namespace, rules: RuleSet) -> Chart | None:
    """Return the chart, or None with the reason said."""
    own = own_columns(options, rules.vocabulary)
    if own is None:
        return None
    read = read_chart_file(Path(options.chart), rules.vocabulary, own)
    if read.value is None or not read.value.balls:
        messages.show_problems(read.problems, ())
        print("tactics: there is no ball to rate on this chart", file=sys.stderr)
        return None
    left_out = len(read.value.left_out)
    if left_out:
        print(f"{counted(left_out, 'row')} could not be read (tactics audit says why)",
              file=sys.stderr)  # fmt: skip
    return read.value


def _beside(chart: Path) -> Path:
    return chart.with_name(f"{chart.stem}.ratings.csv")


def _any_seed() -> str:
    from secrets import choice

    return "".join(choice(_SEED_LETTERS) for _ in range(_SEED_LENGTH))


def _rate(keeper: Keeper, chart: Chart, rules: RuleSet, options: argparse.Namespace) -> None:
    from tactics.charting.rating import shuffled, start
    from tactics.report.blind import blind_balls
    from tactics.screens.plain import Talk, run_talk, wants_lines
    from tactics.screens.rating import RatingTalk

    shown = blind_balls(chart.balls, rules.vocabulary)
    order = shuffled(len(chart.balls), keeper.seed)
    talk = RatingTalk(start(order, frozenset(keeper.rated)), shown, keeper.save)
    print(f"Ratings go to {files.shown(keeper.path)}, one line a ball; order: {keeper.seed}")
    if not talk.sitting.waiting:
        print("Every ball of this chart is rated.")
        return
    plain_signs = not can_draw(sys.stdout)
    if wants_lines(sys.stdin, sys.stdout, os.environ, asked=options.plain):
        lines = Talk(ask=talk.ask, take=talk.take, plain_signs=plain_signs)
        run_talk(lines, partial(print, flush=True), read_line)
    else:
        from tactics.screens.frame import Scene, run_scene

        run_scene(Scene(draw=talk.draw, press=talk.press, plain_signs=plain_signs))
    print(f"{talk.rated()}. Go on any time with the same command.\n")


def _report(keeper: Keeper, chart: Chart, rules: RuleSet) -> None:
    from tactics.cli.rating_report import compared_and_differing
    from tactics.report.agreement import agreement_sections
    from tactics.report.layout import text_of

    compared, differing, throughout = compared_and_differing(keeper.rated, chart, rules)
    sections = agreement_sections(compared, differing, throughout)
    print(text_of(sections, heading_for(sys.stdout)), end="")
