"""Facts and terms that a file brings along and nothing in the whole set asks for."""

from collections.abc import Iterator

from tactics.engine.advisor import Advisor
from tactics.model.condition import Condition, names_in
from tactics.model.names import fold
from tactics.model.rule import RuleSet
from tactics.problem import Problem, Severity
from tactics.source import Span

CODE = "unused-name"


def unused_names(advisor: Advisor) -> tuple[Problem, ...]:
    """Return a remark for each fact and term of the uppermost file that no condition asks for."""
    rules = advisor.rules
    used = names_in(_conditions(rules))
    used |= {name for mix in rules.mixes for name in (mix.any_one, *mix.for_each)}
    return tuple(
        Problem(
            code=CODE,
            span=span,
            sentence=f'no rule asks for the {kind} "{name}"',
            hint="ask for it in a rule under when or unless, or take it out",
            severity=Severity.INFORMATION,
        )
        for name, span, kind in _brought_along(rules)
        if fold(name) not in used and span.file == rules.span.file
    )


def _brought_along(rules: RuleSet) -> Iterator[tuple[str, Span, str]]:
    """Yield terms and own facts; a plain number may be there for charts alone: a place, say."""
    for name, span in rules.own_facts:
        if rules.vocabulary.trait(name).words:
            yield rules.vocabulary.trait(name).name, span, "fact"
    for term in rules.terms:
        yield term.name, term.span, "term"


def _conditions(rules: RuleSet) -> Iterator[Condition]:
    for rule in rules.rules:
        yield from (rule.when, *rule.unless, *((rule.choosing,) if rule.choosing else ()))
    for term in rules.terms:
        yield term.condition
    for mix in rules.mixes:
        yield from (mix.of, mix.share)
    for line in rules.cannot_happen:
        yield line.when
