"""Everything kept of a player, as a table for a spreadsheet program: one row an answer."""

import csv
import io
from collections.abc import Mapping
from typing import Any

from tactics.reading.chart_writing import guard_text

_ASKED = ("asked", "facts", "sound answer", "picked answer")
_ANSWERED = (
    "quiz", "number", "day", "ask", "rule", "revision", "picked", "grade", "credit", "sure",
    "confused_with", "took_ms", "timed_out", "is_twin", "disagrees",
)  # fmt: skip


def answers_as_csv(held: Mapping[str, Any]) -> str:
    """Return the answers of an export; no cell can be taken for a formula.

    The JSON of the same export also holds each whole question, the quizzes and the memory.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(["player", *_ANSWERED, *_ASKED])
    nickname = held["player"][0]["nickname"] if held["player"] else ""
    for row in held["answer"]:
        cells = [nickname, *(row[name] for name in _ANSWERED), *_asked(row)]
        writer.writerow([_safe(cell) for cell in cells])
    return out.getvalue()


def _asked(row: Mapping[str, Any]) -> list[str]:
    scenario = row["scenario"]
    texts = [option["text"] for option in scenario["options"]]
    picked = "" if row["picked"] is None else texts[row["picked"]]
    return [scenario["prompt"], scenario["facts"], texts[scenario["sound"]], picked]


def _safe(cell: object) -> object:
    if cell is None:
        return ""
    return guard_text(" ".join(cell.split())) if isinstance(cell, str) else cell
