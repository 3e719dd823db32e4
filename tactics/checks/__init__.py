"""What can be said about a rule set as a whole: each check finds problems, with their places."""

from collections.abc import Callable
from dataclasses import dataclass

from tactics.checks.broken_example import broken_examples
from tactics.checks.broken_mix_example import broken_mix_examples
from tactics.checks.flight_says import flight_says
from tactics.checks.unused_names import unused_names
from tactics.engine.advisor import Advisor
from tactics.problem import Problem, by_place


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """A check by name. is_quick: its time does not grow with the number of situations."""

    name: str
    find: Callable[[Advisor], tuple[Problem, ...]]
    is_quick: bool


CHECKS: tuple[Check, ...] = (
    Check(name="examples", find=broken_examples, is_quick=True),
    Check(name="mix examples", find=broken_mix_examples, is_quick=True),
    Check(name="unused names", find=unused_names, is_quick=True),
    Check(name="flight", find=flight_says, is_quick=False),
)  # fmt: skip


def check_rules(advisor: Advisor, *, quick: bool = False) -> tuple[Problem, ...]:
    """Return what all checks (or only the quick ones) find, in the order of the file."""
    chosen = [check for check in CHECKS if check.is_quick or not quick]
    return by_place([problem for check in chosen for problem in check.find(advisor)])
