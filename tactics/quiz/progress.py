"""A player's book -> what is shown of it: what holds until when, what comes back, what went astray.

Nothing here counts days in a row, compares players or calls anything final.
"""

from collections.abc import Mapping
from datetime import date

from tactics.model.progress import (
    Evidence,
    Holding,
    MixedUp,
    Progress,
    RuleProgress,
    SureAndWrong,
)
from tactics.quiz.book import Book, Page, secure_until
from tactics.quiz.schedule import Scheduler

_LAST = 3


def progress(
    book: Book,
    revisions: Mapping[str, str],
    titles: Mapping[str, str],
    day: date,
    scheduler: Scheduler,
) -> Progress:
    """Return what is known on a day of the rules that can be asked.

    revisions, titles: rule -> revision and title, in the order of the rule set.
    """
    pages = {rule: book.page(rule, revision) for rule, revision in revisions.items()}
    met = {rule: page for rule, page in pages.items() if page is not None}
    return Progress(
        day=day,
        rules=tuple(
            _met(rule, titles[rule], page, day, scheduler) if page is not None
            else _unmet(rule, titles[rule], book, revisions[rule])
            for rule, page in pages.items()
        ),
        sure_and_wrong=_slips(met, titles),
        mixed_up=_mixed_up(book, titles),
        sure=book.sure,
        sure_and_right=book.sure_and_right,
        elsewhere=len({rule for rule, _ in book.pages} - set(revisions)),
    )  # fmt: skip


def _met(rule: str, title: str, page: Page, day: date, scheduler: Scheduler) -> RuleProgress:
    until = secure_until(page, scheduler)
    if until is not None and until < day:
        until = None
    due = page.memory.due
    holding = Holding.DUE if due <= day else Holding.LATER
    return RuleProgress(
        rule=rule,
        title=title,
        holding=holding if until is None else Holding.SECURE,
        due=due,
        secure_until=until,
        evidence=_evidence(page, scheduler),
    )


def _evidence(page: Page, scheduler: Scheduler) -> Evidence:
    return Evidence(
        answered=page.answered,
        full=page.full,
        run=tuple(met.day for met in page.run),
        sure=sum(met.sure for met in page.run[-_LAST:]),
        lasts_days=scheduler.stability_days(page.memory),
    )


def _unmet(rule: str, title: str, book: Book, revision: str) -> RuleProgress:
    changed = book.has_older(rule, revision)
    return RuleProgress(rule=rule, title=title, holding=Holding.CHANGED if changed else Holding.NEW)


def _slips(met: Mapping[str, Page], titles: Mapping[str, str]) -> tuple[SureAndWrong, ...]:
    """Return rules that were answered wrong while sure, the latest first."""
    found = [
        SureAndWrong(
            rule=rule,
            title=titles[rule],
            days=page.sure_and_wrong,
            right_since=next(
                (each.day for each in reversed(page.met)
                 if each.is_full and each.day > page.sure_and_wrong[-1]),
                None,
            ),
        )
        for rule, page in met.items()
        if page.sure_and_wrong
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda slip: slip.days[-1], reverse=True))


def _mixed_up(book: Book, titles: Mapping[str, str]) -> tuple[MixedUp, ...]:
    """Return pairs of rules of this set, the most frequent first."""
    pairs = sorted(book.confusions.items(), key=lambda item: (-item[1], item[0]))
    return tuple(
        MixedUp(rule=rule, title=titles[rule], other=other, other_title=titles[other], count=count)
        for (rule, other), count in pairs
        if rule in titles and other in titles
    )
