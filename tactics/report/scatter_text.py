"""A player's own scatter in words: how far the balls stray, how sure that is, what it is for."""

from collections.abc import Iterator

from tactics.engine.margins import level_sideways_m
from tactics.flight.landings import CONFIDENCE, LandingScatter, Spread
from tactics.flight.levels import LEVELS
from tactics.reading.landings import Landings
from tactics.reading.wording import both, either
from tactics.report.layout import Section, counted, definitions, wrapped
from tactics.report.shot_words import number

ENOUGH = 20
_LEVELS = tuple(name for name in LEVELS if name != "tour")
_PERCENT = round(100 * CONFIDENCE)
_NARROW_M = 0.1
_NEARLY_M = 0.05


def scatter_sections(landings: Landings, found: LandingScatter) -> tuple[Section, ...]:
    """Return the scatter with n and intervals, what was set aside, and how to use it."""
    pairs = [
        ("balls", _balls_words(found)),
        ("sideways", _spread_words(found.sideways)),
        ("in depth", _spread_words(found.depth)),
        *_middle_pairs(landings, found),
    ]
    return (
        Section(title=f"Own scatter, from {landings.name}", lines=definitions(pairs)),
        Section(title="What it means", lines=tuple(_meaning(found))),
        Section(title="", lines=wrapped(_CAUTION)),
    )


_CAUTION = (
    "Two of three balls land within one scatter of their middle. It holds for the stroke, pace "
    "and strain of the balls in the file; scatter grows with pace and on the run."
)


def _balls_words(found: LandingScatter) -> str:
    said = f"{found.n} counted"
    if found.set_aside:
        stray = counted(found.set_aside, "ball")
        said += f"; {stray} set aside as shanks, far from all others"
    if found.n < ENOUGH:
        said += f"; this is few: with {ENOUGH} or more the ranges below get useful"
    return said


def _spread_words(spread: Spread) -> str:
    low, high = _fine(spread.low_m, spread), _fine(spread.high_m, spread)
    return f"{_fine(spread.sd_m, spread)} m ({_PERCENT} % interval {low} to {high} m)"


def _fine(value_m: float, spread: Spread) -> str:
    """Return metres as fine as the interval of the scatter allows."""
    return f"{value_m:.{2 if spread.high_m - spread.low_m < _NARROW_M else 1}f}"


def _middle_pairs(landings: Landings, found: LandingScatter) -> Iterator[tuple[str, str]]:
    """Yield where the balls land on average: against their targets, or on the court."""
    x, y = found.sideways.middle_m, found.depth.middle_m
    side = "right" if x > 0 else "left"
    if not landings.has_targets:
        yield "middle", f"{number(abs(x), 'm')} {side} of the middle, {number(y, 'm')} from the net"
        return
    long = "longer" if y > 0 else "shorter"
    off = [_off(found.sideways, f"{side} of their targets"), _off(found.depth, long)]
    sure = [words for words in off if words]
    if sure:
        yield "on average", f"{both(sure)}: the aim itself is off by that"
    else:
        yield "on average", "no difference from their targets that these balls could tell"


def _off(spread: Spread, where: str) -> str:
    """Return how far the aim is off, or nothing where it may as well be right."""
    low, high = sorted((abs(spread.middle_low_m), abs(spread.middle_high_m)))
    if spread.middle_low_m <= 0.0 <= spread.middle_high_m or abs(spread.middle_m) < _NEARLY_M:
        return ""
    return f"{abs(spread.middle_m):.1f} m {where} ({_PERCENT} % interval {low:.1f} to {high:.1f} m)"


def _level_words(sideways: Spread) -> str:
    """Return the levels whose usual scatter lies inside the interval, else the nearest."""
    usual = {name: level_sideways_m(LEVELS[name]) for name in _LEVELS}
    alike = [name for name in _LEVELS if sideways.low_m <= usual[name] <= sideways.high_m]
    if not alike:
        near = min(_LEVELS, key=lambda name: abs(usual[name] - sideways.sd_m))
        return (
            f"The level with the nearest sideways scatter is {near} "
            f"({usual[near]:.1f} m, an assumption)."
        )
    named = either([f"{name} ({usual[name]:.1f} m)" for name in alike])
    return f"That is the sideways scatter of a level taken as {named}: an assumption."


def _meaning(found: LandingScatter) -> Iterator[str]:
    one = found.sideways.sd_m
    for text in (
        f"One scatter is {_fine(one, found.sideways)} m: an aim of 1.4 scatter inside the line is "
        f"{number(1.4 * one, 'm')} for this player.",
        _level_words(found.sideways),
        "Use it: tactics shot, margin or advise with --scatter and the name of this file.",
    ):
        yield from wrapped(text, "  ")
