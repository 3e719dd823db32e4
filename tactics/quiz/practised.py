"""How much each rule was practised, to stand beside what was charted of it on court.

Both are shown; neither is claimed to cause the other.
"""

from collections.abc import Iterable
from dataclasses import replace

from tactics.model.progress import Practised
from tactics.model.scenario import Answer, Credit


def practised(answers: Iterable[Answer]) -> dict[str, Practised]:
    """Return rule -> its first quiz day and counts of answers, whatever its revision was."""
    found: dict[str, Practised] = {}
    for answer in answers:
        so_far = found.get(answer.rule) or Practised(first_day=answer.day, answered=0, full=0)
        found[answer.rule] = replace(
            so_far,
            first_day=min(so_far.first_day, answer.day),
            answered=so_far.answered + (answer.credit is not None),
            full=so_far.full + (answer.credit is Credit.FULL),
        )
    return found
