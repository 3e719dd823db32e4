"""A conflict stands in the file that is being written, not in the one it builds on."""

from tactics.checks.finding import Finding, Kind
from tactics.checks.prove import prove
from tactics.engine.compile import compile_rules
from tactics.reading.rules import read_rules
from tactics.source import Source

RULE = """\
rules:
  {id}:
    title: One way
    concern: safety
    strength: should
    advise: {{direction: {direction}}}
    because: It is so.
    cue: Go
"""
BELOW = "rule set: Below\nprecedence: [safety]\n" + RULE.format(id="a-road", direction="straight")
OWN = "rule set: Own\nbuilds on: [below]\n" + RULE.format(id="my-road", direction="crosscourt")


def test_the_rule_of_the_uppermost_file_is_named_first() -> None:
    files = {"below": Source(name="below", text=BELOW)}
    reading = read_rules(Source(name="own.yaml", text=OWN), files.get)
    assert reading.value is not None

    steps = prove(compile_rules(reading.value, "matcher"))
    found = [each for each in steps if isinstance(each, Finding) and each.kind is Kind.CONFLICT]

    assert [(each.rules, each.span.file) for each in found] == [(("my-road", "a-road"), "own.yaml")]
