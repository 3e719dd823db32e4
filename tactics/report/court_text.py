"""The court in characters, to scale: 2 columns and 1 row a metre, the player on the left.

The player looks to the right along the line, so their right-hand side is at the bottom.
"""

from collections.abc import Mapping
from types import MappingProxyType

from tactics.report.court_picture import (
    BASELINE_M,
    DOUBLES_HALF_M,
    SERVICE_LINE_M,
    SINGLES_HALF_M,
    Picture,
    Spot,
)
from tactics.report.layout import wrapped

DRAWN: Mapping[str, str] = MappingProxyType(
    {
        "along": "─", "across": "│", "net": "║",
        "player": "●", "opponent": "○", "bounce": "◇", "aim": "◎", "in": "·", "out": "•",
    }
)  # fmt: skip
ASCII: Mapping[str, str] = MappingProxyType(
    {
        "along": "-", "across": "|", "net": "#",
        "player": "@", "opponent": "O", "bounce": "v", "aim": "X", "in": ".", "out": "*",
    }
)  # fmt: skip

_NOBODY = "(No court is drawn: court depth and court width say where the player is.)"
_BEHIND_M, _BESIDE_M = 17.0, 7.0
_COLUMNS, _ROWS = round(4 * _BEHIND_M) + 1, round(2 * _BESIDE_M) + 1


def court_lines(picture: Picture, marks: Mapping[str, str] = DRAWN) -> tuple[str, ...]:
    """Return the picture as lines of at most 71 columns, with names of sides and a legend."""
    if picture.player is None and picture.opponent is None:
        return wrapped(_NOBODY, "  ")
    canvas = _Canvas(marks)
    canvas.court(picture.is_doubles)
    canvas.balls(picture)
    body = [f"  {''.join(row)}".rstrip() for row in canvas.rows]
    top, bottom = _side_names(picture)
    return (top, *_trimmed(body), bottom, *_legend(picture, marks))


class _Canvas:
    """A sheet of characters."""

    def __init__(self, marks: Mapping[str, str]) -> None:
        self.marks = marks
        self.rows = [[" "] * _COLUMNS for _ in range(_ROWS)]

    def put(self, x_m: float, y_m: float, mark: str) -> None:
        """Put a character at a place; whoever is off the sheet stands at its edge."""
        row = min(max(round(x_m + _BESIDE_M), 0), _ROWS - 1)
        column = min(max(round(2 * (y_m + _BEHIND_M)), 0), _COLUMNS - 1)
        self.rows[row][column] = mark

    def court(self, is_doubles: bool) -> None:
        """Draw lines and net."""
        half = DOUBLES_HALF_M if is_doubles else SINGLES_HALF_M
        for x_m in {half, -half, SINGLES_HALF_M, -SINGLES_HALF_M}:
            self._along(x_m, BASELINE_M)
        self._along(0.0, SERVICE_LINE_M)
        for y_m in (-BASELINE_M, BASELINE_M):
            self._across(y_m, half, "across")
        for y_m in (-SERVICE_LINE_M, SERVICE_LINE_M):
            self._across(y_m, SINGLES_HALF_M, "across")
        self._across(0.0, half + 1, "net")

    def balls(self, picture: Picture) -> None:
        """Draw the way in, the shot that is wanted, and who stands where."""
        if picture.source and picture.player:
            start = 0.0 if picture.opponent is None else picture.source.y_m
            self._path(picture.source, picture.player, self.marks["in"], start)
        if picture.player and picture.target:
            self._path(picture.player, picture.target, self.marks["out"], picture.target.y_m)
        for spot, mark in (
            (picture.bounce, "bounce"),
            (picture.target, "aim"),
            (picture.opponent, "opponent"),
            (picture.player, "player"),
        ):
            if spot is not None:
                self.put(spot.x_m, spot.y_m, self.marks[mark])

    def _path(self, start: Spot, end: Spot, mark: str, up_to_y_m: float) -> None:
        """Draw every second column of a straight line, as far from the player as `up_to_y_m`."""
        steps = max(1, round(2 * abs(end.y_m - start.y_m)))
        for step in range(0, steps + 1, 2):
            share = step / steps
            y_m = start.y_m + share * (end.y_m - start.y_m)
            if y_m <= up_to_y_m:
                self.put(start.x_m + share * (end.x_m - start.x_m), y_m, mark)

    def _along(self, x_m: float, reach_m: float) -> None:
        for half_metres in range(round(-2 * reach_m), round(2 * reach_m) + 1):
            self.put(x_m, half_metres / 2, self.marks["along"])

    def _across(self, y_m: float, half_m: float, mark: str) -> None:
        for metres in range(round(-half_m), round(half_m) + 1):
            self.put(metres, y_m, self.marks[mark])


def _trimmed(rows: list[str]) -> list[str]:
    """Return the rows without the empty ones above and below."""
    filled = [place for place, row in enumerate(rows) if row.strip()]
    return rows[filled[0] : filled[-1] + 1]


def _side_names(picture: Picture) -> tuple[str, str]:
    """Return the line above and the line below: the player's side names, then the opponent's."""
    own = ("backhand side", "forehand side")
    theirs = ("their forehand side", "their backhand side")
    top, bottom = own if picture.forehand_is_right else own[::-1]
    their_top, their_bottom = theirs if picture.their_forehand_is_right else theirs[::-1]
    return _ends(top, their_top), _ends(bottom, their_bottom)


def _ends(left: str, right: str) -> str:
    return f"  {left}{right:>{_COLUMNS - len(left)}}"


def _legend(picture: Picture, marks: Mapping[str, str]) -> tuple[str, ...]:
    """Return the legend of what was drawn."""
    shown = (
        (picture.player, "player", "player"),
        (picture.opponent, "opponent", "opponent"),
        (picture.player and picture.source, "in", "ball coming in"),
        (picture.bounce, "bounce", "bounce"),
        (picture.target, "aim", "aim"),
    )
    names = "   ".join(f"{marks[mark]} {text}" for there, mark, text in shown if there is not None)
    notes = wrapped(f"({'; '.join(picture.notes)})", "  ") if picture.notes else ()
    return (*((f"  {names}",) if names else ()), *notes)
