"""The rule set a quiz is made from, and which of its rules are to be asked."""

import argparse
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.rule_files import LoadedRules
from tactics.cli.terminal import announced
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.ball import Chart
from tactics.model.rule import RuleSet
from tactics.problem import Problem
from tactics.quiz.candidates import Values
from tactics.quiz.requests import NO_ERRORS
from tactics.report.layout import counted


def usable_advisor(loaded: LoadedRules) -> Advisor | None:
    """Return what answers for the rules, or None with their problems shown."""
    reading = loaded.reading
    if reading.value is not None and reading.is_usable:
        return compile_rules(reading.value, "matcher")
    messages.show_problems(reading.problems, loaded.sources)
    print("tactics: the rules have to be put right before they can be asked", file=sys.stderr)
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What a quiz is to be about. only: rules to choose from (None: all); first: to drill."""

    only: frozenset[str] | None = None
    first: tuple[str, ...] = ()
    errors: Mapping[str, tuple[Values, ...]] = field(default_factory=lambda: NO_ERRORS)
    source: str = ""


def wishes(options: argparse.Namespace, advisor: Advisor) -> Wishes | None:
    """Return what was asked for, or None with the reason said."""
    if options.charts:
        return _from_charts(options, advisor)
    if options.topic:
        return _on_topic(options.topic, advisor)
    return Wishes()


def _on_topic(topic: str, advisor: Advisor) -> Wishes | None:
    from tactics.quiz.topics import rules_of_topic, topics
    from tactics.reading.suggest import did_you_mean, near

    found = rules_of_topic(advisor, topic)
    if found:
        return Wishes(only=frozenset(found), source=f"topic {topic}")
    known = topics(advisor)
    close = near(topic, known)
    hint = did_you_mean(close) if close else f"it can be {', '.join(known)}"
    print(f'tactics: there is no topic "{topic}"; {hint}', file=sys.stderr)
    return None


def _from_charts(options: argparse.Namespace, advisor: Advisor) -> Wishes | None:
    from tactics.engine.audit import audit
    from tactics.quiz.own_errors import own_errors

    charts = _read_charts([Path(name) for name in options.charts], advisor.rules)
    if charts is None:
        return None
    with announced("reading your own balls"):
        found = own_errors(audit(charts, advisor))
    if not found:
        print("The charts hold no choice that broke a rule; every rule may come up.")
    return Wishes(first=tuple(found), errors=found, source="charts")


def _read_charts(paths: Sequence[Path], rules: RuleSet) -> list[Chart] | None:
    """Return the charts, or None with the reason said; problems of single balls are counted."""
    from tactics.reading.charts import read_chart_bytes

    charts: list[Chart] = []
    problems: list[Problem] = []
    for path in paths:
        read = read_chart_bytes(files.shown(path), files.read_bytes(path), rules.vocabulary)
        problems += read.problems
        if read.value is not None:
            charts.append(read.value)
    if not charts:
        messages.show_problems(problems, ())
        print("tactics: none of the charts could be read", file=sys.stderr)
        return None
    if problems:
        said = counted(len(problems), "problem")
        print(f"tactics: {said} in the charts; see: tactics audit", file=sys.stderr)
    return charts
