"""A sheet of characters with a scale in each direction, for drawings in the terminal."""

from collections.abc import Collection
from dataclasses import dataclass, field

_NEARBY = ((0, 0), (0, 2), (0, -2), (1, 0), (-1, 0), (1, 2), (-1, 2), (1, -2), (-1, -2), (0, 4))


@dataclass(slots=True, kw_only=True)
class Canvas:
    """Characters in rows; `left`, `right`, `top` and `bottom` are the values at its edges."""

    columns: int
    height: int
    left: float
    right: float
    top: float
    bottom: float
    rows: list[list[str]] = field(init=False)

    def __post_init__(self) -> None:
        self.rows = [[" "] * self.columns for _ in range(self.height)]

    def put(self, across: float, up: float, mark: str) -> None:
        """Put a character at a place; what is off the sheet stands at its edge."""
        row, column = self._cell(across, up)
        self.rows[row][column] = mark

    def put_beside(self, across: float, up: float, mark: str, others: Collection[str]) -> None:
        """Put a character at a place, or as near as can be where one of `others` stands already."""
        row, column = self._cell(across, up)
        for down, right in _NEARBY:
            there = (row + down, column + right)
            inside = 0 <= there[0] < self.height and 0 <= there[1] < self.columns
            if inside and self.rows[there[0]][there[1]] not in others:
                row, column = there
                break
        self.rows[row][column] = mark

    def _cell(self, across: float, up: float) -> tuple[int, int]:
        column = round((across - self.left) / (self.right - self.left) * (self.columns - 1))
        row = round((up - self.top) / (self.bottom - self.top) * (self.height - 1))
        return min(max(row, 0), self.height - 1), min(max(column, 0), self.columns - 1)

    def line(
        self, start: tuple[float, float], end: tuple[float, float], mark: str, gap: int = 1
    ) -> None:
        """Draw a straight line; `gap` columns or rows from one character to the next."""
        steps = max(self._steps(start, end), 1)
        for step in range(0, steps + 1, gap):
            share = step / steps
            self.put(
                start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]), mark
            )

    def _steps(self, start: tuple[float, float], end: tuple[float, float]) -> int:
        across = abs(end[0] - start[0]) / abs(self.right - self.left) * (self.columns - 1)
        up = abs(end[1] - start[1]) / abs(self.bottom - self.top) * (self.height - 1)
        return round(max(across, up))

    def lines(self, indent: str = "  ") -> tuple[str, ...]:
        """Return the sheet without empty rows above and below."""
        body = [f"{indent}{''.join(row)}".rstrip() for row in self.rows]
        filled = [place for place, row in enumerate(body) if row.strip()]
        return tuple(body[filled[0] : filled[-1] + 1]) if filled else ()
