"""How long proofs about rule sets take: run with `pytest tests/bench --benchmark-only`.

What is aimed at: shipped set 1.5 s for the base proofs and 8 s with the deep ones; three hundred
made-up rules 10 s for the base proofs; less than 300 MB of memory.
"""

import resource
from dataclasses import replace
from random import Random

import pytest

from tactics.checks.compare import compare_rules
from tactics.checks.finding import Finding
from tactics.checks.prove import prove
from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.known import Allowed, OneOf, Within, at_least, at_most
from tactics.model.rule import Rule, RuleSet
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind
from tests.bench.sixty_rules import sixty_rules

pytest.importorskip("pytest_benchmark")
PARTS = ("intent", "direction", "depth", "height over net", "pace", "spin")
MOST_MB = 300


def shipped() -> RuleSet:
    rules = load_rules(["singles-club"], with_drills=False).reading.value
    assert rules is not None
    return rules


def many_rules(count: int, *, seed: int = 7) -> RuleSet:
    """Return made-up rules about six parts, among them hundreds that clash."""
    rng = Random(seed)
    rules = sixty_rules(rules=count, terms=count // 10, seed=seed)
    return replace(rules, rules=tuple(_about_parts(rng, rule) for rule in rules.rules))


def _about_parts(rng: Random, rule: Rule) -> Rule:
    parts = rng.sample(PARTS, rng.randint(1, 3))
    return replace(rule, advice=tuple((part, _wide(rng, part)) for part in parts))


def _wide(rng: Random, part: str) -> Allowed:
    trait = STANDARD.trait(part)
    if trait.kind is Kind.NUMBER:
        limits = [word.low for word in trait.words[1:]]
        bound = at_least if rng.random() < 0.5 else at_most
        return Within((bound(rng.choice(limits)),))
    names = [word.name for word in trait.words]
    return OneOf(frozenset(rng.sample(names, len(names) // 2)))


def proved(advisor: Advisor, *, deep: bool) -> list[Finding]:
    return [step for step in prove(advisor, deep=deep) if isinstance(step, Finding)]


@pytest.mark.parametrize("deep", [False, True], ids=["base", "deep"])
def test_the_shipped_rules_are_proved(benchmark, deep: bool) -> None:
    advisor = compile_rules(shipped(), "matcher")

    benchmark.pedantic(proved, args=(advisor,), kwargs={"deep": deep}, rounds=3)

    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss < MOST_MB * 1024


@pytest.mark.parametrize("deep", [False, True], ids=["base", "deep"])
@pytest.mark.parametrize("count", [60, 300])
def test_made_up_rules_are_proved(benchmark, count: int, deep: bool) -> None:
    advisor = compile_rules(many_rules(count), "matcher")

    found = benchmark.pedantic(proved, args=(advisor,), kwargs={"deep": deep}, rounds=1)

    assert found
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss < MOST_MB * 1024


def test_two_versions_of_the_shipped_rules_are_compared(benchmark) -> None:
    rules = shipped()
    fewer = replace(rules, rules=rules.rules[:-3], precedence=rules.precedence)
    old, new = (compile_rules(each, "matcher") for each in (rules, fewer))

    found = benchmark.pedantic(compare_rules, args=(old, new), rounds=3)

    assert found.changes
