"""`tactics scatter`: a player's own scatter from a file of landing places."""

import argparse
import sys
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.court_options import read_scatter
from tactics.cli.main import Exit
from tactics.cli.terminal import heading_for
from tactics.report.layout import text_of
from tactics.report.scatter_text import scatter_sections


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "file", nargs="?", metavar="FILE",
        help="a CSV file with a line a ball and the columns sideways (to the right of the middle) "
        "and depth (from the net); with targets also: target sideways, target depth",
    )  # fmt: skip
    parser.add_argument(
        "--sample", action="store_true",
        help="use the landing places of an invented player that come with the program",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print JSON instead of text")


def run(options: argparse.Namespace) -> int:
    """Print the scatter; return 2 where the file cannot be read or holds too few balls."""
    if not options.file and not options.sample:
        print("tactics: name a file of landing places, or try --sample", file=sys.stderr)
        return Exit.COULD_NOT_RUN
    sample = files.find_shipped(files.SAMPLES, "landings", ".csv")
    path = Path(options.file) if options.file or sample is None else sample
    measured, problems, source = read_scatter(path)
    messages.show_problems(problems, [source])
    if measured is None:
        return Exit.COULD_NOT_RUN
    if options.json:
        import json

        from tactics.report.scatter_json import scatter_as_json

        document = scatter_as_json(measured.landings, measured.scatter)
        print(json.dumps(document, ensure_ascii=False, indent=2))
    else:
        sections = scatter_sections(measured.landings, measured.scatter)
        print(text_of(sections, heading_for(sys.stdout)), end="")
    return Exit.FINE
