"""Every kind of page, written by the program from an ordinary and from a hostile chart."""

import csv
import io
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path

from tactics.cli.main import safely
from tests.golden import CASES
from tests.quiz_folder import keep_answers

CHART = CASES / "plans" / "three-lessons.csv"
BOOK = CASES / "rule_pages" / "club.yaml"
SHIPPED = CASES.parents[1] / "rules" / "singles-club.yaml"
HOSTILE = (
    "<script>document.title='hit'</script>",
    "<img src=https://example.org/x.png onerror=document.title='hit'>",
    "</style></svg>\"'><svg onload=document.title='hit'>",
    "{{ 7 * 7 }} {% raw %} &lt;b&gt; \u2028 \u2029 \u202e",
    "שלום עולם",
    "👩🏽‍🎾 é̂",
    "w" * 5000,
)
"""What a cell may hold; each has to arrive on the page as the text it is."""

WRITERS: Mapping[str, tuple[str, ...]] = {
    "audit": ("audit", "CHART", "--rules", "RULES", "--quiz-folder", "QUIZ", "--html"),
    "plan": ("plan", "CHART", "--rules", "RULES", "--quiz-folder", "QUIZ", "--html"),
    "player": ("page", "player", "CHART", "--rules", "RULES", "-o"),
    "parent": ("page", "parent", "CHART", "--rules", "RULES", "-o"),
    "hand-over": ("page", "hand-over", "CHART", "--rules", "RULES", "-o"),
    "rule book": ("rules", "BOOK", "-o"),
}
"""Page -> the command that writes it, its last word followed by the file."""

Write = Callable[[str, str], Path]


def page_writer(folder: Path) -> Write:
    """Return a writer of pages: (kind, `ordinary`, `short` or `hostile`) -> the file."""

    answers = folder / "answers"
    answers.mkdir()
    keep_answers(answers)

    @cache
    def write(kind: str, chart: str) -> Path:
        path = folder / f"{kind}-{chart}.html"
        inputs = {
            "CHART": _chart(folder, chart),
            "RULES": _rules(folder, SHIPPED, chart),
            "BOOK": _rules(folder, BOOK, chart),
            "QUIZ": answers,
        }
        arguments = [str(inputs.get(word, word)) for word in WRITERS[kind]]
        assert safely([*arguments, str(path)]) == 0
        return path

    return write


def _chart(folder: Path, kind: str) -> Path:
    if kind == "ordinary":
        return CHART
    path = folder / f"{kind}.csv"
    path.write_text(hostile_chart() if kind == "hostile" else short_chart(), encoding="utf-8")
    return path


def _rules(folder: Path, shipped: Path, kind: str) -> Path:
    if kind != "hostile":
        return shipped
    path = folder / shipped.name
    text = shipped.read_text(encoding="utf-8")
    path.write_text(text.replace("    title: ", f"    title: {HOSTILE[0]} "), encoding="utf-8")
    return path


def chart_with(folder: Path, **cells: str) -> Path:
    """Return the chart of three lessons with these cells in every row: note="Out of breath"."""
    rows = list(csv.DictReader(io.StringIO(CHART.read_text(encoding="utf-8"))))
    out = io.StringIO()
    writer = csv.DictWriter(out, list(rows[0]))
    writer.writeheader()
    same = {name.replace("_", " "): cell for name, cell in cells.items()}
    writer.writerows({**row, **same} for row in rows)
    path = folder / "chart.csv"
    path.write_text(out.getvalue(), encoding="utf-8")
    return path


def short_chart() -> str:
    """Return a chart of one ball, on which hardly anything can be said."""
    return "".join(CHART.read_text(encoding="utf-8").splitlines(keepends=True)[:2])


def hostile_chart() -> str:
    """Return a chart with such texts wherever a coach can type freely."""
    rows = list(csv.DictReader(io.StringIO(CHART.read_text(encoding="utf-8"))))
    out = io.StringIO()
    writer = csv.DictWriter(out, [*rows[0], HOSTILE[0]])
    writer.writeheader()
    for place, row in enumerate(rows):
        text = HOSTILE[place % len(HOSTILE)]
        free = {"player": HOSTILE[0], "lesson": text, "point": text, "note": f'Said "{text}".'}
        writer.writerow({**row, **free, HOSTILE[0]: text})
    return out.getvalue()
