"""How many situations a second sixty rules answer: `pytest tests/bench --benchmark-only`.

A round asks about 500 situations; `situations_a_second` is for the best round, in time of this
process, so that what else the machine does counts less. The floor is the project's promise for
one situation at a time through durable-rules, everything in it seen.
"""

from time import process_time

import pytest

from tactics.cli.rule_files import load_rules
from tactics.engine.advise import advise
from tactics.engine.advisor import Matcher
from tactics.engine.compile import compile_rules
from tactics.engine.durable_engine import DurableEngine, load
from tests.bench.lesson_balls import lesson_balls
from tests.bench.sixty_rules import situations, sixty_rules

SITUATIONS = 500
PROMISED_A_SECOND = 8_000

pytestmark = pytest.mark.benchmark(timer=process_time)
needs_durable = pytest.mark.skipif(load() is None, reason="durable-rules cannot be imported here")


@pytest.fixture(scope="module")
def advisor():
    return compile_rules(sixty_rules())


def leaves_of(advisor, unseen):
    return [advise(advisor, each).leaves for each in situations(SITUATIONS, unseen=unseen)]


def rate(benchmark, ask, some):
    """Ask about every one of them per round; return how many a second the best round did."""
    benchmark(lambda: [ask(each) for each in some])
    found = round(len(some) / benchmark.stats.stats.min)
    benchmark.extra_info["situations_a_second"] = found
    print(f"\n{benchmark.name}: {found} situations a second")
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
@pytest.mark.benchmark(group="the shipped set, invented lesson balls")
def test_durable_rules_on_the_shipped_set(benchmark):
    rules = load_rules(["singles-club"]).reading.value
    assert rules is not None
    advisor = compile_rules(rules, "durable")
    balls, _ = lesson_balls(advisor.vocabulary, SITUATIONS)

    rate(benchmark, advisor.engine.infer, [advise(advisor, each).leaves for each in balls])

    benchmark.extra_info["rules"] = len(advisor.program.ready)


@needs_durable
@pytest.mark.benchmark(group="opening, 60 rules")
def test_opening_a_rule_set(benchmark, advisor):
    leaves = leaves_of(advisor, 0.0)[0]

    benchmark(lambda: DurableEngine(advisor.program).infer(leaves))
