"""A gentle word where a chart names somebody by more than a nickname."""

import sys
from collections.abc import Iterable

from tactics.report.people import is_more_than_a_nickname


def remind(players: Iterable[str]) -> None:
    """Say once, beside the output, that a nickname is enough."""
    names = sorted({name for name in players if is_more_than_a_nickname(name)})
    if not names:
        return
    more = f" (and {len(names) - 1} more)" if len(names) > 1 else ""
    print(
        f'"{names[0]}"{more} looks like a full name or an address; charts get handed on, and a '
        "nickname is enough",
        file=sys.stderr,
    )
