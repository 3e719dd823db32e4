"""What to say about proofs beside their findings: how far they are, and what stays open."""

from tactics.checks.finding import Kind, Progress, Unconfirmed, Unsettled
from tactics.reading.wording import both

_CHECKS = {
    Kind.TERM_NEVER_HOLDS: "terms that never hold",
    Kind.NEVER_APPLIES: "rules that never apply",
    Kind.GAP: "gaps",
    Kind.CONFLICT: "conflicts",
    Kind.ALWAYS_OVERRULED: "rules that never decide",
    Kind.MISSING_STAGE: "rules without a stage",
    Kind.UNEVEN_HANDS: "rules that are uneven between hands",
    Kind.IDLE_CONDITION: "what could be left out",
}


def progress_words(step: Progress) -> str:
    """Return how far a check is: `looking for conflicts: 3 of 12 done`."""
    return f"looking for {_named(step.check)}: {step.done} of {step.total} done"


def remark_of(step: Unconfirmed | Unsettled) -> str:
    """Return what to tell a coach about something that is not known."""
    about = f" about {both(step.rules)}" if step.rules else ""
    if isinstance(step, Unsettled):
        return f"{_named(step.check)}{about}: this took too much work, and nothing is known"
    return (
        f"{_named(step.check)}{about}: something was found that could not be confirmed, so it is "
        "left out; that is a fault of this program"
    )


def _named(check: Kind) -> str:
    return _CHECKS[check]
