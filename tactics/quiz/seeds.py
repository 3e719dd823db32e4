"""The seed of a quiz: a word, and behind it the rules that were planned, so that it says it all.

A seed of two parts, `k4f7-0a1b2c`, gives the same quiz to anybody with the same rule set; any
other text does so as well, and draws the rules itself.
"""

import re
from collections.abc import Sequence
from random import Random
from string import ascii_lowercase, digits

_SIGNS = digits + ascii_lowercase
_BASE = len(_SIGNS)
_WITH_PLAN = re.compile(rf"[^-]+-((?:[{_SIGNS}]{{2}})+)")


def seed_with(word: str, plan: Sequence[str], known: Sequence[str]) -> str:
    """Return the seed of a planned quiz. known: every rule that can be asked about."""
    order = sorted(known)
    if not plan or len(order) > _BASE * _BASE:
        return word
    numbers = (divmod(order.index(rule), _BASE) for rule in plan)
    return f"{word}-{''.join(_SIGNS[high] + _SIGNS[low] for high, low in numbers)}"


def plan_in(seed: str, known: Sequence[str]) -> tuple[str, ...]:
    """Return the rules that a seed carries, in order; none where it carries no plan."""
    found = _WITH_PLAN.fullmatch(seed)
    if found is None:
        return ()
    order, code = sorted(known), found[1]
    places = [int(code[at : at + 2], _BASE) for at in range(0, len(code), 2)]
    return tuple(order[place] for place in places) if max(places) < len(order) else ()


def plan_from(seed: str, known: Sequence[str], first: Sequence[str], count: int) -> tuple[str, ...]:
    """Return the rules of a quiz by its seed alone, whatever the player has met so far.

    first: rules to drill before any other.
    """
    written = plan_in(seed, known)
    if written:
        return written
    begin = [rule for rule in first if rule in known][:count]
    others = sorted(set(known) - set(begin))
    more = min(count - len(begin), len(others))
    return (*begin, *Random(f"plan/{seed}").sample(others, more))
