"""`tactics export`: everything about a player, gathered in one zip file."""

import argparse
import io
import json
import sys
import zipfile
from collections.abc import Sequence
from pathlib import Path

from tactics.cli import files
from tactics.cli.charts import CHART_FILES, add_columns, own_columns
from tactics.cli.main import Exit
from tactics.cli.player_files import PlayerFile, open_files, remarks
from tactics.model.names import slug
from tactics.model.standard import STANDARD
from tactics.report.csv_table import rows_as_csv
from tactics.report.layout import counted, wrapped

_START_OF_ZIP = (1980, 1, 1, 0, 0, 0)
_ABOUT = (
    'What this program found about "{player}" in the files named. The tables open in any '
    "spreadsheet program; a sign such as = at the start of a text has an apostrophe in front, so "
    "that nothing is calculated. Notes may name other people: read them before you hand this on, "
    "and keep it as you would a letter."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("player", metavar="PLAYER", help="the name as it stands in the charts")
    parser.add_argument("charts", nargs="*", metavar="FILE", help=CHART_FILES)
    add_columns(parser)
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="the zip file to write (default: PLAYER.zip)"
    )
    parser.add_argument("--folder", metavar="FOLDER", help="where quiz answers are kept")


def run(options: argparse.Namespace) -> int:
    """Write the zip file; return 1 where nothing was found, 2 where a file could not be read."""
    player = " ".join(options.player.split())
    own = own_columns(options, STANDARD)
    if own is None or not player:
        return Exit.COULD_NOT_RUN
    path = Path(options.output or f"{_file_name(player)}.zip")
    if path.exists():
        print(f'tactics: "{files.shown(path)}" is there already; name another file with -o',
              file=sys.stderr)  # fmt: skip
        return Exit.COULD_NOT_RUN
    opened = open_files([Path(name) for name in dict.fromkeys(options.charts)], player, own)
    answers = _answers(options)
    if opened is None or answers is None:
        return Exit.COULD_NOT_RUN
    quiz = f"quiz answers: {'yes' if answers else 'none kept on this computer'}"
    for file in opened:
        print("\n".join([_found(file), *remarks(file, player, "are left out")]))
    print(quiz)
    if not answers and not any(file.rows for file in opened):
        print(f'Nothing is here about "{player}", so nothing was written.')
        return Exit.PROBLEMS
    files.write_atomic(path, _zip(player, opened, answers, [*map(_found, opened), quiz]))
    print(f"wrote {files.shown(path)}")
    return Exit.FINE


def _found(file: PlayerFile) -> str:
    return f"{files.shown(file.path)}: {counted(file.rows, 'row')}"


def _answers(options: argparse.Namespace) -> dict[str, object] | None:
    """Return everything the quiz keeps of the player, {} where that is nothing; None: trouble."""
    from tactics.cli.quiz_players import chosen_player, tell
    from tactics.quiz.kept import Trouble

    player = chosen_player(options)
    if player is None or not player.is_known:
        return {}
    store = player.open()
    if store is None:
        return None
    with store:
        held = store.export()
    if isinstance(held, Trouble):
        tell(held)
        return None
    return dict(held)


def _zip(
    player: str, opened: Sequence[PlayerFile], answers: dict[str, object], lines: Sequence[str]
) -> bytes:
    members = {"read-me.txt": "\n".join([*wrapped(_ABOUT.format(player=player)), "", *lines, ""])}
    for file in opened:
        for each in file.found:
            if each.rows:
                cells = [each.table.header.cells, *(row.cells for row in each.rows)]
                members[_member(file.path, members)] = rows_as_csv(cells)
    if answers:
        members["quiz-answers.json"] = json.dumps(answers, ensure_ascii=False, indent=2) + "\n"
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in members.items():
            archive.writestr(zipfile.ZipInfo(name, _START_OF_ZIP), text.encode("utf-8"),
                             zipfile.ZIP_DEFLATED)  # fmt: skip
    return out.getvalue()


def _member(path: Path, taken: dict[str, str]) -> str:
    name, number = f"charts/{path.stem}.csv", 1
    while name in taken:
        number += 1
        name = f"charts/{path.stem}-{number}.csv"
    return name


def _file_name(player: str) -> str:
    kept = "".join(sign if sign.isalnum() else "-" for sign in slug(player)).strip("-")
    return kept[:60] or "player"
