"""`tactics compare`: where two rule sets advise differently, and which charted grades flip."""

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path

from tactics.cli import messages
from tactics.cli.charts import add_columns, own_columns, read_chart_file
from tactics.cli.main import Exit
from tactics.cli.rule_files import load_rules
from tactics.cli.terminal import announced, heading_for
from tactics.model.ball import Chart
from tactics.model.rule import RuleSet
from tactics.model.vocabulary import Vocabulary
from tactics.reading.own_names import ColumnMap


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    what = "a rule file, or the name of a rule set that comes with the program"
    parser.add_argument("old", metavar="OLD", help=what)
    parser.add_argument("new", metavar="NEW", help=what)
    parser.add_argument(
        "charts", nargs="*", metavar="CHART", help="charts whose grades are compared as well"
    )
    add_columns(parser)
    parser.add_argument("--json", action="store_true", help="print JSON instead of text")


def run(options: argparse.Namespace) -> int:
    """Print what changes; return 1 where anything does, 2 where something could not be read."""
    from tactics.checks.compare import compare_rules
    from tactics.checks.space import joined_words
    from tactics.engine.compile import compile_rules

    found = [_usable(name) for name in (options.old, options.new)]
    rule_sets = [rules for rules in found if rules is not None]
    if len(rule_sets) < len(found):
        return Exit.COULD_NOT_RUN
    words = joined_words(rule_sets)
    own = own_columns(options, words)
    charts = None if own is None else _charts(options.charts, words, own)
    if charts is None:
        return Exit.COULD_NOT_RUN
    old, new = map(compile_rules, rule_sets)
    with announced("comparing"):
        comparison = compare_rules(old, new, charts)
    if options.json:
        from tactics.report.comparison_json import comparison_as_json

        print(json.dumps(comparison_as_json(comparison), ensure_ascii=False, indent=2))
    else:
        from tactics.report.comparison import comparison_sections
        from tactics.report.layout import text_of

        print(text_of(comparison_sections(comparison), heading_for(sys.stdout)), end="")
    return Exit.FINE if comparison.is_same else Exit.PROBLEMS


def _usable(name: str) -> RuleSet | None:
    """Return a rule set, or None with its problems shown: half a rule set compares to nothing."""
    loaded = load_rules([name], with_drills=False)
    if loaded.reading.is_usable:
        return loaded.reading.value
    messages.show_problems(loaded.reading.problems, loaded.sources)
    print(f'tactics: "{name}" has to be put right before it can be compared', file=sys.stderr)
    return None


def _charts(written: Sequence[str], words: Vocabulary, own: ColumnMap) -> tuple[Chart, ...] | None:
    """Return the charts, or None where one cannot be read; problems of single rows are shown."""
    charts = []
    for name in written:
        read = read_chart_file(Path(name), words, own)
        messages.show_problems(read.problems, ())
        if read.value is None:
            return None
        charts.append(read.value)
    return tuple(charts)
