"""`tactics check`: every mistake in rule files at once, their examples run, the set proved."""

import argparse
import sys
from typing import TYPE_CHECKING

from tactics.cli import messages
from tactics.cli.main import Exit
from tactics.cli.rule_files import LoadedRules, load_rules
from tactics.cli.terminal import announced, can_draw
from tactics.model.rule import RuleSet
from tactics.problem import Problem, Severity
from tactics.report.layout import counted

if TYPE_CHECKING:
    from tactics.cli.proving import Proved


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "rules", nargs="*", metavar="RULES",
        help="rule files, or names of rule sets that come with the program; several are read as "
        "one set, each built on those before it (default: singles-club). A quiz file is checked "
        "against the rules it is for, or those named beside it",
    )  # fmt: skip
    parser.add_argument(
        "--quick", action="store_true",
        help="leave out the proofs, which go through every situation; examples always run",
    )  # fmt: skip
    parser.add_argument(
        "--flight", action="store_true",
        help="ask the flight model for a better choice at every aim as well: a remark where it has "
        "one that is clearly ahead (an estimate; under a second a rule)",
    )  # fmt: skip
    parser.add_argument(
        "--remarks", action="store_true",
        help="show remarks in full as well: what could be left out of a rule and why",
    )  # fmt: skip
    parser.add_argument(
        "--draw", action="store_true", help="draw the court of the situation that shows a finding"
    )
    parser.add_argument(
        "--quiz", action="store_true",
        help="instead, show which facts quiz questions about these rules really test",
    )  # fmt: skip
    parser.add_argument("--ascii", action="store_true", help="draw the court with plain characters")
    parser.add_argument(
        "--format", choices=messages.FORMATS, default="text", dest="style",
        help="text with the lines in question, short (one line each), or json",
    )  # fmt: skip


def run(options: argparse.Namespace) -> int:
    """Print the problems and return whether there were any."""
    from tactics.cli.check_quiz import check_quizzes, has_quiz

    if has_quiz(options.rules):
        return check_quizzes(options)
    loaded = load_rules(options.rules)
    problems = [*loaded.reading.problems]
    if loaded.reading.value is not None and loaded.reading.is_usable:
        if options.quiz:
            from tactics.cli.check_facts import show_tested_facts

            return show_tested_facts(loaded.reading.value, options.style)
        if options.style == "text":
            print(_opening(loaded.reading.value), flush=True)  # at once: examples take a moment
        problems += _checked(loaded.reading.value, quick=options.quick)
        if options.flight:
            problems += _asked_of_the_flight(loaded.reading.value)
        if not options.quick:
            return _prove(loaded, problems, options)
    _show(problems, loaded, options)
    return _closed(loaded, problems, options)


def _show(problems: list[Problem], loaded: LoadedRules, options: argparse.Namespace) -> None:
    """Print the problems, and remarks in one line each unless they are asked for in full."""
    if options.style != "text" or options.remarks:
        messages.show_problems(problems, loaded.sources, sys.stdout, options.style)
        return
    remarks = [each for each in problems if each.severity is Severity.INFORMATION]
    wrong = [each for each in problems if each.severity is not Severity.INFORMATION]
    own = [each for each in remarks if _is_about(each, loaded.named)]
    messages.show_problems(wrong, loaded.sources, sys.stdout)
    messages.show_problems(own, loaded.sources, sys.stdout, "short")
    if len(own) < len(remarks):
        others = counted(len(remarks) - len(own), "remark")
        print(f"{others} about the rules that this set builds on (--remarks shows them)")


def _is_about(remark: Problem, named: frozenset[str]) -> bool:
    """Say whether a remark concerns a file that was named, and not only what that builds on."""
    return any(span.file in named for span in (remark.span, *(each.span for each in remark.also)))


def _prove(loaded: LoadedRules, problems: list[Problem], options: argparse.Namespace) -> int:
    """Print the problems with what the proofs find behind them."""
    from tactics.cli.proving import run_proofs
    from tactics.engine.compile import compile_rules

    assert loaded.reading.value is not None
    proved = run_proofs(compile_rules(loaded.reading.value))
    everything = [*problems, *proved.problems]
    _show(everything, loaded, options)
    if options.draw and options.style == "text":
        _draw(proved, loaded.reading.value, plain=options.ascii or not can_draw(sys.stdout))
    for remark in proved.remarks:
        print(f"tactics: {remark}", file=sys.stderr)
    return _closed(loaded, everything, options)


def _draw(proved: "Proved", rules: RuleSet, *, plain: bool) -> None:
    from tactics.report.court_picture import picture_of
    from tactics.report.court_text import ASCII, DRAWN, court_lines

    for finding, problem in zip(proved.findings, proved.problems, strict=True):
        for witness in finding.witnesses[:1]:
            print(f"{problem.code}, {problem.span.file}:{problem.span.line}:")
            picture = picture_of(witness.situation, {}, rules.vocabulary)
            print("\n".join(court_lines(picture, ASCII if plain else DRAWN)) + "\n")


def _closed(loaded: LoadedRules, problems: list[Problem], options: argparse.Namespace) -> int:
    if options.style != "json":
        print(_summary(loaded, problems, proved=not options.quick))
    serious = any(problem.severity is not Severity.INFORMATION for problem in problems)
    return Exit.PROBLEMS if serious else Exit.FINE


def _checked(rules: RuleSet, *, quick: bool) -> tuple[Problem, ...]:
    from tactics.checks import check_rules
    from tactics.engine.compile import compile_rules

    with announced("checking"):
        return check_rules(compile_rules(rules), quick=quick)


def _asked_of_the_flight(rules: RuleSet) -> list[Problem]:
    from tactics.cli.proving import ask_flight
    from tactics.engine.compile import compile_rules

    problems, stopped = ask_flight(compile_rules(rules))
    if stopped:
        print(f"tactics: {stopped}", file=sys.stderr)
    return problems


def _opening(rules: RuleSet) -> str:
    examples = sum(len(rule.examples) for rule in rules.rules)
    return f"{rules.name}: {counted(len(rules.rules), 'rule')}, {counted(examples, 'example')}"


def _summary(loaded: LoadedRules, problems: list[Problem], *, proved: bool) -> str:
    noted = sum(problem.severity is Severity.INFORMATION for problem in problems)
    wrong = len(problems) - noted
    found = counted(wrong, "problem") if wrong else "no problems"
    if noted:
        found += f", {counted(noted, 'remark')}"
    if not loaded.reading.is_usable:
        return f"{found}; examples and proofs run once the file has no errors"
    if not proved:
        return f"{found}; the proofs were left out"
    return found
