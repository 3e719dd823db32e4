"""`tactics check`: every mistake in rule files at once, and their examples run."""

import argparse
import sys

from tactics.cli import messages
from tactics.cli.main import Exit
from tactics.cli.rule_files import LoadedRules, load_rules
from tactics.cli.terminal import announced
from tactics.model.rule import RuleSet
from tactics.problem import Problem, Severity
from tactics.report.layout import counted


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "rules", nargs="*", metavar="RULES",
        help="rule files, or names of rule sets that come with the program; several are read as "
        "one set, each built on those before it (default: singles-club)",
    )  # fmt: skip
    parser.add_argument(
        "--quick", action="store_true",
        help="leave out checks that go through many situations; examples always run",
    )  # fmt: skip
    parser.add_argument(
        "--format", choices=messages.FORMATS, default="text", dest="style",
        help="text with the lines in question, short (one line each), or json",
    )  # fmt: skip


def run(options: argparse.Namespace) -> int:
    """Print the problems and return whether there were any."""
    loaded = load_rules(options.rules)
    problems = [*loaded.reading.problems]
    if loaded.reading.value is not None and loaded.reading.is_usable:
        if options.style == "text":
            print(_opening(loaded.reading.value), flush=True)  # at once: examples take a moment
        problems += _checked(loaded.reading.value, quick=options.quick)
    messages.show_problems(problems, loaded.sources, sys.stdout, options.style)
    if options.style != "json":
        print(_summary(loaded, problems))
    serious = any(problem.severity is not Severity.INFORMATION for problem in problems)
    return Exit.PROBLEMS if serious else Exit.FINE


def _checked(rules: RuleSet, *, quick: bool) -> tuple[Problem, ...]:
    from tactics.checks import check_rules
    from tactics.engine.compile import compile_rules

    with announced("checking"):
        return check_rules(compile_rules(rules), quick=quick)


def _opening(rules: RuleSet) -> str:
    examples = sum(len(rule.examples) for rule in rules.rules)
    return f"{rules.name}: {counted(len(rules.rules), 'rule')}, {counted(examples, 'example')}"


def _summary(loaded: LoadedRules, problems: list[Problem]) -> str:
    found = counted(len(problems), "problem") if problems else "no problems"
    not_run = "" if loaded.reading.is_usable else "; examples run once the file has no errors"
    return f"{found}{not_run}"
