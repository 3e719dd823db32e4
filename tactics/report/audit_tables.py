"""The tables of an audit."""

from collections.abc import Sequence

from tactics.model.audit import Audit
from tactics.model.verdict import Grade, Kept
from tactics.report.layout import counted, table, wrapped
from tactics.report.rates import rate_cell
from tactics.review.outcomes import Did, outcome_table
from tactics.review.tallies import Tally, by_cause

_NAME_WIDTH = 26
_CHOICE = {
    Kept.YES: "choice kept the rules",
    Kept.NO: "choice did not",
    Kept.OPEN: "choice undecided",
}
_BALL = {
    Did.AS_INTENDED: "ball as intended",
    Did.NOT_AS_INTENDED: "not as intended",
    Did.NOT_NOTED: "not noted",
}


def grade_lines(audit: Audit) -> tuple[str, ...]:
    """Return how many balls got each grade."""
    counts = [(grade, sum(e.verdict.grade is grade for e in audit.judged)) for grade in Grade]
    return tuple(f"  {grade:<10}  {count:>4}" for grade, count in counts)


def tally_lines(tallies: Sequence[Tally]) -> tuple[str, ...]:
    """Return tallies as a table with the share that kept the rules."""
    rows = [
        (
            tally.name,
            f"{tally.kept} of {tally.kept + tally.broken}",
            str(tally.open or ""),
            rate_cell(tally.kept_rate),
        )
        for tally in tallies
    ]
    header = ("", "kept", "open", "share that kept the rules")
    return table(header, rows, right=frozenset((1, 2)), name_width=_NAME_WIDTH)


def rule_lines(tallies: Sequence[Tally]) -> tuple[str, ...]:
    """Return the rules that were broken or left open as a table, those always kept in a line."""
    telling = [tally for tally in tallies if tally.broken or tally.open]
    always = [tally for tally in tallies if tally not in telling]
    if not always:
        return tally_lines(telling)
    named = ", ".join(f"{tally.name} {tally.kept}" for tally in always)
    return (*tally_lines(telling), *wrapped(f"Always kept (balls): {named}", "  ", "    "))


def outcome_lines(audit: Audit) -> tuple[str, ...]:
    """Return the choice against what the ball did."""
    found = outcome_table(audit.judged)
    rows = [
        (_CHOICE[kept], *(str(found.count(kept, did)) for did in Did))
        for kept in Kept
        if any(found.count(kept, did) for did in Did)
    ]
    lines = table(("", *_BALL.values()), rows, right=frozenset((1, 2, 3)))
    if not found.disturbed:
        return lines
    note = (
        f"{counted(found.disturbed, 'disturbed ball')} (net cord, bad bounce, gust, let) left "
        "out of this table."
    )
    return (*lines, *wrapped(note, "  "))


def cause_lines(audit: Audit) -> tuple[str, ...]:
    """Return the causes of bad balls, the coach's own apart from those proposed."""
    counts = by_cause(audit.judged)
    rows = [(str(each.cause), str(each.by_coach), str(each.proposed)) for each in counts]
    lines = table(("", "said by the coach", "proposed here"), rows, right=frozenset((1, 2)))
    if not any(each.proposed for each in counts):
        return lines
    note = "A proposed cause is a guess from grade, time, place and ball; the coach's word counts."
    return (*lines, *wrapped(note, "  "))
