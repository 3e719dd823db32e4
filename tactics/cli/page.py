"""`tactics page`: a page for the player, for the parents, or for another coach."""

import argparse
import sys
from pathlib import Path

from tactics.cli import files
from tactics.cli.main import Exit
from tactics.cli.season_files import PlayerSeason, add_chart_arguments, load_season
from tactics.report.hand_over_page import hand_over_page
from tactics.report.html.people_pages import hand_over_html, parent_html, player_html
from tactics.report.parent_page import parent_page
from tactics.report.people import Asked, is_shortened, nickname
from tactics.report.player_page import player_page
from tactics.review.plan import effort_rules, is_restricted_now, rules_to_work_on
from tactics.review.priorities import priorities

_KINDS = ("player", "parent", "hand-over")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("kind", choices=_KINDS, help="whom the page is for")
    add_chart_arguments(parser)
    parser.add_argument(
        "-o", "--output", metavar="FILE", required=True, help="the page to write (HTML)"
    )
    parser.add_argument(
        "--name", metavar="NICKNAME", help="the name on the page (default: that of the chart, of "
        "several words the first only)",
    )  # fmt: skip
    parser.add_argument(
        "--said", action="append", default=[], metavar="WORDS",
        help="the player's own words; may be given several times (default: what stands in "
        "quotation marks in the notes of the chart)",
    )  # fmt: skip
    parser.add_argument("--goal", default="", metavar="WORDS", help="what was set, in a few words")
    parser.add_argument(
        "--restricted", action="store_true",
        help="the player is sore or restricted (also taken from the last day of the charts)",
    )  # fmt: skip


def run(options: argparse.Namespace) -> int:
    """Write the page; return 2 where rules or charts could not be read."""
    found = load_season(options)
    if found is None:
        return Exit.COULD_NOT_RUN
    player = options.name or found.player
    if not options.name and is_shortened(player):
        called = nickname(player)
        print(f'the page calls the player "{called}"; --name gives another', file=sys.stderr)
    path = Path(options.output)
    files.write_atomic(path, _page(found, player, options).encode("utf-8"))
    print(f"wrote {files.shown(path)}", file=sys.stderr)
    return Exit.FINE


def _page(found: PlayerSeason, player: str, options: argparse.Namespace) -> str:
    advisor, ledger = found.advisor, found.ledger
    restricted = options.restricted or is_restricted_now(ledger)
    skip = effort_rules(advisor.rules) if restricted else frozenset()
    chosen = priorities(ledger, advisor.rules, skip)
    work = rules_to_work_on(chosen, skip)
    asked = Asked(said=tuple(options.said), goal=options.goal)
    if options.kind == "player":
        first = work[0] if work else ""
        return player_html(
            player_page(ledger, advisor, player, first, asked, is_restricted=restricted)
        )
    if options.kind == "parent":
        return parent_html(
            parent_page(ledger, advisor.rules, player, work, asked, is_restricted=restricted)
        )
    return hand_over_html(
        hand_over_page(ledger, advisor, player, chosen, asked, is_restricted=restricted)
    )
