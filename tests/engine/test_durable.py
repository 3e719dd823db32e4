"""Corners of the engine that runs on durable-rules, and life without durable-rules."""

import gc
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from tactics.engine.advise import advise
from tactics.engine.advisor import Matcher
from tactics.engine.compile import compile_rules
from tactics.engine.durable_engine import MOST_FAULTS, DurableEngine, engine_name, load
from tactics.engine.normal_form import derivations
from tactics.engine.packing import MOST_CHAINS, MOST_LITERALS, distinct, fnv, packs
from tests.bench.sixty_rules import situations, sixty_rules

ROOT = Path(__file__).parents[2]
SIXTY = compile_rules(sixty_rules())
ASKED = [advise(SIXTY, each).leaves for each in situations(40, unseen=0.3)]
EXPECTED = [Matcher(SIXTY.program).infer(leaves) for leaves in ASKED]

needs_durable = pytest.mark.skipif(load() is None, reason="durable-rules cannot be imported here")

JUDGE_SIXTY = """
from tactics.engine.advise import advise
from tactics.engine.compile import compile_rules
from tactics.engine.durable_engine import engine_name
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.known import word
from tests.bench.sixty_rules import sixty_rules, situations

advisor = compile_rules(sixty_rules())
choice = Choice.of({"direction": word("straight")})
verdicts = [judge(choice, advise(advisor, each)) for each in situations(20, unseen=0.1)]
print(advisor.engine.name, "|", engine_name())
print([(str(v.grade), sorted(v.possible), v.deciding, v.missing) for v in verdicts])
"""
WITHOUT = 'import sys; sys.modules["durable_rules_engine"] = None\n'


def run(code, *flags):
    """Return the lines that a fresh Python prints."""
    return subprocess.run(
        [sys.executable, *flags, "-c", code],
        capture_output=True,
        check=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        text=True,
    ).stdout.splitlines()


def infer_all(engine):
    return [engine.infer(leaves) for leaves in ASKED]


@needs_durable
def test_without_durable_rules_every_verdict_is_the_same():
    with_durable = run(JUDGE_SIXTY)
    without = run(WITHOUT + JUDGE_SIXTY)

    assert with_durable[0] == "durable-rules | durable-rules 2.0.28"
    assert without[0] == "matcher | plain matcher (durable-rules 2.0.28 does not load here)"
    assert without[1] == with_durable[1]


def test_where_nothing_is_installed_the_engine_says_so():
    found = run("from tactics.engine.durable_engine import engine_name; print(engine_name())", "-S")

    assert found == ["plain matcher (durable-rules is not installed here)"]


def test_asking_for_durable_rules_by_name_fails_where_it_is_absent():
    found = run(
        WITHOUT
        + "from tactics.engine.compile import compile_rules\n"
        + "from tests.bench.sixty_rules import sixty_rules\n"
        + "try:\n    compile_rules(sixty_rules(), 'durable')\n"
        + "except ImportError as error:\n    print(error)\n"
        + "print(compile_rules(sixty_rules(), 'matcher').engine.name)"
    )

    assert found == ["durable-rules cannot be imported here", "matcher"]


@needs_durable
def test_durable_rules_is_loaded_with_the_first_question_only():
    found = run(
        "import sys\n"
        "from tactics.engine.advise import advise\n"
        "from tactics.engine.compile import compile_rules\n"
        "from tests.bench.sixty_rules import sixty_rules, situations\n"
        "advisor = compile_rules(sixty_rules())\n"
        "print('durable_rules_engine' in sys.modules)\n"
        "advise(advisor, situations(1)[0])\n"
        "print('durable_rules_engine' in sys.modules)"
    )

    assert found == ["False", "True"]


@needs_durable
def test_the_name_is_that_of_the_engine_which_answers():
    assert compile_rules(sixty_rules()).engine.name == "durable-rules"
    assert compile_rules(sixty_rules(), "durable").engine.name == "durable-rules"
    assert compile_rules(sixty_rules(), "matcher").engine.name == "matcher"
    assert engine_name().startswith("durable-rules ")


def leave_a_fact_behind(engine):
    """Do what no question may do: leave the fact of an unfinished question in every rule set."""
    for pack in engine._memory._packs:
        load().assert_fact(pack.handle, '{"id":"s","sid":"0","stage":-1}')


def answered_after_a_fault(engine):
    leave_a_fact_behind(engine)
    return infer_all(engine)


@needs_durable
def test_a_fault_is_answered_by_the_matcher_and_repaired():
    engine = DurableEngine(SIXTY.program)
    before = infer_all(engine)
    leave_a_fact_behind(engine)

    after = infer_all(engine)

    assert engine.faults == 1
    assert before == after == EXPECTED
    assert engine.name == "durable-rules"


@needs_durable
def test_after_several_faults_the_matcher_stays():
    engine = DurableEngine(SIXTY.program)
    infer_all(engine)

    answers = [answered_after_a_fault(engine) for _ in range(MOST_FAULTS)]

    assert engine.faults == MOST_FAULTS
    assert engine.name == "matcher"
    assert [*answers, infer_all(engine)] == [EXPECTED] * (MOST_FAULTS + 1)


@needs_durable
def test_an_interrupted_question_leaves_nothing_behind():
    class Interrupted(list):
        def __iter__(self):
            raise KeyboardInterrupt

    engine = DurableEngine(SIXTY.program)
    infer_all(engine)

    with pytest.raises(KeyboardInterrupt):
        engine.infer(Interrupted(ASKED[0]))

    assert engine._memory is None
    assert infer_all(engine) == EXPECTED
    assert engine.faults == 0


@needs_durable
def test_a_closed_engine_opens_again():
    engine = DurableEngine(SIXTY.program)
    infer_all(engine)

    engine.close()
    engine.close()

    assert infer_all(engine) == EXPECTED
    assert engine.faults == 0


@needs_durable
def test_a_closed_engine_gives_its_rule_sets_back():
    engine = DurableEngine(SIXTY.program)
    infer_all(engine)
    memory = engine._memory

    engine.close()

    with pytest.raises(load().error, match="111"):
        load().get_facts(memory._packs[0].handle, "0")


@needs_durable
def test_an_advisor_nobody_holds_gives_its_rule_sets_back():
    engine = DurableEngine(SIXTY.program)
    infer_all(engine)
    handle = engine._memory._packs[0].handle

    del engine
    gc.collect()

    with pytest.raises(load().error, match="111"):
        load().get_facts(handle, "0")


@needs_durable
def test_several_threads_may_share_an_engine():
    engine = DurableEngine(SIXTY.program)

    with ThreadPoolExecutor(4) as pool:
        found = [*pool.map(engine.infer, ASKED * 10)]

    assert found == EXPECTED * 10
    assert engine.faults == 0


def properties_sent(pack):
    """Return how many properties a fact for this rule set has when everything is open."""
    return "".join(unsure for _, unsure, _ in pack.possibly).count(":")


@pytest.mark.parametrize("rules", [1, 60, 400])
def test_no_rule_set_is_larger_than_durable_rules_can_hold(rules):
    program = compile_rules(sixty_rules(rules=rules, terms=20)).program

    found = packs(derivations(program))

    assert max(len(pack.targets) for pack in found) <= MOST_CHAINS
    assert max(map(properties_sent, found)) <= MOST_LITERALS
    names = [name for pack in found for name in pack.targets]
    assert len(set(map(fnv, names))) == len(names) >= rules


def test_names_with_one_hash_are_not_handed_out_twice():
    assert [*distinct(["liquid", "costarring", "id", "stage", "other"])] == ["liquid", "other"]
