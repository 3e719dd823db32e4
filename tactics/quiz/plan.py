"""Which rules a quiz is about, and in which order they come."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from hashlib import sha256

from tactics.quiz.book import Book, Page
from tactics.quiz.schedule import Scheduler

QUIZ_LENGTH = 10
_NEW_SLOTS = 2
_GOING_WELL = 0.75
_WEEK = timedelta(days=7)
_EASY_START = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Planning:
    """What a plan rests on. revisions: rule -> revision, of all rules that can be asked.

    neighbours: pairs of rules that hold on two sides of one change; they come side by side.
    first: rules to drill before anything else (what an audit found, say). order: a word of the
    player's own that puts new rules in a random order (empty: as they stand), so that rules
    practised so far can be compared with those that chance has left for later.
    """

    book: Book
    scheduler: Scheduler
    revisions: Mapping[str, str]
    day: date
    neighbours: Collection[frozenset[str]] = frozenset()
    first: Sequence[str] = ()
    order: str = ""

    def plan(self, count: int = QUIZ_LENGTH) -> tuple[str, ...]:
        """Return different rules in the order of the quiz; fewer than `count` if there are fewer.

        Rules that are due come first, those in most danger before others; while things go well
        two places in ten are kept for new rules. What is left over goes to new rules as far as
        the player's pace can keep them up, then to rules that are not due yet.
        """
        new = self._new()
        chosen = [rule for rule in dict.fromkeys(self.first) if rule in self.revisions][:count]
        reserved = [rule for rule in new if rule not in chosen][: self._new_slots(count)]
        self._fill(chosen, self._due(), count - len(reserved))
        self._fill(chosen, reserved, count)
        self._fill(chosen, self._due(), count)
        room = max(self._most_active(count) - self._active(chosen), 0)
        self._fill(chosen, [rule for rule in new if rule not in chosen][:room], count)
        self._fill(chosen, self._met(), count)
        return self._in_order(chosen)

    @staticmethod
    def _fill(chosen: list[str], rules: Sequence[str], count: int) -> None:
        wanted = [rule for rule in rules if rule not in chosen]
        chosen += wanted[: max(count - len(chosen), 0)]

    def _page(self, rule: str) -> Page | None:
        return self.book.page(rule, self.revisions[rule])

    def _recall(self, rule: str) -> float:
        page = self._page(rule)
        return 0.0 if page is None else self.scheduler.recall(page.memory, self.day)

    def _met(self) -> list[str]:
        met = [rule for rule in self.revisions if self._page(rule) is not None]
        return sorted(met, key=lambda rule: (self._recall(rule), rule))

    def _due(self) -> list[str]:
        return [rule for rule in self._met() if self._is_due(rule)]

    def _is_due(self, rule: str) -> bool:
        page = self._page(rule)
        return page is not None and page.memory.due <= self.day

    def _new(self) -> list[str]:
        """Return rules that were never met as they stand, those that changed first."""
        new = [rule for rule in self.revisions if self._page(rule) is None]
        if self.order:
            new.sort(key=lambda rule: sha256(f"{self.order}/{rule}".encode()).digest())
        return sorted(new, key=lambda rule: not self.book.has_older(rule, self.revisions[rule]))

    def _new_slots(self, count: int) -> int:
        is_going_well = self.book.recent_share >= _GOING_WELL
        return _NEW_SLOTS * count // QUIZ_LENGTH if is_going_well else 0

    def _active(self, chosen: Sequence[str]) -> int:
        return len({*self._met(), *chosen})

    def _most_active(self, count: int) -> int:
        """Return how many rules can be kept up at the player's pace: two meetings a week each."""
        since = self.day - _WEEK
        week = sum(1 for page in self.book.pages.values() for met in page.met if met.day > since)
        return max(count, week // 2)

    def _in_order(self, rules: Sequence[str]) -> tuple[str, ...]:
        """Return the rules with two likely right ones first and neighbours side by side."""
        easy = sorted(rules, key=lambda rule: -self._recall(rule))[:_EASY_START]
        waiting = [rule for rule in rules if rule not in easy]
        ordered = list(easy)
        while waiting:
            beside = (rule for rule in waiting if frozenset((ordered[-1], rule)) in self.neighbours)
            rule = next(beside, waiting[0])
            waiting.remove(rule)
            ordered.append(rule)
        return tuple(ordered)
