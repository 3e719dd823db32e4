"""A small court in characters, to scale: a column a metre, a row two metres; player on the left."""

from collections.abc import Mapping

from tactics.report.court_picture import (
    BASELINE_M,
    DOUBLES_HALF_M,
    SERVICE_LINE_M,
    SINGLES_HALF_M,
    Picture,
    Spot,
)

_BEHIND_M, _BESIDE_M = 16, 6
_METRES_A_ROW = 2
_COLUMNS, _ROWS = 2 * _BEHIND_M + 1, 2 * _BESIDE_M // _METRES_A_ROW + 1


def small_court(picture: Picture, marks: Mapping[str, str]) -> tuple[str, ...]:
    """Return 7 lines of at most 33 columns; the marks are those of the large court."""
    rows = [[" "] * _COLUMNS for _ in range(_ROWS)]
    _draw_court(rows, picture.is_doubles, marks)
    if picture.player and picture.target:
        _draw_path(rows, picture.player, picture.target, marks["out"])
    for spot, mark in (
        (picture.bounce, "bounce"),
        (picture.target, "aim"),
        (picture.opponent, "opponent"),
        (picture.player, "player"),
    ):
        if spot is not None:
            _put(rows, spot.x_m, spot.y_m, marks[mark])
    return tuple("".join(row).rstrip() for row in rows)


def side_names(picture: Picture) -> tuple[str, str]:
    """Return which of the player's sides is at the top and which at the bottom."""
    names = ("backhand side", "forehand side")
    return names if picture.forehand_is_right else names[::-1]


def legend(marks: Mapping[str, str]) -> str:
    """Return what the marks stand for, in one line."""
    named = (
        ("player", "player"),
        ("opponent", "opponent"),
        ("bounce", "bounce of the ball coming in"),
        ("out", "way of the shot"),
        ("aim", "aim"),
        ("net", "net"),
    )
    return ", ".join(f"{marks[mark]} {name}" for mark, name in named)


def _draw_court(rows: list[list[str]], is_doubles: bool, marks: Mapping[str, str]) -> None:
    half = DOUBLES_HALF_M if is_doubles else SINGLES_HALF_M
    for side in (-half, half):
        for metres in range(-round(BASELINE_M), round(BASELINE_M) + 1):
            _put(rows, side, metres, marks["along"])
    for metres in range(-round(SERVICE_LINE_M), round(SERVICE_LINE_M) + 1):
        _put(rows, 0.0, metres, marks["along"])
    for y_m in (-BASELINE_M, -SERVICE_LINE_M, SERVICE_LINE_M, BASELINE_M):
        _draw_across(rows, y_m, half, marks["across"])
    _draw_across(rows, 0.0, half + 1, marks["net"])


def _draw_across(rows: list[list[str]], y_m: float, half_m: float, mark: str) -> None:
    for metres in range(-round(half_m), round(half_m) + 1, _METRES_A_ROW):
        _put(rows, metres, y_m, mark)


def _draw_path(rows: list[list[str]], start: Spot, end: Spot, mark: str) -> None:
    steps = max(1, round(abs(end.y_m - start.y_m)))
    for step in range(1, steps, 2):
        share = step / steps
        x_m = start.x_m + share * (end.x_m - start.x_m)
        _put(rows, x_m, start.y_m + share * (end.y_m - start.y_m), mark)


def _put(rows: list[list[str]], x_m: float, y_m: float, mark: str) -> None:
    """Put a character at a place; whoever is off the sheet stands at its edge."""
    row = min(max(round((x_m + _BESIDE_M) / _METRES_A_ROW), 0), _ROWS - 1)
    column = min(max(round(y_m + _BEHIND_M), 0), _COLUMNS - 1)
    rows[row][column] = mark
