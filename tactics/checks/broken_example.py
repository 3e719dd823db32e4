"""Examples that the rule set does not keep."""

from tactics.engine.advisor import Advisor
from tactics.engine.examples import RanExample, run_examples
from tactics.model.rule import RuleSet
from tactics.model.verdict import BROKEN, KEPT, Finding, Grade
from tactics.problem import Also, Problem
from tactics.reading.chart_writing import write_known
from tactics.reading.wording import both

CODE = "example-fails"


def broken_examples(advisor: Advisor) -> tuple[Problem, ...]:
    """Return a problem for each example to which the whole rule set gives another grade."""
    return tuple(_problem(ran, advisor.rules) for ran in run_examples(advisor) if not ran.holds)


def _problem(ran: RanExample, rules: RuleSet) -> Problem:
    wanted, given = ran.example.grade, ran.verdict.grade
    return Problem(
        code=CODE,
        span=ran.example.span,
        sentence=f'an example of rule "{ran.rule.id}" says {wanted}, and the rules together say '
        f"{given}",
        hint=f"{_why(ran, rules)}; {_way_out(ran, rules)}",
        also=_others(ran, rules),
        opener=ran.rule.span.line,
    )


def _way_out(ran: RanExample, rules: RuleSet) -> str:
    """Return what to do: an own fact without an ordinary word leaves every example open."""
    traits = [rules.vocabulary.trait(name) for name in ran.verdict.missing]
    nameless = [trait for trait in traits if trait.own and not trait.ordinary and trait.words]
    if nameless:
        trait = nameless[0]
        return (
            f'give the fact "{trait.name}" the word of an everyday ball, for example '
            f"ordinary: {trait.words[0].name}"
        )
    return "change the example, or the rule that is not what you mean"


def _why(ran: RanExample, rules: RuleSet) -> str:
    verdict = ran.verdict
    if verdict.missing:
        return f"{both(verdict.missing)} was not given and decides"
    if verdict.clashing:
        return f"{both(verdict.clashing)} leave no common answer"
    if not verdict.findings:
        return "no rule speaks to what the example chooses"
    telling = [each for each in verdict.findings if _tells(each, ran.example.grade)]
    return "; ".join(_found(each, rules) for each in telling or verdict.findings)


def _tells(finding: Finding, wanted: Grade) -> bool:
    """Say whether a finding is a reason for the difference."""
    return finding.grade not in KEPT if wanted in KEPT else finding.grade in KEPT | BROKEN


def _found(finding: Finding, rules: RuleSet) -> str:
    trait = rules.vocabulary.trait(finding.part)
    charted = write_known(finding.charted, trait)
    return f"{trait.name} {charted} is {finding.grade} by {both(finding.rules)}"


def _others(ran: RanExample, rules: RuleSet) -> tuple[Also, ...]:
    """Return the place of the rule that decides, where it is another one."""
    deciding = ran.verdict.deciding
    if not deciding or deciding == ran.rule.id:
        return ()
    return (Also(span=rules.rule(deciding).span, text=f"{deciding} decides it"),)
