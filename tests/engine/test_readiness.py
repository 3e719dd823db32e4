"""Readiness rules - playing on, the way back, the split - judge what was done without a stroke."""

import pytest

from tactics.engine.advise import advise
from tactics.engine.compile import compile_rules
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.known import word
from tactics.model.rule import RuleSet
from tactics.model.situation import in_words
from tactics.model.verdict import Grade, Reason, Verdict
from tactics.reading.rules import read_rules
from tactics.source import Source

READINESS = """\
rule set: Readiness
precedence: [safety, court position]
rules:
  play-on-until-the-call:
    title: A ball is live until somebody calls it
    concern: safety
    strength: must
    if choosing: {response: stopped before a call}
    advise: {response: [played, let go]}
    because: The rules count it as good until the call.
    cue: Hit first, ask later
  split-as-they-hit:
    title: Land on both feet as they hit
    concern: court position
    strength: should
    when: {game situation: [baseline rally, approaching or at net, opponent at net]}
    unless: {restricted today: yes}
    advise: {stance: split, afterwards: not watch}
    because: Feet that have just landed can go either way.
    cue: They hit, you land
"""


@pytest.fixture(scope="module")
def rules() -> RuleSet:
    reading = read_rules(Source(name="readiness.yaml", text=READINESS))
    assert reading.value is not None
    assert reading.problems == ()
    return reading.value


def verdict(rules: RuleSet, choice: dict[str, str], **facts: str) -> Verdict:
    situation = in_words(game_situation="baseline rally", **facts)
    tried = Choice.of({part: word(name) for part, name in choice.items()})
    return judge(tried, advise(compile_rules(rules), situation))


@pytest.mark.parametrize(
    ("choice", "grade", "rule"),
    [
        ({"response": "stopped before a call"}, Grade.UNSOUND, "play-on-until-the-call"),
        ({"stance": "flat-footed"}, Grade.DOUBTFUL, "split-as-they-hit"),
        ({"afterwards": "watch"}, Grade.DOUBTFUL, "split-as-they-hit"),
        ({"stance": "split", "afterwards": "recover"}, Grade.SOUND, "split-as-they-hit"),
    ],
    ids=["stopped early", "flat-footed", "watched", "ready"],
)
def test_readiness_is_judged_where_no_stroke_was_charted(
    rules: RuleSet, choice: dict[str, str], grade: Grade, rule: str
) -> None:
    found = verdict(rules, choice)

    assert found.grade is grade
    assert {name for finding in found.findings for name in finding.rules} == {rule}


def test_effort_is_not_judged_while_something_hurts(rules: RuleSet) -> None:
    found = verdict(
        rules,
        {"response": "stopped before a call", "stance": "flat-footed"},
        restricted_today="yes",
    )

    assert found.grade is Grade.UNDECIDED
    assert found.reason is Reason.NO_RULE
    assert found.findings == ()
