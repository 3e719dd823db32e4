"""The homework of a plan, written as a quiz file."""

import sys
from collections.abc import Sequence
from os.path import relpath
from pathlib import Path

from tactics.cli import files
from tactics.cli.season_files import PlayerSeason
from tactics.model.known import word
from tactics.model.plan import Homework
from tactics.reading.quiz_writing import quiz_text
from tactics.review.ledger import Ledger

_QUESTIONS = 10
_NAME = "Homework"


def write_homework(
    homework: Homework, found: PlayerSeason, rules: Sequence[str], path: Path
) -> None:
    """Write the quiz file, or say that there is no homework this time."""
    if not homework.rules:
        print("tactics: there is no homework this time, so no quiz was written", file=sys.stderr)
        return
    text = quiz_text(
        _NAME,
        [_from_there(name, path) for name in rules],
        [(each, found.advisor.rules.rule(each).title) for each in homework.rules],
        _QUESTIONS,
        "left" if _is_left_handed(found.ledger) else "right",
    )
    files.write_atomic(path, text.encode("utf-8"))
    print(f"wrote {files.shown(path)}", file=sys.stderr)


def _from_there(name: str, path: Path) -> str:
    """Return a rule file as it is reached from the folder of the quiz file; names stay names."""
    here = Path(name)
    if not here.is_file():
        return name
    return Path(relpath(here.resolve(), path.resolve().parent)).as_posix()


def _is_left_handed(ledger: Ledger) -> bool:
    hands = [ball.situation.get("own hand") for ball in ledger.balls]
    return hands.count(word("left")) > hands.count(word("right"))
