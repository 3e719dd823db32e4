"""Players of the quiz: whose answers are meant, what they show, and how to take them away."""

import argparse
import sys
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from tactics.cli import files
from tactics.cli.main import Exit
from tactics.cli.terminal import read_line
from tactics.quiz.days import study_day
from tactics.quiz.kept import Trouble, check_nickname, player_file
from tactics.quiz.schedule import Scheduler
from tactics.quiz.store import Store, erase, open_store, players
from tactics.report.visible import visible

_NOBODY = "player"
_ERASE = 'Erase every answer kept of "{}" on this computer? Type yes: '
_BEYOND = (
    "What it cannot reach: files you exported, copies and backups, and results already handed on."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Player:
    """A player, and where the answers are kept. now: aware of its time zone."""

    folder: Path
    nickname: str
    now: datetime

    @property
    def is_known(self) -> bool:
        """Say whether anything is kept."""
        return player_file(self.folder, self.nickname).exists()

    def open(self) -> Store | None:
        """Return the store, or None with the trouble said."""
        found = open_store(self.folder, self.nickname, study_day(self.now))
        if isinstance(found, Trouble):
            tell(found)
            return None
        return found


def tell(trouble: Trouble) -> None:
    """Print what is wrong, and what may help."""
    print(f"tactics: {trouble.sentence}", file=sys.stderr)
    if trouble.hint:
        print(f"  = {trouble.hint}", file=sys.stderr)


def scheduler() -> Scheduler:
    """Return the schedule: fsrs where it is installed, else fixed boxes."""
    try:
        from tactics.quiz.memory_fsrs import FsrsScheduler
    except ImportError:
        from tactics.quiz.boxes import Boxes

        return Boxes()
    return FsrsScheduler()


def chosen_player(options: argparse.Namespace) -> Player | None:
    """Return the player named, else the only one there is; None where that is not clear."""
    folder = Path(options.folder) if options.folder else usual_folder()
    now = datetime.now().astimezone()
    if options.player is not None:
        return Player(folder=folder, nickname=options.player.strip(), now=now)
    known = players(folder)
    if len(known) > 1:
        names = ", ".join(map(visible, known))
        print(f"tactics: say who you are with --player: {names}", file=sys.stderr)
        return None
    return Player(folder=folder, nickname=known[0] if known else _NOBODY, now=now)


def usual_folder() -> Path:
    """Return where answers are kept unless another folder is named."""
    from platformdirs import user_data_path

    return user_data_path("tactics") / "players"


def export_answers(player: Player, target: str) -> int:
    """Write everything that is kept of a player: JSON, or CSV by the ending of the file."""
    import json

    from tactics.report.quiz_answers import answers_as_csv

    if not player.is_known:
        return nothing_kept(player)
    store = player.open()
    if store is None:
        return Exit.COULD_NOT_RUN
    with store:
        held = store.export()
    if isinstance(held, Trouble):
        tell(held)
        return Exit.COULD_NOT_RUN
    if target.casefold().endswith(".csv"):
        text = answers_as_csv(held)
    else:
        text = json.dumps(held, ensure_ascii=False, indent=2) + "\n"
    if target == "-":
        print(text, end="")
    else:
        files.write_atomic(Path(target), text.encode("utf-8"))
        print(f"wrote {files.shown(Path(target))}", file=sys.stderr)
    return Exit.FINE


def erase_answers(player: Player, *, is_asked: bool) -> int:
    """Erase everything that is kept of a player, copies of pages as well, after asking once."""
    from tactics.cli.quiz_copies import pages_for

    pages = () if check_nickname(player.nickname) else pages_for(player.folder, player.nickname)
    if not player.is_known and not pages:
        return nothing_kept(player)
    if is_asked and not _is_meant(player.nickname):
        print("Nothing was erased.")
        return Exit.FINE
    trouble = erase(player.folder, player.nickname)
    if trouble is not None:
        tell(trouble)
        return Exit.COULD_NOT_RUN
    for page in pages:
        page.unlink(missing_ok=True)
    print(f'Everything kept of "{visible(player.nickname)}" is erased.\n{_BEYOND}')
    return Exit.FINE


def _is_meant(nickname: str) -> bool:
    print(_ERASE.format(visible(nickname)), end="", flush=True)
    try:
        return read_line().strip().casefold() == "yes"
    except EOFError:
        print()
        return False


def nothing_kept(player: Player) -> int:
    """Return the exit code where nothing is kept of a player, with the reason said."""
    trouble = check_nickname(player.nickname)
    if trouble is not None:
        tell(trouble)
        return Exit.COULD_NOT_RUN
    print(f'Nothing is kept of "{player.nickname}" on this computer.')
    return Exit.FINE
