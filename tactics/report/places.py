"""Where the player stood in words: how far from the middle of what the other side could play."""

from collections.abc import Iterator

from tactics.report.layout import Section, bullet, counted, wrapped
from tactics.report.plain_json import Json
from tactics.report.rates import rate_words
from tactics.review.places import CLOSE_M, PlaceGroup, Places
from tactics.review.rates import SMALLEST_N, Standing

TITLE = "Where you stood, against the middle of their choices"
NOTE = (
    "The middle is an estimate of the flight model: for returns between the server's two widest "
    "serves at the level charted, on other balls half of the opponent's angle. Who knows what is "
    "coming, or leaves a side open on purpose, stands elsewhere."
)
_HALF = f"{CLOSE_M:g} m"


def place_section(found: Places) -> Section:
    """Return the places of a chart; empty where none was charted."""
    lines: list[str] = []
    for group in found.groups:
        lines += bullet(f"{group_name(group)}: {group_words(group)}", "  ")
    if lines or found.incomplete:
        lines += [line for text in notes(found) for line in wrapped(text, "  ")]
    return Section(title=TITLE, lines=tuple(lines))


def group_name(group: PlaceGroup) -> str:
    """Return `return, deuce side, left-handed server` or `after they struck from ...`."""
    facts = dict(group.split)
    if group.kind == "return":
        hand = facts["server's hand"]
        return f"return, {facts['serve side']} side, {hand}-handed server"
    return f"struck from {facts['struck from']}"


def group_words(group: PlaceGroup) -> str:
    """Return how far off the middle the player stood, with n; no number below ten balls."""
    if group.close.standing is Standing.NOT_ENOUGH:
        return f"{len(group.off_m)} charted, {Standing.NOT_ENOUGH}"
    low, high = group.middle_half_m
    return (
        f"{_off(group.median_m)} at the median (middle half {_off(low)} to {_off(high)}); within "
        f"{_HALF} on {group.close.count} of {group.close.n}: {rate_words(group.close)}"
    )


def _off(metres: float) -> str:
    if abs(metres) < 0.05:
        return "on the middle"
    return f"{abs(metres):.1f} m to the {'forehand' if metres > 0 else 'backhand'} side"


def notes(found: Places) -> Iterator[str]:
    """Yield how the places are to be read and what is not among them."""
    yield NOTE
    if found.incomplete:
        yield (
            f"{counted(found.incomplete, 'ball')} with a place but without the depth, both hands "
            "and serve side, or the place they struck from, left out."
        )


def places_as_json(found: Places) -> Json:
    """Return every group; median and middle half are null below ten balls."""
    return {
        "left_out": found.incomplete,
        "groups": [_group(each) for each in found.groups],
    }


def _group(each: PlaceGroup) -> Json:
    enough = each.close.n >= SMALLEST_N
    return {
        "kind": each.kind,
        "of": dict(each.split),
        "n": each.close.n,
        "median_off_m": round(each.median_m, 2) if enough else None,
        "middle_half_m": [round(end, 2) for end in each.middle_half_m] if enough else None,
        "within_half_a_metre": each.close.count,
        "standing": str(each.close.standing),
    }
