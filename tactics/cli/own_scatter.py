"""`--scatter FILE`: margins in multiples of scatter, for the player who hit the balls in a file."""

import argparse
from pathlib import Path

from tactics.cli import messages
from tactics.engine.scatter_rules import in_metres
from tactics.model.rule import RuleSet


def add_scatter(parser: argparse.ArgumentParser) -> None:
    """Declare the option."""
    parser.add_argument(
        "--scatter", metavar="FILE",
        help="the player's own landing places, for rules that give margins in scatter (see "
        "tactics scatter; default: the usual scatter of the player's level)",
    )  # fmt: skip


def with_own_scatter(rules: RuleSet, written: str | None) -> RuleSet | None:
    """Return the rules with margins in the player's metres, or None with the problems shown."""
    if not written:
        return rules
    from tactics.cli.court_options import read_scatter  # brings the flight model along

    measured, problems, source = read_scatter(Path(written))
    messages.show_problems(problems, [source])
    return None if measured is None else in_metres(rules, measured.scatter.sideways.sd_m)
