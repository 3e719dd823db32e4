"""What a rule, a term or a condition that does nothing says, and why it does nothing."""

from collections.abc import Iterator

from tactics.checks.finding import Finding, Kind
from tactics.model.condition import Condition
from tactics.model.rule import RuleSet
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also
from tactics.reading.wording import both
from tactics.report.legality_page import reason_texts
from tactics.report.rule_words import condition_words
from tactics.report.witness_words import Said, for_example, in_quotes, told_words, verb_for


def dead_term_said(finding: Finding, rules: RuleSet) -> Said:
    """Return what a term says that never holds."""
    users = f"; so it is for nothing in {both(in_quotes(finding.others))}" if finding.others else ""
    return Said(
        sentence=f'the term "{finding.term}" never holds{users}',
        notes=tuple(_why_not(finding, rules)),
        hint="mend the condition, or take the term out",
    )


def dead_rule_said(finding: Finding, rules: RuleSet) -> Said:
    """Return what a rule says that never applies."""
    words = rules.vocabulary
    return Said(
        sentence=f'the rule "{finding.rules[0]}" never applies: its conditions cannot come '
        "together",
        notes=(
            *_why_not(finding, rules),
            *(
                f"All but the last would hold here: {told_words(each, words)}"
                for each in finding.witnesses
            ),
        ),
        hint="mend one of these conditions, or take the rule out",
    )


def overruled_said(finding: Finding, rules: RuleSet) -> Said:
    """Return what a rule says that applies and decides nothing."""
    verb = verb_for(finding.others, "comes", "come")
    by = f": {both(in_quotes(finding.others))} always {verb} first" if finding.others else ""
    return Said(
        sentence=f'the rule "{finding.rules[0]}" applies, but never decides anything{by}',
        notes=tuple(for_example(each, rules.vocabulary) for each in finding.witnesses),
        hint="move it to a higher concern, let it beat the others, narrow those, or take it out",
        also=tuple(
            Also(span=rules.rule(each).span, text=f'"{each}" comes first')
            for each in finding.others
        ),
    )


def idle_said(finding: Finding, rules: RuleSet) -> Said:
    """Return what a condition or exception says that changes no advice."""
    words = rules.vocabulary
    is_exception = finding.kind is Kind.IDLE_EXCEPTION
    meant, *others = (
        (*finding.exceptions, *finding.conditions)
        if is_exception
        else (*finding.conditions, *finding.exceptions)
    )
    what = "the exception" if is_exception else "the condition"
    return Said(
        sentence=f'in rule "{finding.rules[0]}" {what} {_quoted(meant, words)} changes nothing',
        notes=tuple(_why_idle(finding, rules, tuple(others))),
        hint="take it out, or keep it as a reminder to the reader",
        also=tuple(
            Also(span=rules.rule(each).span, text=f'"{each}" decides there')
            for each in finding.others
        ),
    )


def _quoted(condition: Condition, words: Vocabulary) -> str:
    """Return a condition in quotes, unless it has the name of a term in quotes already."""
    said = condition_words(condition, words)
    return said if '"' in said else f'"{said}"'


def repeated_said(finding: Finding, rules: RuleSet) -> Said:
    """Return what a rule says that changes no advice."""
    others = both(in_quotes(finding.others)) or "what the others say"
    verb = verb_for(finding.others, "says", "say")
    return Said(
        sentence=f'the rule "{finding.rules[0]}" changes no advice: {others} already '
        f"{verb} as much",
        notes=tuple(for_example(each, rules.vocabulary) for each in finding.witnesses),
        hint="take it out, or keep it for its reason and its cue",
        also=tuple(Also(span=rules.rule(each).span, text=f'"{each}"') for each in finding.others),
    )


def _why_not(finding: Finding, rules: RuleSet) -> Iterator[str]:
    words = rules.vocabulary
    said = [condition_words(each, words) for each in finding.conditions]
    said += [f"no exception for {condition_words(each, words)}" for each in finding.exceptions]
    if len(said) > 1:
        yield f"These cannot come together: {'; '.join(said)}."
    elif said:
        yield f"This cannot be: {said[0]}."
    yield from reason_texts(finding.reasons, rules)


def _why_idle(finding: Finding, rules: RuleSet, others: tuple[Condition, ...]) -> Iterator[str]:
    words = rules.vocabulary
    if finding.others:
        yield (
            f"Where it does not hold, {both(in_quotes(finding.others))} "
            f"{verb_for(finding.others, 'decides', 'decide')}, with or without this rule."
        )
    elif others or finding.reasons:
        said = [condition_words(each, words) for each in others]
        if said:
            yield f"It follows from the rest of the rule: {'; '.join(said)}."
        yield from reason_texts(finding.reasons, rules)
    else:
        yield "Without it the advice would be the same everywhere."
