"""An audit as a table for a spreadsheet program: one row a ball."""

import csv
import io
import re
from collections.abc import Iterable, Sequence

from tactics.model.audit import Audit, JudgedBall
from tactics.model.ball import Ball
from tactics.model.verdict import Finding, Verdict
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_writing import guard_text
from tactics.report.sentences import choice_words, situation_sentence
from tactics.report.words import say

_NUMBER = re.compile(r"[+-]?[0-9]+([.,][0-9]+)? ?[^\W\d_]*%?")
_LABELS = ("file", "line", "date", "player", "lesson", "point", "ball")
_JUDGED = (
    "situation", "choice", "grade", "possible grades", "kept", "deciding rule", "missing facts",
    "clashing rules", "as intended", "disturbed", "cause", "cause from", "coach's mark", "note",
)  # fmt: skip


def audit_as_csv(audit: Audit, words: Vocabulary) -> str:
    """Return the graded balls, then those not covered, with a column for each part's finding.

    No cell can be taken for a formula: text that looks like one gets an apostrophe in front.
    """
    parts = [trait.folded for trait in words.parts]
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    header = [*_LABELS, *_JUDGED, *(f"{part}: finding" for part in parts)]
    writer.writerow(header)
    for each in audit.judged:
        writer.writerow(_safe(_row(each, words, parts)))
    for ball in audit.not_covered:
        cells = [*_labels(ball), "", "", "not covered"]
        writer.writerow(_safe([*cells, *[""] * (len(header) - len(cells))]))
    return out.getvalue()


def rows_as_csv(rows: Iterable[Sequence[str]]) -> str:
    """Return cells as they stood in charts as CSV, with a mark for UTF-8 in front.

    A cell that a spreadsheet program would calculate gets an apostrophe, unless it has one.
    """
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(
        [f"'{cell}" if _is_formula(cell) else cell for cell in row] for row in rows
    )
    return f"\ufeff{out.getvalue()}"


def _is_formula(cell: str) -> bool:
    return cell.startswith(("=", "+", "-", "@")) and not _NUMBER.fullmatch(cell)


def _safe(cells: Sequence[str]) -> list[str]:
    """Return cells on one line each that no spreadsheet calculates."""
    return [guard_text(" ".join(cell.split())) for cell in cells]


def _row(each: JudgedBall, words: Vocabulary, parts: Sequence[str]) -> list[str]:
    found = {finding.part: finding for finding in each.verdict.findings}
    return [
        *_labels(each.ball),
        situation_sentence(each.ball.situation, words),
        choice_words(each.ball.choice, words),
        *_verdict(each.verdict),
        each.ball.outcome.as_intended,
        each.ball.outcome.disturbed,
        "" if each.cause is None else str(each.cause),
        "" if each.cause is None else "proposed" if each.cause_is_proposed else "coach",
        "" if each.ball.mark is None else str(each.ball.mark),
        each.ball.note,
        *(_finding(found[part], words) if part in found else "" for part in parts),
    ]


def _labels(ball: Ball) -> list[str]:
    return [
        ball.span.file, str(ball.span.line), ball.date, ball.player, ball.lesson, ball.point,
        ball.ball,
    ]  # fmt: skip


def _verdict(verdict: Verdict) -> list[str]:
    return [
        str(verdict.grade),
        " / ".join(sorted(verdict.possible)),
        str(verdict.kept),
        verdict.deciding,
        ", ".join(verdict.missing),
        ", ".join(verdict.clashing),
    ]


def _finding(finding: Finding, words: Vocabulary) -> str:
    charted = say(finding.charted, words.trait(finding.part))
    return f"{finding.grade}: {charted} ({', '.join(finding.rules)})"
