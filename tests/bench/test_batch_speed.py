"""A whole chart at once against ball by ball, and against the library `rule-engine`.

Ratios are taken in one run. Only conditions are compared with the library: it knows no grades.
"""

from time import perf_counter

import pytest

from tactics.cli.rule_files import load_rules
from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.batch import judge_all
from tactics.engine.compile import compile_rules
from tactics.engine.judge import case_of, judge
from tests.bench.lesson_balls import lesson_balls

BALLS = 100_000
ONE_BY_ONE = 1_000
BY_LIBRARY = 300


@pytest.fixture(scope="module")
def advisor() -> Advisor:
    rules = load_rules(["singles-club"]).reading.value
    assert rules is not None
    return compile_rules(rules, "durable")


def test_a_hundred_thousand_balls_at_once(benchmark, advisor):
    partner = pytest.importorskip("tests.bench.rule_engine_partner")
    situations, choices = lesson_balls(advisor.vocabulary, BALLS)
    advise(advisor, situations[0])

    verdicts = benchmark.pedantic(
        judge_all, args=(advisor, situations, choices), rounds=3, warmup_rounds=1
    )

    at_once_s = benchmark.stats.stats.median / BALLS
    one_by_one_s = _seconds_each(
        lambda place: judge(choices[place], advise(advisor, situations[place])), ONE_BY_ONE
    )
    asked = partner.RuleEnginePartner(advisor.program)
    exact = [
        partner.exact_values(
            advisor.program, case_of(choices[place], advise(advisor, situations[place])).masks
        )
        for place in range(BY_LIBRARY)
    ]
    library_s = _seconds_each(lambda place: asked.applying(exact[place]), BY_LIBRARY)
    benchmark.extra_info["rules"] = len(advisor.program.ready)
    benchmark.extra_info["microseconds a ball"] = round(at_once_s * 1e6, 1)
    benchmark.extra_info["times as fast as ball by ball"] = round(one_by_one_s / at_once_s, 1)
    benchmark.extra_info["times as fast as rule-engine"] = round(library_s / at_once_s, 1)
    print(benchmark.extra_info)
    assert len(verdicts.possible) == BALLS
    assert one_by_one_s / at_once_s >= 15
    assert library_s / at_once_s >= 50


def _seconds_each(work, count):
    start = perf_counter()
    for place in range(count):
        work(place)
    return (perf_counter() - start) / count
