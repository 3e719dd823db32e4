"""A player's own scatter in words: how far the balls stray, how sure that is, what it is for."""

from collections.abc import Iterator

from tactics.engine.margins import level_sideways_m
from tactics.flight.landings import CONFIDENCE, LandingScatter, Spread
from tactics.flight.levels import LEVELS
from tactics.reading.landings import Landings
from tactics.report.layout import Section, counted, definitions, wrapped
from tactics.report.shot_words import number

ENOUGH = 20
_LEVELS = tuple(name for name in LEVELS if name != "tour")
_WELL_AIMED_M = 0.2


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
    percent = round(100 * CONFIDENCE)
    low, high = f"{spread.low_m:.1f}", number(spread.high_m, "m")
    return f"{spread.sd_m:.2f} m ({percent} % interval {low} to {high})"


def _middle_pairs(landings: Landings, found: LandingScatter) -> Iterator[tuple[str, str]]:
    """Yield where the balls land on average: against their targets, or on the court."""
    x, y = found.sideways.middle_m, found.depth.middle_m
    side = "right" if x > 0 else "left"
    if not landings.has_targets:
        yield "middle", f"{number(abs(x), 'm')} {side} of the middle, {number(y, 'm')} from the net"
        return
    if abs(x) < _WELL_AIMED_M and abs(y) < _WELL_AIMED_M:
        yield "on average", "on their targets, to 0.2 m"
        return
    long = "longer" if y > 0 else "shorter"
    off = f"{number(abs(x), 'm')} {side} of their targets, {number(abs(y), 'm')} {long}"
    yield "on average", f"{off}: the aim itself is off by that"


def _meaning(found: LandingScatter) -> Iterator[str]:
    one = found.sideways.sd_m
    near = min(_LEVELS, key=lambda name: abs(level_sideways_m(LEVELS[name]) - one))
    for text in (
        f"One scatter is {one:.2f} m: an aim of 1.4 scatter inside the line is "
        f"{number(1.4 * one, 'm')} for this player.",
        f"The level with the nearest sideways scatter is {near} "
        f"({number(level_sideways_m(LEVELS[near]), 'm')}, an assumption).",
        "Use it: tactics shot, margin or advise with --scatter and the name of this file.",
    ):
        yield from wrapped(text, "  ")
