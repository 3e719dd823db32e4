"""What a player's answers say, folded in the order of their days: the answers are the truth.

Only the first meeting of a rule in a day is rated; what comes later that day is practice.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from types import MappingProxyType

from tactics.model.scenario import Answer, Credit
from tactics.quiz.schedule import Memory, Scheduler, rating_of

_DAYS_NEEDED, _SURE_NEEDED = 3, 2
_LAST_GAP = timedelta(days=7)
_STABLE_DAYS = 21.0
_STILL_SECURE = 0.8
_RECENT = 20
_TRAVEL = timedelta(days=1)
"""Whoever crosses the date line may find a day that a clock at home has not reached yet."""

Key = tuple[str, str]
"""A rule and its revision: a rule that changed its meaning starts anew."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """The first meeting of a rule on one day."""

    day: date
    credit: Credit
    sure: bool

    @property
    def is_full(self) -> bool:
        """Say whether it earned full credit."""
        return self.credit is Credit.FULL


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """What is known of one rule.

    met: first meetings, one a day. run: those with full credit since the last one without, and
    since the last answer that was sure and wrong. answered, full: all answers, practice too.
    """

    memory: Memory
    met: tuple[Met, ...] = ()
    run: tuple[Met, ...] = ()
    answered: int = 0
    full: int = 0
    sure_and_wrong: tuple[date, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """All pages, and what was mixed up. recent: whether the last first meetings were right.

    sure, sure_and_right: how many answers were sure, and how many of those earned full credit.
    """

    pages: Mapping[Key, Page] = field(default_factory=lambda: MappingProxyType({}))
    confusions: Mapping[tuple[str, str], int] = field(default_factory=lambda: MappingProxyType({}))
    recent: tuple[bool, ...] = ()
    sure: int = 0
    sure_and_right: int = 0

    def page(self, rule: str, revision: str) -> Page | None:
        """Return what is known of a rule as it stands, or None."""
        return self.pages.get((rule, revision))

    def has_older(self, rule: str, revision: str) -> bool:
        """Say whether the rule was met before it changed."""
        return any(name == rule and other != revision for name, other in self.pages)

    @property
    def recent_share(self) -> float:
        """Return the share of right first answers lately; 1 where there is none yet."""
        return sum(self.recent) / len(self.recent) if self.recent else 1.0


def rebuild(answers: Iterable[Answer], scheduler: Scheduler, today: date | None = None) -> Book:
    """Return the book of all answers by their days, whenever they came in.

    today: what lies after it was given while a clock was wrong, and waits until its day comes.
    """
    last = date.max if today is None else today + _TRAVEL
    book = Book()
    for answer in sorted(answers, key=lambda each: each.day):
        if answer.day <= last:
            book = learn(book, answer, scheduler)
    return book


def learn(book: Book, answer: Answer, scheduler: Scheduler) -> Book:
    """Return the book with one more answer, of the last day in it or a later one."""
    book = _mixed_up(book, answer)
    rating = rating_of(answer)
    if rating is None or answer.credit is None:
        return book
    key = (answer.rule, answer.revision)
    page = book.pages.get(key)
    met = Met(day=answer.day, credit=answer.credit, sure=bool(answer.sure))
    is_first = page is None or answer.day > page.memory.last
    if page is None or is_first:
        memory = scheduler.after(None if page is None else page.memory, answer.day, rating)
        page = _rated(page, memory, met)
    return replace(
        book,
        pages=MappingProxyType({**book.pages, key: _counted(page, met)}),
        recent=(*book.recent, met.is_full)[-_RECENT:] if is_first else book.recent,
        sure=book.sure + met.sure,
        sure_and_right=book.sure_and_right + (met.sure and met.is_full),
    )


def _rated(page: Page | None, memory: Memory, met: Met) -> Page:
    """Return the page after the first meeting of a day."""
    if page is None:
        return Page(memory=memory, met=(met,), run=(met,) if met.is_full else ())
    run = (*page.run, met) if met.is_full else ()
    return replace(page, memory=memory, met=(*page.met, met), run=run)


def _counted(page: Page, met: Met) -> Page:
    """Return the page with what counts at every meeting of a day."""
    is_slip = met.sure and met.credit is Credit.NONE
    return replace(
        page,
        answered=page.answered + 1,
        full=page.full + met.is_full,
        run=() if is_slip else page.run,
        sure_and_wrong=(*page.sure_and_wrong, met.day) if is_slip else page.sure_and_wrong,
    )


def _mixed_up(book: Book, answer: Answer) -> Book:
    if not answer.confused_with or answer.confused_with == answer.rule:
        return book
    pair = (answer.rule, answer.confused_with)
    count = book.confusions.get(pair, 0) + 1
    return replace(book, confusions=MappingProxyType({**book.confusions, pair: count}))


def secure_until(page: Page, scheduler: Scheduler) -> date | None:
    """Return the day until which a rule counts as secure, None where it does not.

    The last three first meetings earned full credit on three days, the last one after a gap of a
    week or more, two of them sure, and the memory is predicted to last three weeks. An answer
    that was sure and wrong ends it at once, and all three have to come anew.
    """
    last = page.run[-_DAYS_NEEDED:]
    if len(last) < _DAYS_NEEDED or sum(met.sure for met in last) < _SURE_NEEDED:
        return None
    if last[-1].day - last[-2].day < _LAST_GAP:
        return None
    if scheduler.stability_days(page.memory) < _STABLE_DAYS:
        return None
    return scheduler.holds_until(page.memory, _STILL_SECURE)
