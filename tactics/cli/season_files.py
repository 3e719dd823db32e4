"""Charts on disk -> the judged balls of one player, for plans and pages."""

import argparse
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.charts import CHART_FILES, add_columns, own_columns, read_chart_file
from tactics.cli.nicknames import remind
from tactics.cli.rule_files import load_rules
from tactics.cli.terminal import announced
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.ball import Chart
from tactics.model.names import fold
from tactics.model.rule import RuleSet
from tactics.reading.own_names import ColumnMap
from tactics.review.ledger import Ledger
from tactics.review.seasons import season


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlayerSeason:
    """Everything charted of one player, judged. left_out: rows that could not be read."""

    advisor: Advisor
    ledger: Ledger
    player: str
    left_out: int


def add_chart_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare charts, rules and player."""
    parser.add_argument("charts", nargs="*", metavar="CHART", help=CHART_FILES)
    add_columns(parser)
    parser.add_argument(
        "--sample", action="store_true",
        help="use the chart of an invented player that comes with the program",
    )  # fmt: skip
    parser.add_argument(
        "--rules", action="append", default=[], metavar="FILE",
        help="a rule file or the name of a shipped rule set; may be given several times",
    )  # fmt: skip
    parser.add_argument("--player", metavar="NAME", help="only the balls of this player")


def load_season(options: argparse.Namespace) -> PlayerSeason | None:
    """Return the balls of one player, or None with what stood in the way already said."""
    paths = [*map(Path, options.charts), *([files.SAMPLE_CHART] if options.sample else [])]
    if not paths:
        print("tactics: name a chart, or try --sample", file=sys.stderr)
        return None
    loaded = load_rules(options.rules, with_drills=False)
    rules = loaded.reading.value
    if rules is None or not loaded.reading.is_usable:
        messages.show_problems(loaded.reading.problems, loaded.sources)
        print("tactics: the rules have to be put right before they can judge", file=sys.stderr)
        return None
    own = own_columns(options, rules.vocabulary)
    charts = [] if own is None else _charts(paths, rules, own)
    if not charts:
        print("tactics: none of the charts could be read", file=sys.stderr)
        return None
    return _of_one(charts, rules, options.player)


def _charts(paths: Sequence[Path], rules: RuleSet, own: ColumnMap) -> list[Chart]:
    charts = []
    for path in paths:
        with announced(f"reading {files.shown(path)}"):
            read = read_chart_file(path, rules.vocabulary, own)
        if read.value is None:
            messages.show_problems(read.problems, ())
        else:
            charts.append(read.value)
    return charts


def _of_one(charts: Sequence[Chart], rules: RuleSet, wanted: str | None) -> PlayerSeason | None:
    names = sorted({ball.player for chart in charts for ball in chart.balls if ball.player})
    if wanted is not None:
        charts = [_only(chart, wanted) for chart in charts]
    elif len(names) > 1:
        shown = ", ".join(names[:10])
        print(f"tactics: several players are charted, name one with --player: {shown}",
              file=sys.stderr)  # fmt: skip
        return None
    if not any(chart.balls for chart in charts):
        print("tactics: there is no ball of that player on these charts", file=sys.stderr)
        return None
    player = next((b.player for chart in charts for b in chart.balls if b.player), "")
    remind([player])
    advisor = compile_rules(rules)
    with announced("judging the balls"):
        ledger = season(charts, advisor)
    left_out = sum(len(chart.left_out) for chart in charts)
    if left_out:
        print(f"{left_out} rows could not be read (tactics audit says why)", file=sys.stderr)
    return PlayerSeason(advisor=advisor, ledger=ledger, player=player, left_out=left_out)


def _only(chart: Chart, player: str) -> Chart:
    balls = tuple(ball for ball in chart.balls if fold(ball.player) == fold(player))
    return replace(chart, balls=balls)
