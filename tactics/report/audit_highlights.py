"""The few lines that stand first in an audit."""

from collections.abc import Iterator

from tactics.model.audit import Audit
from tactics.model.rule import RuleSet
from tactics.report.layout import bullet, counted
from tactics.report.rates import rate_words
from tactics.report.verdicts import find_rule
from tactics.review.highlights import Highlights, highlights
from tactics.review.tallies import Tally


def highlight_lines(audit: Audit, rules: RuleSet) -> tuple[str, ...]:
    """Return what stands out, what went right first."""
    found = highlights(audit)
    return tuple(line for text in _sentences(found, rules) for line in bullet(text, "  "))


def _sentences(found: Highlights, rules: RuleSet) -> Iterator[str]:
    every = found.all
    if every.kept + every.broken:
        yield (
            f"{every.kept} of {counted(every.kept + every.broken, 'decided choice')} kept the "
            f"rules: {rate_words(every.kept_rate)}"
        )
    if found.strongest is not None:
        yield f"Best kept: {found.strongest.name}, {rate_words(found.strongest.kept_rate)}"
    if found.weakest is not None:
        yield f"Most often against: {_rule(found.weakest, rules)}"
    elif found.few is not None:
        yield f"Most often against so far: {_rule(found.few, rules)}"
    yield from _against_outcome(found)
    if found.marks.apart:
        yield f"You and the rules differ on {counted(len(found.marks.apart), 'marked ball')}"
    if every.open:
        yield _open(found)
    if found.left_out:
        yield f"{counted(found.left_out, 'row')} could not be read (listed at the end)"


def _rule(tally: Tally, rules: RuleSet) -> str:
    rule = find_rule(rules, tally.name)
    title = f'"{rule.title}" ' if rule is not None else ""
    cue = f". Cue: {rule.cue}" if rule is not None and rule.cue else ""
    rate = rate_words(tally.broken_rate)
    return f"{title}[{tally.name}], {tally.broken} of {tally.broken_rate.n}: {rate}{cue}"


def _against_outcome(found: Highlights) -> Iterator[str]:
    if found.good_missed:
        yield (
            f"{counted(found.good_missed, 'ball')} well chosen and missed: keep the choice, work "
            "on stroke and timing"
        )
    if found.bad_came_off:
        yield (
            f"{counted(found.bad_came_off, 'ball')} against the rules came off: worth a word "
            "all the same"
        )


def _open(found: Highlights) -> str:
    said = f"{counted(found.all.open, 'ball')} could not be decided"
    if found.next_fact is None:
        return said
    fact = found.next_fact
    return f"{said}; worth charting next: {fact.fact}, which matters on {fact.matters}"
