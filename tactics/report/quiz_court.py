"""The court of a question in characters, to scale for the room there is: one row is two columns.

The player is on the left and looks to the right, so their right-hand side is below.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from tactics.report.court_picture import (
    BASELINE_M,
    DOUBLES_HALF_M,
    SERVICE_LINE_M,
    SINGLES_HALF_M,
    Picture,
    Spot,
)
from tactics.report.quiz_sheet import Ink, Row, Rows, Sheet

GLYPHS: Mapping[str, str] = MappingProxyType(
    {
        "along": "─", "across": "│", "net": "║", "ground": "─",
        "player": "●", "opponent": "○", "bounce": "◇", "aim": "◎", "cursor": "╋",
        "in": "•", "comes": "◄", "goes": "►", "out": "∘", "ball": "o", "body": "│",
        "tape": "·", "chosen": "►", "rule": "─", "joints": "┌┐└┘├┤┬┴┼",
    }
)  # fmt: skip
ASCII: Mapping[str, str] = MappingProxyType(
    {
        "along": "-", "across": "|", "net": "#", "ground": "=",
        "player": "@", "opponent": "O", "bounce": "v", "aim": "X", "cursor": "+",
        "in": ".", "comes": "<", "goes": ">", "out": "*", "ball": "o", "body": "|",
        "tape": ".", "chosen": ">", "rule": "-", "joints": "",
    }
)  # fmt: skip

Cell = tuple[int, int]
_JOINTS = (
    (False, True, False, True), (True, False, False, True),
    (False, True, True, False), (True, False, True, False),
    (False, True, True, True), (True, False, True, True),
    (True, True, False, True), (True, True, True, False), (True, True, True, True),
)  # fmt: skip
"""Arms to the left, right, up and down, in the order of the characters for them."""
_BEHIND_M, _BEYOND_M, _BESIDE_M = 15.6, 13.6, 5.9
_SCALES = (6, 5, 4, 3)
_SHORT = 12
"""A way of fewer cells has no arrowhead: the dots alone have to do."""
_YOU, _THEY = "you", "opp."


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How metres become characters. half: rows from the middle of the court to its sideline.

    A whole number of rows keeps the court in proportion: within a twentieth at every scale.
    """

    half: int

    @property
    def columns_per_m(self) -> float:
        """Return columns for a metre along the court; across it are half as many rows."""
        return 2 * self.half / SINGLES_HALF_M

    @property
    def columns(self) -> int:
        """Return how wide the sheet is."""
        return round((_BEHIND_M + _BEYOND_M) * self.columns_per_m) + 1

    @property
    def rows(self) -> int:
        """Return how high the sheet is: an odd number, so that the middle has a row."""
        return 2 * round(_BESIDE_M * self.columns_per_m / 2) + 1

    def column(self, y_m: float) -> int:
        """Return the column of a distance along the court; who is further out is at the edge."""
        found = round((y_m + _BEHIND_M) * self.columns_per_m)
        return min(max(found, 0), self.columns - 1)

    def row(self, x_m: float) -> int:
        """Return the row of a distance to the right."""
        found = self.rows // 2 + round(x_m * self.columns_per_m / 2)
        return min(max(found, 0), self.rows - 1)


def scale_for(columns: int, rows: int) -> Scale:
    """Return the largest scale at which the court fits, else the smallest there is."""
    scales = [Scale(half=half) for half in _SCALES]
    fitting = (each for each in scales if each.columns <= columns and each.rows <= rows)
    return next(fitting, scales[-1])


def court_rows(
    picture: Picture,
    scale: Scale,
    marks: Mapping[str, str],
    cursor: Spot | None = None,
    *,
    is_serve: bool = False,
) -> Rows:
    """Return the court with everybody on it. cursor: a target that is being moved.

    The box that a serve has to find is dotted.
    """
    drawing = _Drawing(Sheet(scale.columns, scale.rows), scale, marks)
    if is_serve and picture.player is not None:
        drawing.box(-1 if picture.player.x_m > 0 else 1)
    drawing.lines(picture.is_doubles)
    drawing.ways(picture, cursor)
    drawing.people(picture, cursor)
    return drawing.sheet.drawn()


def legend(picture: Picture, marks: Mapping[str, str], cursor: Spot | None = None) -> Row:
    """Return what the marks of a picture mean that carry no name of their own."""
    shown = (
        (picture.source, f"{marks['in']}{marks['comes']}{marks['in']}", Ink.WAY_IN, "ball coming"),
        (picture.bounce, marks["bounce"], Ink.WAY_IN, "bounce"),
        (picture.target, marks["aim"], Ink.AIM, "target"),
        (cursor, marks["cursor"], Ink.AIM, "your aim"),
    )
    found: list[tuple[Ink, str]] = []
    for there, mark, ink, name in shown:
        if there is not None:
            found += [(ink, mark), (Ink.QUIET, f" {name}   ")]
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Drawing:
    """A sheet with a scale and a set of marks."""

    sheet: Sheet
    scale: Scale
    marks: Mapping[str, str]

    def put(self, spot: Spot, mark: str, ink: Ink) -> None:
        column, row = self._cell(spot)
        self.sheet.put(column, row, self.marks[mark], ink)

    def lines(self, is_doubles: bool) -> None:
        """Draw lines and net."""
        half = DOUBLES_HALF_M if is_doubles else SINGLES_HALF_M
        across = {
            cell
            for y_m, reach_m in ((BASELINE_M, half), (SERVICE_LINE_M, SINGLES_HALF_M))
            for sign in (-1, 1)
            for cell in self._across(sign * y_m, reach_m)
        }
        along = {
            cell
            for x_m in (half, -half, SINGLES_HALF_M, -SINGLES_HALF_M)
            for cell in self._along(x_m, BASELINE_M)
        } | set(self._along(0.0, SERVICE_LINE_M))
        for column, row in along | across:
            mark = self._mark((column, row), along, across)
            self.sheet.put(column, row, mark, Ink.LINE)
        for column, row in self._across(0.0, half + 1.0):
            self.sheet.put(column, row, self.marks["net"], Ink.NET)

    def box(self, side: int) -> None:
        """Dot the opponent's service box on the left (-1) or on the right (1)."""
        first, last = sorted((self.scale.row(0.0), self.scale.row(side * SINGLES_HALF_M)))
        for row in range(first + 1, last):
            for column in range(self.scale.column(0.0) + 2, self.scale.column(SERVICE_LINE_M), 2):
                self.sheet.put(column, row, self.marks["tape"], Ink.QUIET)

    def _along(self, x_m: float, reach_m: float) -> list[Cell]:
        row = self.scale.row(x_m)
        start, end = self.scale.column(-reach_m), self.scale.column(reach_m)
        return [(column, row) for column in range(start, end + 1)]

    def _across(self, y_m: float, half_m: float) -> list[Cell]:
        column = self.scale.column(y_m)
        start, end = self.scale.row(-half_m), self.scale.row(half_m)
        return [(column, row) for row in range(start, end + 1)]

    def _mark(self, cell: Cell, along: set[Cell], across: set[Cell]) -> str:
        """Return the character of a line, or of the place where lines meet."""
        if cell not in across or cell not in along or not self.marks["joints"]:
            return self.marks["along" if cell in along else "across"]
        column, row = cell
        arms = (
            (column - 1, row) in along,
            (column + 1, row) in along,
            (column, row - 1) in across,
            (column, row + 1) in across,
        )
        return (
            self.marks["joints"][_JOINTS.index(arms)] if arms in _JOINTS else self.marks["across"]
        )

    def ways(self, picture: Picture, cursor: Spot | None) -> None:
        """Draw the ball's way in, and the way to the target or to where it is being moved."""
        end = picture.target or cursor
        if picture.player and end:
            self._way(picture.player, end, ("out", "goes"), Ink.AIM)
        if picture.source and picture.player:
            self._way(picture.source, picture.player, ("in", "comes"), Ink.WAY_IN)

    def _way(self, start: Spot, end: Spot, marks: tuple[str, str], ink: Ink) -> None:
        """Draw every second cell of a straight line, with arrowheads on a third of it."""
        dot, head = marks
        steps = self._steps(start, end)
        heads = {2 * round(steps * share / 2) for share in (0.3, 0.65)} if steps > _SHORT else ()
        for step in range(2, steps, 2):
            share = step / steps
            spot = Spot(
                x_m=start.x_m + share * (end.x_m - start.x_m),
                y_m=start.y_m + share * (end.y_m - start.y_m),
            )
            self.put(spot, head if step in heads else dot, ink)

    def _steps(self, start: Spot, end: Spot) -> int:
        """Return how many cells a line passes, along the court or across it."""
        along = abs(self.scale.column(end.y_m) - self.scale.column(start.y_m))
        across = abs(self.scale.row(end.x_m) - self.scale.row(start.x_m))
        return max(1, along, across)

    def people(self, picture: Picture, cursor: Spot | None) -> None:
        """Draw who stands where, over everything else, and then their names."""
        if cursor is not None:
            self.put(cursor, "cursor", Ink.FOCUS)
        if picture.bounce is not None:
            column, row = self._bounce(picture.bounce, picture.player)
            self.sheet.put(column, row, self.marks["bounce"], Ink.WAY_IN)
        for spot, mark, ink in (
            (picture.target, "aim", Ink.AIM),
            (picture.opponent, "opponent", Ink.OPPONENT),
            (picture.player, "player", Ink.PLAYER),
        ):
            if spot is not None:
                self.put(spot, mark, ink)
        for spot, name, ink in (
            (picture.player, _YOU, Ink.PLAYER),
            (picture.opponent, _THEY, Ink.OPPONENT),
        ):
            if spot is not None:
                self._name(spot, name, ink)

    def _bounce(self, spot: Spot, player: Spot | None) -> Cell:
        """Return the cell of a bounce: in front of the player where both would have one cell."""
        column, row = self._cell(spot)
        is_hidden = player is not None and self._cell(player) == (column, row)
        return (column + 1, row) if is_hidden else (column, row)

    def _cell(self, spot: Spot) -> Cell:
        return self.scale.column(spot.y_m), self.scale.row(spot.x_m)

    def _name(self, spot: Spot, name: str, ink: Ink) -> None:
        """Write a name beside a mark: on empty ground, else over dots, else over lines."""
        column, row = self._cell(spot)
        beside = [(column + 2, row), (column - len(name) - 1, row)]
        if spot.y_m < 0:
            beside.reverse()
        shifts = (-len(name) // 2, 1 - len(name), 0, 1, -len(name))
        around = [(column + shift, row + up) for up in (1, -1) for shift in shifts]
        dots = frozenset(self.marks[each] for each in ("in", "comes", "out", "goes"))
        lines = dots | {self.marks["along"], self.marks["across"], *self.marks["joints"]}
        for over in (frozenset[str](), dots, lines):
            for start, line in (*beside, *around):
                if self.sheet.has_room(start, line, len(name), over):
                    self.sheet.write(start, line, name, ink)
                    return
