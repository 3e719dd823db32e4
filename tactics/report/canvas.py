"""A sheet of characters with a scale in each direction, for drawings in the terminal."""

from dataclasses import dataclass, field


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
        column = round((across - self.left) / (self.right - self.left) * (self.columns - 1))
        row = round((up - self.top) / (self.bottom - self.top) * (self.height - 1))
        row, column = min(max(row, 0), self.height - 1), min(max(column, 0), self.columns - 1)
        self.rows[row][column] = mark

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
