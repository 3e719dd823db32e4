"""`tactics new`: a small rule set to start from."""

import argparse
import re
import sys
from collections.abc import Sequence
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.main import Exit
from tactics.cli.rule_files import load_rules
from tactics.model.ball import Ball
from tactics.report.starter import BASE, Skeleton, starter_text

_MOST_SKELETONS = 6
_NOT_A_NAME = re.compile(r"[^\w ]+|_+")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("file", metavar="FILE", help="the rule file to write; it may not exist yet")
    parser.add_argument(
        "--from", action="append", default=[], metavar="CHART", dest="charts",
        help="a chart: the situations met most in it become rules to finish; may be given several "
        "times",
    )  # fmt: skip


def run(options: argparse.Namespace) -> int:
    """Write the file; return 2 where it is there already or a chart could not be read."""
    path = Path(options.file)
    path = path if path.suffix else path.with_suffix(".yaml")
    if path.exists():
        print(f'tactics: "{files.shown(path)}" is there already; nothing was written',
              file=sys.stderr)  # fmt: skip
        return Exit.COULD_NOT_RUN
    skeletons: tuple[Skeleton, ...] = ()
    if options.charts:
        found = _skeletons([Path(written) for written in options.charts])
        if found is None:
            return Exit.COULD_NOT_RUN
        skeletons = found
    source = ", ".join(Path(written).name for written in options.charts)
    text = starter_text(path.name, _name(path), source, skeletons)
    files.write_atomic(path, text.encode("utf-8"))
    shown = files.shown(path)
    print(f"wrote {shown}; next: tactics check {shown}")
    return Exit.FINE


def _name(path: Path) -> str:
    """Return the name of the set: that of the file, as words."""
    words = " ".join(_NOT_A_NAME.sub(" ", path.stem.replace("-", " ")).split())
    return f"{words[:1].upper()}{words[1:]}" or "My rules"


def _skeletons(paths: Sequence[Path]) -> tuple[Skeleton, ...] | None:
    """Return the situations met most, or None where a chart could not be read."""
    from tactics.reading.charts import read_chart_bytes
    from tactics.report.starter_situations import skeletons_of

    loaded = load_rules([BASE], with_drills=False)
    rules = loaded.reading.value
    if rules is None:
        messages.show_problems(loaded.reading.problems, loaded.sources)
        return None
    balls: list[Ball] = []
    for path in paths:
        read = read_chart_bytes(files.shown(path), files.read_bytes(path), rules.vocabulary)
        if read.value is None:
            messages.show_problems(read.problems, ())
            return None
        balls += read.value.balls
    return skeletons_of(balls, rules, _MOST_SKELETONS)
