"""What the flight says for the rules, in two lines below an advice."""

from tactics.engine.evidence import Evidence
from tactics.engine.exchange import Flown
from tactics.model.vocabulary import Vocabulary
from tactics.report.layout import Section, wrapped
from tactics.report.rule_words import answer_words
from tactics.report.shot_words import number

_COARSE, _FINE = 10, 5
_WIDE_RANGE = 0.20
"""A share whose range is wider than this is rounded to tens, else to fives."""


def evidence_section(found: Evidence, words: Vocabulary) -> Section:
    """Return the advised shot and the usual mistake, rounded as far as their ranges allow.

    No lines where nothing is left of the difference once it is rounded.
    """
    if found.mistake is not None and _said(found.advised) == _said(found.mistake):
        return Section(title="", lines=())
    first = (
        f"At {found.level} about {_share(found.advised)} of 100 such balls land in, and "
        f"{_home(found.advised)}."
    )
    wrong = answer_words(found.wrong, words)
    if found.mistake is None:
        second = f"The usual mistake ({wrong}) cannot stay in from here at that pace."
    else:
        second = (
            f"Of the usual mistake ({wrong}) about {_share(found.mistake)}, and "
            f"{_home(found.mistake)}."
        )
    return Section(
        title="What the flight says, an estimate",
        lines=(
            *wrapped(first, "  "),
            *wrapped(second, "  "),
            *wrapped(f"[for {found.rule.id}; numbers and assumptions: tactics shot]", "  "),
        ),
    )


def _said(flown: Flown) -> tuple[int, str]:
    return _share(flown), _home(flown)


def _share(flown: Flown) -> int:
    """Return the share of balls in, of 100, as fine as its range allows."""
    step = _COARSE if flown.in_high - flown.in_low > _WIDE_RANGE else _FINE
    return step * round(100.0 * float(flown.exchanges.shares.into_court[0]) / step)


def _home(flown: Flown) -> str:
    """Return whether the player is home as they hit, in half metres."""
    short = float(flown.exchanges.short_m[0])
    if short < 0.5:
        return "you are home as they hit"
    return f"you are {number(round(2.0 * short) / 2.0, 'm')} short as they hit"
