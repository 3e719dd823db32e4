"""The few lines that stand first in an audit."""

from collections.abc import Iterator

from tactics.model.rule import RuleSet
from tactics.report.layout import bullet, counted
from tactics.report.rates import rate_words
from tactics.report.verdicts import find_rule
from tactics.review.highlights import Highlights
from tactics.review.ledger import Heading


def highlight_lines(found: Highlights, rules: RuleSet) -> tuple[str, ...]:
    """Return what stands out, what went right first."""
    return tuple(line for text in _sentences(found, rules) for line in bullet(text, "  "))


def _sentences(found: Highlights, rules: RuleSet) -> Iterator[str]:
    every = found.all
    if every.kept_rate.n:
        yield (
            f"{len(every.kept)} of {counted(every.kept_rate.n, 'decided choice')} kept the "
            f"rules: {rate_words(every.kept_rate)}"
        )
    if found.strongest is not None:
        yield f"Kept most surely: {found.strongest.name}, {rate_words(found.strongest.kept_rate)}"
    if found.weakest is not None:
        yield f"Broken most surely: {_rule(found.weakest, rules)}"
    elif found.few is not None:
        yield f"Most often against so far: {_rule(found.few, rules)}"
    yield from _against_outcome(found)
    if len(found.marks.apart):
        yield f"You and the rules differ on {counted(len(found.marks.apart), 'marked ball')}"
    if len(every.open):
        yield _open(found)
    if found.left_out:
        yield f"{counted(found.left_out, 'row')} could not be read (listed at the end)"


def _rule(heading: Heading, rules: RuleSet) -> str:
    rule = find_rule(rules, heading.name)
    title = f'"{rule.title}" ' if rule is not None else ""
    cue = f". Cue: {rule.cue}" if rule is not None and rule.cue else ""
    rate = rate_words(heading.broken_rate)
    broken = f"{len(heading.broken)} of {heading.broken_rate.n}"
    return f"{title}[{heading.name}], {broken}: {rate}{cue}"


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
    said = f"{counted(len(found.all.open), 'ball')} could not be decided"
    if found.next_fact is None:
        return said
    fact = found.next_fact
    some = f" of {found.looked_at} looked at" if found.looked_at < len(found.all.open) else ""
    return f"{said}; worth charting next: {fact.fact}, which matters on {fact.matters}{some}"
