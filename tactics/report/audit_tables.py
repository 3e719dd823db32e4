"""The tables of an audit."""

from collections.abc import Sequence

from tactics.model.verdict import Kept
from tactics.report.layout import counted, table, wrapped
from tactics.report.rates import rate_cell
from tactics.review.ledger import GRADE_CODES, Heading, Ledger
from tactics.review.outcomes import Did, outcome_table

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


def grade_lines(ledger: Ledger) -> tuple[str, ...]:
    """Return how many balls got each grade."""
    return tuple(
        f"  {grade:<10}  {int((ledger.grade == code).sum()):>4}"
        for code, grade in enumerate(GRADE_CODES)
    )


def heading_lines(headings: Sequence[Heading]) -> tuple[str, ...]:
    """Return headings as a table with the share that kept the rules."""
    rows = [
        (
            each.name,
            f"{len(each.kept)} of {each.kept_rate.n}",
            str(len(each.open) or ""),
            rate_cell(each.kept_rate),
        )
        for each in headings
    ]
    header = ("", "kept", "open", "share that kept the rules")
    return table(header, rows, right=frozenset((1, 2)), name_width=_NAME_WIDTH)


def rule_lines(headings: Sequence[Heading]) -> tuple[str, ...]:
    """Return the rules that were broken or left open as a table, those always kept in a line."""
    telling = [each for each in headings if len(each.broken) or len(each.open)]
    always = [each for each in headings if not len(each.broken) and not len(each.open)]
    if not always:
        return heading_lines(telling)
    named = ", ".join(f"{each.name} {len(each.kept)}" for each in always)
    return (*heading_lines(telling), *wrapped(f"Always kept (balls): {named}", "  ", "    "))


def outcome_lines(ledger: Ledger) -> tuple[str, ...]:
    """Return the choice against what the ball did."""
    found = outcome_table(ledger)
    rows = [
        (_CHOICE[kept], *(str(found.count(kept, did)) for did in Did))
        for kept in Kept
        if any(found.count(kept, did) for did in Did)
    ]
    lines = table(("", *_BALL.values()), rows, right=frozenset((1, 2, 3)))
    if not len(found.disturbed):
        return lines
    note = (
        f"{counted(len(found.disturbed), 'disturbed ball')} (net cord, bad bounce, gust, let) left "
        "out of this table."
    )
    return (*lines, *wrapped(note, "  "))


def cause_lines(ledger: Ledger) -> tuple[str, ...]:
    """Return the causes of bad balls, the coach's own apart from those proposed."""
    counts = ledger.by_cause()
    rows = [(str(cause), str(len(said)), str(len(proposed))) for cause, said, proposed in counts]
    lines = table(("", "said by the coach", "proposed here"), rows, right=frozenset((1, 2)))
    if not any(len(proposed) for _, _, proposed in counts):
        return lines
    note = "A proposed cause is a guess from grade, time, place and ball; the coach's word counts."
    return (*lines, *wrapped(note, "  "))
