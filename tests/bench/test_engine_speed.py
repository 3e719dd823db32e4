"""How many situations a second sixty rules answer: `pytest tests/bench --benchmark-only`.

A round asks about 500 situations; `situations_a_second` in the extra columns is for the best
round. The floor is the project's promise for one situation at a time through durable-rules.
"""

import pytest

from tactics.engine.advise import advise
from tactics.engine.advisor import Matcher
from tactics.engine.compile import compile_rules
from tactics.engine.durable_engine import DurableEngine, load
from tests.bench.sixty_rules import situations, sixty_rules

SITUATIONS = 500
PROMISED_A_SECOND = 8_000

needs_durable = pytest.mark.skipif(load() is None, reason="durable-rules cannot be imported here")


@pytest.fixture(scope="module")
def advisor():
    return compile_rules(sixty_rules())


def leaves_of(advisor, unseen):
    return [advise(advisor, each).leaves for each in situations(SITUATIONS, unseen=unseen)]


def rate(benchmark, ask, some):
    """Ask about every one of them per round; return how many a second the best round did."""
    benchmark(lambda: [ask(each) for each in some])
    found = len(some) / benchmark.stats.stats.min
    benchmark.extra_info["situations_a_second"] = round(found)
    return found


@needs_durable
@pytest.mark.benchmark(group="inference, 60 rules")
@pytest.mark.parametrize("unseen", [0.0, 0.3, 0.7])
def test_durable_rules(benchmark, advisor, unseen):
    engine = DurableEngine(advisor.program)

    found = rate(benchmark, engine.infer, leaves_of(advisor, unseen))

    assert engine.faults == 0
    assert found >= PROMISED_A_SECOND or unseen > 0


@pytest.mark.benchmark(group="inference, 60 rules")
@pytest.mark.parametrize("unseen", [0.0, 0.3, 0.7])
def test_plain_matcher(benchmark, advisor, unseen):
    rate(benchmark, Matcher(advisor.program).infer, leaves_of(advisor, unseen))


@needs_durable
@pytest.mark.benchmark(group="advice, 60 rules: from a situation to what the rules say")
@pytest.mark.parametrize("unseen", [0.0, 0.3, 0.7])
def test_advice(benchmark, advisor, unseen):
    rate(benchmark, lambda each: advise(advisor, each), situations(SITUATIONS, unseen=unseen))


@needs_durable
@pytest.mark.benchmark(group="opening, 60 rules")
def test_opening_a_rule_set(benchmark, advisor):
    leaves = leaves_of(advisor, 0.0)[0]

    benchmark(lambda: DurableEngine(advisor.program).infer(leaves))
