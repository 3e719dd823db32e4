"""What a gap and a conflict say: the findings that show several balls and offer a line to paste."""

from collections.abc import Iterable

from tactics.checks.finding import Finding
from tactics.model.rule import RuleSet
from tactics.problem import Also, Severity
from tactics.reading.wording import both
from tactics.report.rule_words import answer_words
from tactics.report.witness_words import (
    Said,
    cannot_happen_lines,
    for_example,
    in_common,
    in_quotes,
    nearest_words,
    part_names,
)


def gap_said(finding: Finding, rules: RuleSet) -> Said:
    """Return what a gap says: which balls, what they share, one of them, and the nearest rules."""
    words = rules.vocabulary
    if not finding.witnesses:
        return Said(
            sentence=f"no rule says anything about {both(in_quotes(finding.phases))}",
            hint="that is well if the set is not about them; else write rules for them",
        )
    near = tuple(nearest_words(each, words) for each in finding.near)
    if finding.severity is Severity.INFORMATION and not finding.edges:
        return Said(
            sentence="no rule says anything about an ordinary ball, in any game situation",
            notes=near,
            hint="that is well for a set to lay on top of another (check the two together: tactics "
            "check OTHER THIS); else write rules for ordinary balls as well",
        )
    about = f" about {both(part_names(finding.parts, words))}" if finding.parts else ""
    more = ("There are other such balls besides.",) if finding.has_more else ()
    paste = cannot_happen_lines(finding.witnesses[0], words, finding.phases)
    hint = "write a rule for these balls, or widen the nearest one"
    return Said(
        sentence=f"no rule says anything{about} for some balls of game situation "
        f"{both(in_quotes(finding.phases))}",
        notes=(
            *in_common(finding, words),
            *(for_example(each, words) for each in finding.witnesses),
            *more,
            *near,
        ),
        hint=f"{hint}; if it cannot happen, say so in the file and why:" if paste else hint,
        paste=paste,
    )


def conflict_said(finding: Finding, rules: RuleSet) -> Said:
    """Return what two rules say that leave no common answer."""
    words, named = rules.vocabulary, in_quotes(finding.rules)
    asked = tuple(
        f'"{each}" asks for {_asked(rules, each, finding.parts)}' for each in finding.rules
    )
    first, *others = finding.rules
    paste = cannot_happen_lines(finding.witnesses[0], words)
    hint = (
        f'let one of them beat the other ("beats: [{others[-1] if others else first}]"), give the '
        'broader one an "unless", or give them different strengths or concerns'
    )
    return Said(
        sentence=f"{both(named)} leave no common answer for "
        f"{both(part_names(finding.parts, words))}",
        notes=(
            *asked,
            *in_common(finding, words),
            *(for_example(each, words) for each in finding.witnesses),
        ),
        hint=f"{hint}; if it cannot happen, say so in the file and why:" if paste else hint,
        also=tuple(
            Also(span=rules.rule(each).place_of(f"advise/{finding.parts[0]}"), text=f'"{each}"')
            for each in others
        ),
        paste=paste,
    )


def _asked(rules: RuleSet, rule_id: str, parts: Iterable[str]) -> str:
    advice = dict(rules.rule(rule_id).advice)
    return answer_words(tuple((part, advice[part]) for part in parts), rules.vocabulary)
