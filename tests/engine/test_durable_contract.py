"""What the engine relies on in the C module of durable-rules, and why it goes no further."""

import json

import pytest

from tactics.engine.durable_engine import load
from tactics.engine.packing import MOST_CHAINS, MOST_LITERALS, fnv

pytestmark = pytest.mark.skipif(load() is None, reason="durable-rules cannot be imported here")

WARM_UP = {"w": {"all": [{"m": {"stage": -1}}]}}
MATCHED, NOT_MATCHED, ALREADY_THERE = 0, 1, 2


def rule(*properties):
    asked = [{"stage": 0}, *({name: 1} for name in properties)]
    return {"all": [{"m": {"$and": asked} if properties else asked[0]}]}


def fact(*properties, stage=0, value=1):
    return json.dumps({"id": "s", "sid": "0", "stage": stage} | dict.fromkeys(properties, value))


class RuleSet:
    """A rule set inside the C module, used as the engine uses it."""

    def __init__(self, **rules):
        self.handle = load().create_ruleset("contract", json.dumps({**WARM_UP, **rules}))
        assert self.fired(fact(stage=-1)) == ["w"]

    def fired(self, text):
        code, state = load().assert_fact(self.handle, text)
        if code != MATCHED:
            return code
        found, message = [], load().start_action_for_state(self.handle, state)[1]
        while message:
            found += json.loads(message)
            message = load().complete_and_start_action(self.handle, state)
        load().retract_fact(self.handle, '{"id":"s","sid":"0"}')
        return found


@pytest.fixture
def open_set():
    opened = []

    def make(**rules):
        opened.append(RuleSet(**rules))
        return opened[-1]

    yield make
    for each in opened:
        load().delete_state(each.handle, "0")
        load().delete_ruleset(each.handle)


def test_every_rule_whose_properties_are_all_there_fires_once(open_set):
    rules = open_set(one=rule("a"), both=rule("a", "b"), other=rule("b", "c"), none=rule())

    assert sorted(rules.fired(fact("a", "b"))) == ["both", "none", "one"]
    assert rules.fired(fact("c")) == ["none"]


def test_a_property_that_is_missing_or_not_one_matches_nothing(open_set):
    rules = open_set(one=rule("a"))

    assert rules.fired(fact()) == NOT_MATCHED
    assert rules.fired(fact("b")) == NOT_MATCHED
    assert rules.fired(fact("a", value=0)) == NOT_MATCHED
    assert rules.fired(fact("a", stage=1)) == NOT_MATCHED


def test_a_fact_is_gone_once_it_is_retracted(open_set):
    rules = open_set(one=rule("a"))

    there = [rules.fired(fact("a")) for _ in range(3)]

    assert there == [["one"]] * 3
    assert load().get_facts(rules.handle, "0") == "[]"


def test_a_fact_that_is_still_there_is_told_apart(open_set):
    rules = open_set(one=rule("a"))
    load().assert_fact(rules.handle, fact("a"))

    assert rules.fired(fact("a")) == ALREADY_THERE
    assert load().get_facts(rules.handle, "0") != "[]"


def test_the_agenda_holds_as_many_chains_as_are_sent_and_hardly_more(open_set):
    names = [f"c{number}" for number in range(65)]
    full = open_set(**{name: rule(name) for name in names[:MOST_CHAINS]})
    too_full = open_set(**{name: rule(name) for name in names})

    assert sorted(full.fired(fact(*names))) == sorted(names[:MOST_CHAINS])
    with pytest.raises(load().error, match="303"):
        too_full.fired(fact(*names))


def test_a_fact_holds_as_many_properties_as_are_sent_and_hardly_more(open_set):
    names = [f"c{number}" for number in range(260)]
    rules = open_set(long=rule(*names[:MOST_LITERALS]))

    assert rules.fired(fact(*names[:MOST_LITERALS])) == ["long"]
    assert rules.fired(fact(*names[: MOST_LITERALS - 1])) == NOT_MATCHED
    with pytest.raises(load().error, match="302"):
        rules.fired(fact(*names))


def test_two_names_with_one_hash_are_mixed_up_so_none_are_sent(open_set):
    rules = open_set(one=rule("costarring"))

    assert fnv("costarring") == fnv("liquid")
    assert rules.fired(fact("liquid")) == ["one"]


def test_a_deleted_rule_set_is_refused_and_not_read():
    rules = RuleSet(one=rule("a"))
    load().delete_state(rules.handle, "0")
    load().delete_ruleset(rules.handle)

    with pytest.raises(load().error, match="111"):
        rules.fired(fact("a"))
