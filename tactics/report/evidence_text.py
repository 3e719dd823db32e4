"""What the flight says for the rules, in two lines below an advice."""

from tactics.engine.evidence import Evidence
from tactics.engine.exchange import Flown
from tactics.flight.constants import MS_PER_KMH
from tactics.model.vocabulary import Vocabulary
from tactics.report.layout import Section, wrapped
from tactics.report.rule_words import answer_words
from tactics.report.shot_words import number

HOME = "you are home as they hit"
_HOME_ALIKE = {True: "you are home either way", False: "you are as far from home"}
_COARSE, _FINE = 10, 5
_WIDE_RANGE = 0.20
"""A share whose range is wider than this is rounded to tens, else to fives."""


def evidence_section(found: Evidence, words: Vocabulary) -> Section:
    """Return the advised shot and the usual mistake, rounded as far as their ranges allow.

    The advised shot is told as it was flown: the height follows from what the rules ask for.
    No lines where nothing is left of the difference once it is rounded.
    """
    if found.mistake is not None and _said(found.advised) == _said(found.mistake):
        return Section(title="", lines=())
    whose = found.whose[0].upper() + found.whose[1:]
    first = (
        f"{whose} about {_share(found.advised)} of 100 balls as advised, flown "
        f"{_flown(found.advised)}, land in, and {_home(found.advised)}."
    )
    second = _mistaken(found, answer_words(found.wrong, words))
    return Section(
        title="What the flight says, an estimate",
        lines=(
            *wrapped(first, "  "),
            *wrapped(second, "  "),
            *wrapped(f"[for {found.rule.id}; numbers and assumptions: tactics shot]", "  "),
        ),
    )


def _mistaken(found: Evidence, wrong: str) -> str:
    """Return the sentence about the usual mistake."""
    if found.mistake is None:
        return f"The usual mistake ({wrong}) cannot stay in from here at that pace."
    share, home = _share(found.mistake), _home(found.mistake)
    if home == _home(found.advised):
        return f"Of the usual mistake ({wrong}) about {share}; {_HOME_ALIKE[home == HOME]}."
    return f"Of the usual mistake ({wrong}) about {share}, and {home}."


def _flown(flown: Flown) -> str:
    """Return height over the net and pace of a ball as it was flown, rounded."""
    height = float(flown.exchanges.height_over_net_m[0])
    coarse = round(2.0 * height) / 2.0 if height >= 1.0 else height
    pace = _FINE * round(flown.candidate.pace_ms / MS_PER_KMH / _FINE)
    return f"about {number(coarse, 'm')} over the net at {pace} km/h"


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
        return HOME
    return f"you are {number(round(2.0 * short) / 2.0, 'm')} short as they hit"
