"""`tactics audit`: charts against the rules."""

import argparse
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from io import TextIOWrapper
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.beside_quiz import add_quiz, beside_quiz
from tactics.cli.charts import (
    CHART_FILES,
    add_columns,
    own_columns,
    read_chart_file,
    show_proposals,
)
from tactics.cli.main import Exit
from tactics.cli.nicknames import remind
from tactics.cli.own_scatter import add_scatter, with_own_scatter
from tactics.cli.rule_files import LoadedRules, load_rules
from tactics.cli.terminal import announced, heading_for
from tactics.engine.advisor import Advisor
from tactics.engine.audit import audit
from tactics.engine.compile import compile_rules
from tactics.model.audit import Audit
from tactics.model.ball import Chart
from tactics.model.names import fold
from tactics.model.rule import RuleSet
from tactics.problem import Problem
from tactics.reading.own_names import ColumnMap
from tactics.review.ledger import Ledger
from tactics.review.seasons import season
from tactics.review.side_by_side import SideBySide


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
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
    parser.add_argument("--details", action="store_true", help="list every ball with every finding")
    parser.add_argument(
        "--since", metavar="DATE", type=day,
        help="compare the lessons from this day on (2026-03-14) with those before it (default: the "
        "later half of the lessons with the earlier half)",
    )  # fmt: skip
    add_scatter(parser)
    add_quiz(parser)
    style = parser.add_mutually_exclusive_group()
    style.add_argument(
        "--html", metavar="FILE", help="write the audit as one page for a browser, with pictures"
    )
    style.add_argument("--json", action="store_true", help="print JSON instead of text")
    style.add_argument("--csv", action="store_true", help="print one row a ball as CSV")


def run(options: argparse.Namespace) -> int:
    """Print the audit; return 2 where rules or charts could not be read."""
    paths = _paths(options)
    if not paths:
        print("tactics: name a chart, or try --sample", file=sys.stderr)
        return Exit.COULD_NOT_RUN
    loaded = load_rules(options.rules, with_drills=False)
    usable = _usable(loaded)
    rules = None if usable is None else with_own_scatter(usable, options.scatter)
    if rules is None:
        return Exit.COULD_NOT_RUN
    own = own_columns(options, rules.vocabulary)
    if own is None:
        return Exit.COULD_NOT_RUN
    found = _read_charts(paths, rules, own)
    if not found.charts:
        messages.show_problems(found.problems, ())
        print("tactics: none of the charts could be read", file=sys.stderr)
        return Exit.COULD_NOT_RUN
    show_proposals(found.problems)
    charts = [_of_player(chart, options.player) for chart in found.charts]
    remind(ball.player for chart in charts for ball in chart.balls)
    count = sum(len(chart.balls) for chart in charts)
    _report(charts, compile_rules(rules), found.problems, options, count)
    return Exit.FINE


def _report(
    charts: Sequence[Chart],
    advisor: Advisor,
    problems: tuple[Problem, ...],
    options: argparse.Namespace,
    count: int,
) -> None:
    if options.csv:
        with announced(f"judging {count} balls one by one"):
            result = audit(charts, advisor)
        _print_csv(result, advisor.rules)
        return
    with announced(f"judging {count} balls"):
        ledger = season(charts, advisor)
    if options.json:
        with announced(f"judging {count} balls one by one"):
            result = audit(charts, advisor)
        beside = beside_quiz(ledger, advisor.rules, options)
        _print_json(result, ledger, advisor.rules, problems, options.since or "", beside)
    elif options.html:
        _write_page(ledger, advisor, problems, options)
    else:
        _print_text(ledger, advisor, problems, options)


def day(text: str) -> str:
    """Return a day as ISO text, for the options of a command."""
    from datetime import date

    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(f'"{text}" is not a day such as 2026-03-14') from None


def _write_page(
    ledger: Ledger,
    advisor: Advisor,
    problems: tuple[Problem, ...],
    options: argparse.Namespace,
) -> None:
    from tactics.report.html.audit_page import audit_html
    from tactics.report.side_by_side import beside_words

    beside = beside_quiz(ledger, advisor.rules, options)
    words = None if beside is None else beside_words(beside, advisor.rules)
    with announced("writing the page"):
        page = audit_html(ledger, advisor, problems, options.since or "", words)
    files.write_atomic(Path(options.html), page.encode("utf-8"))
    print(f"wrote {files.shown(Path(options.html))}", file=sys.stderr)


@dataclass(frozen=True, slots=True)
class _Found:
    """The charts that could be read, and every problem in all of them."""

    charts: tuple[Chart, ...]
    problems: tuple[Problem, ...]


def _usable(loaded: LoadedRules) -> RuleSet | None:
    """Return the rule set, or None with its problems shown: half a rule set judges nothing."""
    reading = loaded.reading
    if reading.is_usable:
        return reading.value
    messages.show_problems(reading.problems, loaded.sources)
    print("tactics: the rules have to be put right before they can judge", file=sys.stderr)
    return None


def _paths(options: argparse.Namespace) -> list[Path]:
    paths = [Path(written) for written in options.charts]
    if options.sample:
        paths += [files.SAMPLE_CHART]
    return paths


def _read_charts(paths: Sequence[Path], rules: RuleSet, own: ColumnMap) -> _Found:
    charts: list[Chart] = []
    problems: list[Problem] = []
    for number, path in enumerate(paths, start=1):
        with announced(f"reading chart {number} of {len(paths)}"):
            read = read_chart_file(path, rules.vocabulary, own)
        problems += read.problems
        if read.value is not None:
            charts.append(read.value)
    return _Found(tuple(charts), tuple(problems))


def _of_player(chart: Chart, player: str | None) -> Chart:
    if player is None:
        return chart
    balls = tuple(ball for ball in chart.balls if fold(ball.player) == fold(player))
    return replace(chart, balls=balls)


def _print_csv(result: Audit, rules: RuleSet) -> None:
    from tactics.report.csv_table import audit_as_csv

    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(newline="")  # the lines end as CSV lines do, once
    sys.stdout.write(audit_as_csv(result, rules.vocabulary))


def _print_json(
    result: Audit,
    ledger: Ledger,
    rules: RuleSet,
    problems: tuple[Problem, ...],
    since: str,
    beside: SideBySide | None,
) -> None:
    import json

    from tactics.report.audit_json import audit_as_json
    from tactics.report.review_json import review_as_json
    from tactics.report.side_by_side_json import side_by_side_as_json

    document = audit_as_json(result, ledger, rules.vocabulary, problems)
    document["review"] = review_as_json(ledger, rules, since)
    if beside is not None and beside.rules:
        document["quiz and court"] = side_by_side_as_json(beside)
    print(json.dumps(document, ensure_ascii=False, indent=2))


def _print_text(
    ledger: Ledger,
    advisor: Advisor,
    problems: tuple[Problem, ...],
    options: argparse.Namespace,
) -> None:
    from tactics.report.audits import audit_sections
    from tactics.report.layout import text_of
    from tactics.report.side_by_side import side_by_side_section

    with announced("writing the report"):
        sections = audit_sections(
            ledger, advisor, problems, details=options.details, since=options.since or ""
        )
    beside = beside_quiz(ledger, advisor.rules, options)
    if beside is not None:
        # before the closing word of caution, which speaks about everything above it
        section = side_by_side_section(beside, advisor.rules)
        sections = (*sections[:-1], section, sections[-1])
    print(text_of(sections, heading_for(sys.stdout)), end="")
