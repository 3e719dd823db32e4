"""Players of the quiz: whose answers are meant, what they show, and how to take them away."""

import argparse
import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from tactics.cli import files
from tactics.cli.main import Exit
from tactics.cli.rule_files import load_rules
from tactics.cli.terminal import heading_for
from tactics.model.progress import Progress
from tactics.model.rule import RuleSet, Strength
from tactics.quiz.book import Book
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


def show_progress(player: Player, rules: Sequence[str], *, as_json: bool = False) -> int:
    """Print which rules hold until when, and what comes back."""
    from tactics.cli.quiz_rules import usable_advisor
    from tactics.report.layout import text_of
    from tactics.report.quiz_progress import progress_as_json, progress_sections

    if not player.is_known:
        return _nothing_kept(player)
    advisor = usable_advisor(load_rules(rules, with_drills=False))
    store = None if advisor is None else player.open()
    if advisor is None or store is None:
        return Exit.COULD_NOT_RUN
    with store:
        schedule = scheduler()
        book = store.book(schedule)
    if isinstance(book, Trouble):
        tell(book)
        return Exit.COULD_NOT_RUN
    found = _progress(book, advisor.rules, study_day(player.now), schedule)
    if as_json:
        print(json.dumps(progress_as_json(found, store.nickname), ensure_ascii=False, indent=2))
    else:
        sections = progress_sections(found, store.nickname)
        print(text_of(sections, heading_for(sys.stdout)), end="")
    return Exit.FINE


def _progress(book: Book, rules: RuleSet, day: date, schedule: Scheduler) -> Progress:
    """Return the progress on the rules that set a standard; options are never asked about."""
    from tactics.quiz.progress import progress
    from tactics.quiz.revision import rule_revision

    asked = [rule for rule in rules.rules if rule.strength is not Strength.MAY]
    return progress(
        book,
        revisions={rule.id: rule_revision(rules, rule) for rule in asked},
        titles={rule.id: rule.title for rule in rules.rules},
        day=day,
        scheduler=schedule,
    )


def export_answers(player: Player, target: str) -> int:
    """Write everything that is kept of a player: JSON, or CSV by the ending of the file."""
    from tactics.report.quiz_answers import answers_as_csv

    if not player.is_known:
        return _nothing_kept(player)
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
    """Erase everything that is kept of a player, after asking once."""
    if not player.is_known:
        return _nothing_kept(player)
    if is_asked and not _is_meant(player.nickname):
        print("Nothing was erased.")
        return Exit.FINE
    trouble = erase(player.folder, player.nickname)
    if trouble is not None:
        tell(trouble)
        return Exit.COULD_NOT_RUN
    print(f'Everything kept of "{visible(player.nickname)}" is erased.\n{_BEYOND}')
    return Exit.FINE


def _is_meant(nickname: str) -> bool:
    print(_ERASE.format(visible(nickname)), end="", flush=True)
    try:
        return input().strip().casefold() == "yes"
    except EOFError:
        print()
        return False


def _nothing_kept(player: Player) -> int:
    trouble = check_nickname(player.nickname)
    if trouble is not None:
        tell(trouble)
        return Exit.COULD_NOT_RUN
    print(f'Nothing is kept of "{player.nickname}" on this computer.')
    return Exit.FINE
