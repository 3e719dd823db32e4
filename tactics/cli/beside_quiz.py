"""A player's quiz answers beside what was charted, for `audit` and `plan`."""

import argparse
from datetime import datetime
from pathlib import Path

from tactics.model.rule import RuleSet
from tactics.review.ledger import Ledger
from tactics.review.side_by_side import SideBySide, side_by_side


def add_quiz(parser: argparse.ArgumentParser) -> None:
    """Declare where quiz answers are looked for, and how to leave them out."""
    parser.add_argument(
        "--no-quiz", action="store_true", help="show nothing of the player's quiz answers"
    )
    parser.add_argument(
        "--quiz-folder", metavar="FOLDER", help="where quiz answers are kept (default: where "
        "tactics quiz keeps them)",
    )  # fmt: skip


def beside_quiz(ledger: Ledger, rules: RuleSet, options: argparse.Namespace) -> SideBySide | None:
    """Return quiz and court of the one player charted; None where nothing is kept of them."""
    if options.no_quiz or len(ledger.players) != 1:
        return None
    from tactics.cli.quiz_players import Player, tell, usual_folder  # only where it is wanted
    from tactics.quiz.kept import Trouble, check_nickname
    from tactics.quiz.practised import practised

    nickname = ledger.players[0]
    if isinstance(check_nickname(nickname), Trouble):
        return None
    folder = Path(options.quiz_folder) if options.quiz_folder else usual_folder()
    player = Player(folder=folder, nickname=nickname, now=datetime.now().astimezone())
    store = player.open() if player.is_known else None
    if store is None:
        return None
    with store:
        answers = store.answers()
    if isinstance(answers, Trouble):
        tell(answers)
        return None
    return side_by_side(ledger, rules, practised(answers))
