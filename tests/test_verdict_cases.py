"""Charted balls and the verdict coaches agreed on; the form is explained in scenarios.yaml."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from tactics.cli.files import DEFAULT_RULES
from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.engine.audit import judge_ball, judged_ball
from tactics.engine.compile import compile_rules
from tactics.engine.coverage import is_covered
from tactics.model.audit import JudgedBall
from tactics.model.ball import Ball
from tactics.model.choice import Cause, Choice, Outcome
from tactics.model.known import Known
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.reading.complaint import Complaint
from tactics.reading.values import known
from tactics.source import Span
from tests.golden import CASES

FILES = tuple(sorted((CASES / "verdicts").glob("*.yaml")))


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One charted ball of a case file, and what is expected of its verdict."""

    file: str
    rule_set: str
    name: str
    facts: Mapping[str, str]
    choice: Mapping[str, str]
    grade: str
    outcome: Mapping[str, str] = field(default_factory=dict)
    findings: Mapping[str, str] = field(default_factory=dict)
    rules: list[str] | None = None
    cause: str | None = None


def cases() -> Iterator[Case]:
    for path in FILES:
        yield from cases_of(path)


def cases_of(path: Path) -> Iterator[Case]:
    """Yield the cases of a file: a list, or a map that names the rule set above the list."""
    text: Any = yaml.load(path.read_text("utf-8"), yaml.BaseLoader)
    head = text if isinstance(text, dict) else {"rule set": DEFAULT_RULES, "cases": text}
    assert head.keys() == {"rule set", "cases"}
    for case in head["cases"]:
        yield Case(file=path.stem, rule_set=head["rule set"], **case)


@cache
def advisor_of(rule_set: str) -> Advisor:
    rules = load_rules([rule_set]).reading
    assert rules.problems == ()
    assert rules.value is not None
    return compile_rules(rules.value)


def ball_of(case: Case, words: Vocabulary) -> Ball:
    noted = {name: value for name, value in case.outcome.items() if name != "cause"}
    for name, value in noted.items():
        assert words.trait(name).word_named(value), f"{value!r} is no word of {name}"
    return Ball(
        situation=Situation.of(_noted(case.facts, words)),
        choice=Choice.of(_noted(case.choice, words)),
        outcome=Outcome(**{name.replace(" ", "_"): value for name, value in noted.items()}),
        cause=Cause(case.outcome["cause"]) if "cause" in case.outcome else None,
        span=Span(file=case.file, line=1),
    )


def _noted(written: Mapping[str, str], words: Vocabulary) -> dict[str, Known]:
    noted = {}
    for name, text in written.items():
        trait = words.find(name)
        assert trait is not None, f"there is no {name!r}"
        value = known(text, trait, words)
        assert not isinstance(value, Complaint), value
        noted[trait.folded] = value
    return noted


def judged(case: Case) -> JudgedBall:
    advisor = advisor_of(case.rule_set)
    ball = ball_of(case, advisor.vocabulary)
    assert is_covered(advisor.rules, ball.situation)
    return judged_ball(ball, judge_ball(advisor, ball))


@pytest.mark.parametrize("case", tuple(cases()), ids=lambda case: f"{case.file}: {case.name}")
def test_a_charted_ball_gets_the_verdict_that_was_agreed(case: Case) -> None:
    found = judged(case)

    verdict = found.verdict
    assert verdict.grade == case.grade
    grades = {finding.part: str(finding.grade) for finding in verdict.findings}
    assert {part: grades.get(part) for part in case.findings} == case.findings
    if case.rules is not None:
        assert set(verdict.charged) == set(case.rules)
    if case.cause is not None:
        assert found.cause == case.cause


def test_names_are_given_once() -> None:
    names = [(case.file, case.name) for case in cases()]

    assert len(set(names)) == len(names)
