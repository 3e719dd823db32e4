"""`tactics quiz --progress`: which rules hold until when, and what comes back."""

import json
import sys
from collections.abc import Sequence
from datetime import date

from tactics.cli.main import Exit
from tactics.cli.quiz_players import Player, nothing_kept, scheduler, tell
from tactics.cli.quiz_rules import usable_advisor
from tactics.cli.rule_files import load_rules
from tactics.cli.terminal import heading_for
from tactics.model.progress import Progress
from tactics.model.rule import RuleSet, Strength
from tactics.quiz.book import Book
from tactics.quiz.days import study_day
from tactics.quiz.kept import Trouble
from tactics.quiz.progress import progress
from tactics.quiz.revision import rule_revision
from tactics.quiz.schedule import Scheduler
from tactics.report.layout import text_of
from tactics.report.quiz_progress import progress_as_json, progress_sections


def show_progress(player: Player, rules: Sequence[str], *, as_json: bool = False) -> int:
    """Print which rules hold until when, and what comes back."""
    if not player.is_known:
        return nothing_kept(player)
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
    asked = [rule for rule in rules.rules if rule.strength is not Strength.MAY]
    return progress(
        book,
        revisions={rule.id: rule_revision(rules, rule) for rule in asked},
        titles={rule.id: rule.title for rule in rules.rules},
        day=day,
        scheduler=schedule,
    )
