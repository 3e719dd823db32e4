"""A margin in words, and its curve as a small plot."""

from collections.abc import Mapping
from types import MappingProxyType

from tactics.engine.aims import MarginFound, usable
from tactics.engine.position import Position
from tactics.flight.court import Area
from tactics.flight.margin import Margin
from tactics.flight.ranges import OutOfRange
from tactics.reading.wording import both
from tactics.report.layout import Section, bullet, definitions, wrapped
from tactics.report.shot_text import hundred, level_words
from tactics.report.shot_words import depth_words, kmh, number, off_middle, side_of

DRAWN: Mapping[str, str] = MappingProxyType(
    {"axis": "│", "inside": "●", "height": "▲", "both": "◆"}
)
ASCII: Mapping[str, str] = MappingProxyType(
    {"axis": "|", "inside": "o", "height": "^", "both": "*"}
)
_COLUMNS = 56
_OF_NO_MATTER = "opponent"


def margin_sections(
    found: MarginFound, position: Position, marks: Mapping[str, str] = DRAWN
) -> tuple[Section, ...]:
    """Return the stroke, the margin for the wanted share, and the curve of others."""
    said = [each for each in position.taken if not each.startswith(_OF_NO_MATTER)]
    taken = [line for each in (*said, *found.taken) for line in bullet(each, "  ")]
    return (
        Section(title="Stroke", lines=_stroke_lines(found, position)),
        Section(title="Taken as given", lines=tuple(taken)),
        *_margin_sections(found, position),
        Section(
            title="The same for other shares of balls in",
            lines=(*_plot(usable(found.curve), marks), *_out_of_reach(found)),
        ),
        Section(title="", lines=wrapped(_CAUTION)),
    )


_CAUTION = (
    "An estimate: the scatter of a level is an assumption, good to a third either way, and so is "
    "every share; net and wide errors are taken to be equally welcome. The player's own scatter "
    "(tactics scatter) is better."
)


def _stroke_lines(found: MarginFound, position: Position) -> tuple[str, ...]:
    contact, court = found.stroke.contact, position.venue.court
    where = f"{depth_words(contact.depth_m, court)}, {off_middle(contact.x_m)}"
    spin = found.stroke.topspin_rpm
    spun = f"{abs(spin):.0f} rpm of {'topspin' if spin >= 0 else 'backspin'}"
    text = (
        f"met {contact.height_m:g} m high, {where}; "
        f"{kmh(found.stroke.pace_ms)} ({number(found.pace_pct, '%')} of the own best), {spun}, "
        f"towards the {_line_words(found)}"
    )
    return wrapped(text, "  ")


def _line_words(found: MarginFound) -> str:
    """Return the line that the margin is measured from: `left sideline`, `centre line`."""
    stroke = found.stroke
    inner = {Area.FROM_RIGHT: 1, Area.FROM_LEFT: -1}.get(stroke.area)
    return "centre line" if stroke.line == inner else f"{side_of(stroke.line)} sideline"


def _margin_sections(found: MarginFound, position: Position) -> tuple[Section, ...]:
    margin = found.margin
    if margin is None:
        text = "no shot: no height over the net can be had from here at this pace"
        return (Section(title="Aim", lines=wrapped(text, "  ")),)
    if isinstance(margin, OutOfRange):
        return (Section(title="Aim", lines=wrapped(margin.sentence, "  ")),)
    title = f"Aim for {hundred(margin.wanted_share)} of 100 in"
    whose = wrapped(f"estimated {level_words(position)}", "  ")
    if not margin.is_enough:
        return (Section(title=title, lines=(*whose, *_not_enough(found, margin))),)
    return (Section(title=title, lines=(*whose, *_aim_lines(found, margin))),)


def _aim_lines(found: MarginFound, margin: Margin) -> tuple[str, ...]:
    behind = "baseline" if found.stroke.area is Area.COURT else "service line"
    pairs = [
        ("over the net", number(margin.height_over_net_m, "m")),
        ("inside the line", f"{number(margin.inside_line_m, 'm')}, "
         f"{margin.inside_line_scatter:.1f} times the sideways scatter of this stroke"),
        ("then it lands", f"{number(margin.short_of_line_m, 'm')} inside the {behind}"),
        ("of 100", f"{hundred(margin.share_in)} in: {hundred(margin.share_net)} in the net, "
         f"{hundred(margin.share_long)} long, {hundred(margin.share_wide)} wide"),
    ]  # fmt: skip
    return definitions(pairs)


def _not_enough(found: MarginFound, margin: Margin) -> tuple[str, ...]:
    text = (
        f"not at this pace: the best aim gives about {hundred(margin.share_in)} of 100 "
        f"({number(margin.height_over_net_m, 'm')} over the net, "
        f"{number(margin.inside_line_m, 'm')} inside the line)"
    )
    more = "no slower ball of this spin gives it either: more topspin or a higher contact might"
    if found.most_pace_ms is not None:
        more = f"up to {kmh(found.most_pace_ms)} it can be had"
    return (*wrapped(text, "  "), *wrapped(more, "  "))


def _out_of_reach(found: MarginFound) -> tuple[str, ...]:
    """Return which shares of the curve no aim gives at this pace, where some are given."""
    shares = [each.wanted_share for each in found.curve if isinstance(each, Margin)]
    given = [each.wanted_share for each in usable(found.curve)]
    lost = [f"{hundred(share)}" for share in shares if share not in given]
    if not given or not lost:
        return ()
    return wrapped(f"{both(lost)} of 100 cannot be had at this pace", "  ")


def _plot(curve: list[Margin], marks: Mapping[str, str]) -> tuple[str, ...]:
    """Return a line a share: metres to the right, one mark inside the line, one over the net."""
    if not curve:
        return ()
    most = max(max(each.inside_line_m, each.height_over_net_m) for each in curve)
    metre = _COLUMNS / (int(most) + 1)
    lines = [f"  in of 100 {_scale(int(most) + 1, metre)}"]
    for each in curve:
        row = [" "] * (_COLUMNS + 1)
        inside, height = (round(v * metre) for v in (each.inside_line_m, each.height_over_net_m))
        row[inside], row[height] = marks["inside"], marks["height"]
        if inside == height:
            row[inside] = marks["both"]
        lines.append(f"  {hundred(each.wanted_share):>9} {marks['axis']}{''.join(row)}".rstrip())
    legend = f"{marks['inside']} inside the line   {marks['height']} over the net"
    both = f"   {marks['both']} both" if any(marks["both"] in line for line in lines) else ""
    return (*lines, f"  {legend}{both}")


def _scale(metres: int, metre: float) -> str:
    row = [" "] * (_COLUMNS + 6)
    for value in range(metres + 1):
        label = f"{value} m"
        start = round(value * metre) + 1
        row[start : start + len(label)] = label
    return "".join(row).rstrip()
