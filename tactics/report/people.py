"""Who a page is about: a nickname and no more; their own words as they were noted."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from tactics.model.ball import Ball
from tactics.model.choice import Choice
from tactics.model.known import OneOf, word
from tactics.model.rule import RuleSet
from tactics.model.verdict import Kept
from tactics.report.layout import counted
from tactics.review.ledger import KEPT_CODES, Heading, Ledger
from tactics.review.season_marks import quoted_words

SOMEBODY = "the player"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the coach adds to a page. said: the player's own words. on: the day of the page.

    goal: what was set, or will be, in a few words.
    """

    said: tuple[str, ...] = ()
    goal: str = ""
    on: str = field(default="")


def nickname(charted: str) -> str:
    """Return the name a page uses: the first word, no more of an address than stands before @."""
    first = charted.split()[0].partition("@")[0] if charted.split() else ""
    return first or SOMEBODY


def is_more_than_a_nickname(charted: str) -> bool:
    """Say whether a name has several words or looks like an address."""
    return len(charted.split()) > 1 or "@" in charted


def is_shortened(charted: str) -> bool:
    """Say whether a name on the chart has more than the page uses."""
    return nickname(charted) != charted.strip() and bool(charted.strip())


def own_words(balls: Sequence[Ball], asked: Asked) -> tuple[str, ...]:
    """Return what the player said: as the coach typed it, else what stands in quotes in notes."""
    return asked.said or quoted_words([ball.note for ball in balls])[-3:]


def lessons_words(ledger: Ledger) -> str:
    """Return `3 lessons, 2026-03-07 to 2026-03-28`."""
    days = sorted({day for _, day, _ in ledger.sessions if day})
    said = counted(len(ledger.sessions), "lesson or match", "lessons or matches")
    if not days:
        return said
    return f"{said}, {days[0]}" + (f" to {days[-1]}" if len(days) > 1 else "")


def kept_rows(ledger: Ledger, name: str) -> list[int]:
    """Return the balls of one game situation that kept the rules."""
    heading = next((each for each in ledger.by_situation() if each.name == name), None)
    return [] if heading is None else heading.kept.tolist()


def telling_rules(ledger: Ledger, rules: RuleSet) -> list[Heading]:
    """Return the rules that say something about every ball they apply to.

    A rule about one kind of choice is kept by whoever chooses something else, so it is left out.
    """
    return [each for each in ledger.by_rule() if rules.rule(each.name).choosing is None]


def well_chosen(ledger: Ledger, kept: Sequence[int]) -> int | None:
    """Return a well-chosen ball to show: the last that came off, else the last of all."""
    came_off = [row for row in kept if ledger.balls[row].outcome.as_intended == "yes"]
    rows = came_off or list(kept)
    return max(rows, key=lambda row: (ledger.balls[row].date, row), default=None)


def right_and_missed(ledger: Ledger) -> int | None:
    """Return the last ball that was well chosen and missed: the best kind of miss."""
    code = KEPT_CODES.index(Kept.YES)
    rows = [
        row
        for row, ball in enumerate(ledger.balls)
        if ledger.kept[row] == code
        and ball.outcome.as_intended == "no"
        and ball.outcome.disturbed in ("", "no")
    ]
    return max(rows, key=lambda row: (ledger.balls[row].date, row), default=None)


def tried_again(ledger: Ledger) -> tuple[int, int]:
    """Return (balls played, balls that were there to be played or left) as far as charted."""
    known = [ball.choice.get("response") for ball in ledger.balls]
    noted = [each for each in known if isinstance(each, OneOf)]
    return sum(each == word("played") for each in noted), len(noted)


def part_of(choice: Choice, part: str) -> str:
    """Return the one word charted of a part, or nothing."""
    known = choice.get(part)
    return next(iter(known.words)) if isinstance(known, OneOf) and len(known.words) == 1 else ""
