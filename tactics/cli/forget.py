"""`tactics forget`: takes the rows of a player out of charts, and says what it cannot reach."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from tactics.cli import files
from tactics.cli.charts import add_columns, own_columns
from tactics.cli.main import Exit
from tactics.cli.player_files import PlayerFile, numbered, open_files, remarks
from tactics.cli.terminal import read_line
from tactics.model.standard import STANDARD
from tactics.reading.player_rows import exact_text, without_rows
from tactics.report.layout import bullet, counted

_OUT_OF_REACH = (
    "copies and backups of these files, and versions that a synchronised folder keeps",
    "pages and plans that were written or printed, and quizzes handed out",
    "what was sent by mail or message",
    "notes in other people's rows, and files that were not named here",
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("player", metavar="PLAYER", help="the name as it stands in the charts")
    parser.add_argument(
        "charts", nargs="+", metavar="FILE", help="charts: csv; of xlsx and ods the rows are named"
    )
    add_columns(parser)
    parser.add_argument("--yes", action="store_true", help="do not ask before removing")
    parser.add_argument("--folder", metavar="FOLDER", help="where quiz answers are kept")


def run(options: argparse.Namespace) -> int:
    """Remove the rows after asking once; return 1 where something is left to do by hand."""
    player = " ".join(options.player.split())
    own = own_columns(options, STANDARD)
    if own is None or not player:
        return Exit.COULD_NOT_RUN
    opened = open_files([Path(name) for name in dict.fromkeys(options.charts)], player, own)
    texts = None if opened is None else _without(opened)
    if opened is None or texts is None:
        return Exit.COULD_NOT_RUN
    for file in opened:
        print("\n".join([_plan(file, player), *remarks(file, player, "stay")]))
    count = sum(file.rows for file in opened if not file.is_spreadsheet)
    if count and not options.yes and not _is_meant(count, player):
        print("Nothing was removed.")
        return Exit.FINE
    for path, data in texts:
        files.write_atomic(path, data)
        print(f"removed: {files.shown(path)}")
    _say_what_is_left(options)
    return Exit.FINE if all(map(_is_done, opened)) else Exit.PROBLEMS


def _is_done(file: PlayerFile) -> bool:
    """Say whether nothing of the file is left to do by hand."""
    is_by_hand = file.is_spreadsheet and file.rows > 0
    return not is_by_hand and not any(each.uncut for each in file.found)


def _without(opened: Sequence[PlayerFile]) -> list[tuple[Path, bytes]] | None:
    """Return the new bytes of each text that changes, or None with the reason said."""
    texts = []
    for file in opened:
        if file.is_spreadsheet or not file.rows:
            continue
        exact = exact_text(file.data)
        if exact is None:
            print(
                f'tactics: "{files.shown(file.path)}" is damaged (it is no whole UTF-16), so it '
                "cannot be written again without changing other rows; nothing was done",
                file=sys.stderr,
            )
            return None
        rows = [row for each in file.found for row in each.rows]
        # the file itself, where a link leads to it: else the rows would stay behind the link
        texts.append((file.path.resolve(), exact.encode(without_rows(exact.text, rows))))
    return texts


def _plan(file: PlayerFile, player: str) -> str:
    name = files.shown(file.path)
    if not file.rows:
        return f'{name}: no row of "{player}"'
    rows = "; ".join(
        f"{each.table.name.removeprefix(name)} {numbered(each.rows)}".strip()
        for each in file.found
        if each.rows
    )
    if not file.is_spreadsheet:
        return f'{name}: {counted(file.rows, "row")} of "{player}" to remove ({rows})'
    return "\n".join([
        f'{name}: {counted(file.rows, "row")} of "{player}", to be deleted by you ({rows}):',
        "  this program cannot write a spreadsheet again without losing its lists and looks",
    ])  # fmt: skip


def _is_meant(count: int, player: str) -> bool:
    print(f'Remove {counted(count, "row")} of "{player}" for good? Type yes: ', end="", flush=True)
    try:
        return read_line().strip().casefold() == "yes"
    except EOFError:
        print()
        return False


def _say_what_is_left(options: argparse.Namespace) -> None:
    from tactics.cli.quiz_players import chosen_player

    print("\nOut of reach of this program, and yours to see to:")
    for text in _OUT_OF_REACH:
        print("\n".join(bullet(text, "  ")))
    quiz = chosen_player(options)
    if quiz is not None and quiz.is_known:
        where = f' --folder "{options.folder}"' if options.folder else ""
        print(f'Quiz answers are kept as well; they go with: tactics quiz --player '
              f'"{quiz.nickname}"{where} --erase')  # fmt: skip
