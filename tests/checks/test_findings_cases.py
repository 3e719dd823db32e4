"""Each rule file in cases/checks and the exact text that is proved about it."""

from dataclasses import replace
from pathlib import Path

import pytest

from tactics.checks.finding import Finding, Progress
from tactics.checks.prove import prove
from tactics.engine.compile import compile_rules
from tactics.model.rule import RuleSet
from tactics.problem import Problem, by_place
from tactics.reading.rules import read_rules
from tactics.report.problems import render_problems
from tactics.report.proofs import problem_of
from tactics.source import Source
from tests.golden import Golden

FOLDER = Path(__file__).parents[1] / "cases" / "checks"
CASES = sorted(FOLDER.glob("*.yaml"))
GAPS = [path for path in CASES if path.stem.startswith("gap")]


def read(path: Path, more: str = "") -> tuple[RuleSet, Source]:
    source = Source(name=path.name, text=path.read_text(encoding="utf-8") + more)
    reading = read_rules(source)
    assert reading.problems == ()
    assert reading.value is not None
    return reading.value, source


def findings(rules: RuleSet) -> list[Finding]:
    steps = [s for s in prove(compile_rules(rules, "matcher")) if not isinstance(s, Progress)]
    assert all(isinstance(step, Finding) for step in steps)
    return steps


def problems(rules: RuleSet) -> tuple[Problem, ...]:
    return by_place([problem_of(finding, rules) for finding in findings(rules)])


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_rule_file_is_proved_to_have_exactly_this(path: Path, golden: Golden) -> None:
    rules, source = read(path)

    told = render_problems(problems(rules), (source,))

    golden(f"checks/{path.stem}.txt", told or "nothing\n")


@pytest.mark.parametrize("path", GAPS, ids=lambda path: path.stem)
def test_the_line_to_paste_shuts_out_the_example_it_comes_with(path: Path) -> None:
    rules, _ = read(path)
    gap = next(finding for finding in findings(rules) if finding.witnesses)

    changed, _ = read(path, "\n".join(problem_of(gap, rules).paste) + "\n")
    left = [finding for finding in findings(changed) if finding.phases == gap.phases]

    assert len(changed.cannot_happen) == 1
    assert gap.witnesses[0].told not in [w.told for finding in left for w in finding.witnesses]


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_the_order_of_rules_in_a_file_changes_no_finding(path: Path) -> None:
    rules, _ = read(path)
    turned = replace(rules, rules=rules.rules[::-1], terms=rules.terms[::-1])

    assert set(map(_short, problems(turned))) == set(map(_short, problems(rules)))


def _short(problem: Problem) -> tuple[str, int, str]:
    return problem.code, problem.span.line, problem.sentence
