"""A court from above and balls from the side, in characters and to scale."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from tactics.flight.court import Court
from tactics.report.canvas import Canvas
from tactics.report.court_scene import CourtScene, Flight, Mark, What
from tactics.report.court_text import ASCII as COURT_ASCII
from tactics.report.court_text import DRAWN as COURT_DRAWN
from tactics.report.layout import wrapped

DRAWN: Mapping[str, str] = MappingProxyType(
    {**COURT_DRAWN, What.PLAYER: "●", What.OPPONENT: "○", What.HOME: "□", What.REPLY: "+",
     What.SERVER: "○", What.STAND: "●", What.SERVE: "◇"}
)  # fmt: skip
ASCII: Mapping[str, str] = MappingProxyType(
    {**COURT_ASCII, What.PLAYER: "@", What.OPPONENT: "O", What.HOME: "H", What.REPLY: "+",
     What.SERVER: "O", What.STAND: "@", What.SERVE: "v"}
)  # fmt: skip

_COLUMNS = 69
_NUMBERS = frozenset("0123456789")
_BEHIND_SHARE, _BESIDE_M = 17.0 / 11.885, 3.0
_LEAST_ROWS, _MOST_ROWS = 6, 14
_ROW_M = 0.5


def court_lines(scene: CourtScene, marks: Mapping[str, str] = DRAWN) -> tuple[str, ...]:
    """Return the court from above: the player on the left, their right-hand side at the bottom."""
    court = scene.court
    reach = _BEHIND_SHARE * court.half_length_m
    aside = court.half_width_m + _BESIDE_M * court.half_length_m / 11.885
    rows = round((_COLUMNS - 1) / (2 * reach) / 2 * 2 * aside) + 1
    sheet = Canvas(
        columns=_COLUMNS, height=rows, left=-reach, right=reach, top=-aside, bottom=aside
    )
    _draw_court(sheet, court, marks)
    for way in scene.ways:
        sheet.line((way.start[1], way.start[0]), (way.end[1], way.end[0]), marks["out"], gap=2)
    for mark in scene.marks:
        if not mark.text:
            sheet.put(mark.y_m, mark.x_m, marks[mark.what])
    for mark in sorted((each for each in scene.marks if each.text), key=lambda each: each.text):
        sheet.put_beside(mark.y_m, mark.x_m, mark.text[-1:], _NUMBERS)
    top, bottom = _side_names(scene)
    return (top, *sheet.lines(), bottom, *_legend(scene.marks, marks))


def _draw_court(sheet: Canvas, court: Court, marks: Mapping[str, str]) -> None:
    far, half, inner = court.half_length_m, court.half_width_m, court.service_half_width_m
    for x in {half, -half, inner, -inner}:
        sheet.line((-far, x), (far, x), marks["along"])
    line = court.service_line_m
    if line is not None:
        sheet.line((-line, 0.0), (line, 0.0), marks["along"])
        for y in (-line, line):
            sheet.line((y, -inner), (y, inner), marks["across"])
    for y in (-far, far):
        sheet.line((y, -half), (y, half), marks["across"])
    sheet.line((0.0, -court.support_x_m), (0.0, court.support_x_m), marks["net"])


def _side_names(scene: CourtScene) -> tuple[str, str]:
    own = ("backhand side", "forehand side")
    theirs = ("their forehand side", "their backhand side")
    top, bottom = own if scene.forehand_is_right else own[::-1]
    their_top, their_bottom = theirs if scene.their_forehand_is_right else theirs[::-1]
    return _ends(top, their_top), _ends(bottom, their_bottom)


def _ends(left: str, right: str) -> str:
    return f"  {left}{right:>{_COLUMNS - len(left)}}"


def _legend(drawn: Sequence[Mark], marks: Mapping[str, str]) -> tuple[str, ...]:
    shown = {mark.what for mark in drawn}
    named = [
        f"{'1' if what is What.LANDING else marks[what]} {what}" for what in What if what in shown
    ]
    return wrapped("   ".join(named), "  ")


def side_lines(
    flights: Sequence[Flight], court: Court, marks: Mapping[str, str] = DRAWN
) -> tuple[str, ...]:
    """Return the balls from the side with the net, each drawn with its own number."""
    if not flights:
        return ()
    places = [place for flight in flights for place in flight.places]
    highest = max(height for _, height in places)
    row_m = _ROW_M
    while highest / row_m > _MOST_ROWS:
        row_m += _ROW_M
    rows = max(_LEAST_ROWS, round(highest / row_m) + 1)
    start = min(min(along for along, _ in places), -court.half_length_m) - 1.0
    end = max(max(along for along, _ in places), court.half_length_m) + 1.0
    sheet = Canvas(
        columns=_COLUMNS - 5, height=rows, left=start, right=end, top=(rows - 1) * row_m, bottom=0.0
    )
    for column in range(sheet.columns):
        sheet.rows[-1][column] = marks["along"]
    for line in (-court.half_length_m, court.half_length_m):
        sheet.put(line, 0.0, marks["across"])
    sheet.line((0.0, 0.0), (0.0, court.strap_height_m), marks["net"])
    for flight in reversed(flights):
        for along, height in flight.places:
            sheet.put(along, max(height, 0.0), str(flight.number)[-1])
    return (*_with_heights(sheet, row_m), *wrapped(
        f"{marks['net']} net, {marks['across']} baselines; heights in metres, drawn larger than "
        "lengths", "  "))  # fmt: skip


def _with_heights(sheet: Canvas, row_m: float) -> tuple[str, ...]:
    last = len(sheet.rows) - 1
    lines = []
    for place, row in enumerate(sheet.rows):
        height = (last - place) * row_m
        label = f"{height:.0f}" if height == int(height) else ""
        lines.append(f"  {label:>2} {''.join(row)}".rstrip())
    return tuple(lines)
