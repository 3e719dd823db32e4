"""The parents' page: choices and effort. No blame, no ranking, no comparison, no results."""

from collections.abc import Iterator
from dataclasses import dataclass

from tactics.model.rule import RuleSet
from tactics.report.layout import counted
from tactics.report.people import Asked, lessons_words, nickname, tried_again
from tactics.review.ledger import Ledger
from tactics.review.rates import Standing

_LEAD = (
    "In lessons we look at which shot is chosen, apart from whether the ball goes in. Choosing "
    "well and missing is part of learning, and winning a point by luck is, too."
)
_HELP = (
    "Ask: which ball did you choose today, and why? Leave the score for later.",
    "Praise a brave and sensible choice, also when the ball missed.",
    "A short quiz at home is enough, a few minutes on two or three days.",
    "Rest days, sleep and other sports help as much as more tennis.",
)
_PRIVATE = (
    "This page is about one child and for you only. It compares with nobody and says nothing about "
    "talent or selection. The charts stay on the coach's computer; you may ask for a copy of all "
    "that is kept, or for all of it to be deleted, at any time."
)
_RESTRICTED = (
    "Your child was marked as sore or restricted in the last lesson. Serves and overheads are left "
    "out, effort is not graded, and rest comes first. Please see a health professional if pain "
    "persists, wakes your child at night, follows a fall, or if a joint is swollen."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ParentPage:
    """One page for the parents."""

    name: str
    lessons: str
    care: str
    lead: str
    choices: tuple[str, ...]
    effort: tuple[str, ...]
    next_steps: tuple[str, ...]
    help: tuple[str, ...]
    goal: str
    private: str = _PRIVATE


def parent_page(
    ledger: Ledger,
    rules: RuleSet,
    player: str,
    worked_on: tuple[str, ...],
    asked: Asked,
    *,
    is_restricted: bool = False,
) -> ParentPage:
    """Return the page; with a restriction nothing is said about effort."""
    return ParentPage(
        name=nickname(player),
        lessons=lessons_words(ledger),
        care=_RESTRICTED if is_restricted else "",
        lead=_LEAD,
        choices=tuple(_choices(ledger)),
        effort=() if is_restricted else tuple(_effort(ledger)),
        next_steps=tuple(_next(rules, worked_on)),
        help=_HELP,
        goal=asked.goal,
    )


def _choices(ledger: Ledger) -> Iterator[str]:
    every = ledger.all()
    if every.kept_rate.n:
        yield (
            f"{len(every.kept)} of {counted(every.kept_rate.n, 'choice')} that could be judged "
            "kept to what we are learning."
        )
    fit = [
        each
        for each in ledger.by_situation()
        if each.kept_rate.standing is not Standing.NOT_ENOUGH and len(each.kept) > len(each.broken)
    ]
    if fit:
        best = max(fit, key=lambda each: each.kept_rate.interval[0])
        share = f"{len(best.kept)} of {best.kept_rate.n}"
        yield f"Surest in this part of the game: {best.name} ({share})."


def _effort(ledger: Ledger) -> Iterator[str]:
    played, noted = tried_again(ledger)
    if noted >= 10:
        yield f"Tried to play {played} of {noted} balls for which it was noted."
    recovered = next((each for each in ledger.by_part() if each.name == "afterwards"), None)
    if recovered is not None and recovered.kept_rate.standing is not Standing.NOT_ENOUGH:
        yield (
            f"Moved on well after the stroke on {len(recovered.kept)} of {recovered.kept_rate.n} "
            "balls for which it was noted."
        )


def _next(rules: RuleSet, worked_on: tuple[str, ...]) -> Iterator[str]:
    for each in worked_on:
        rule = rules.rule(each)
        yield f"{rule.title}." + (f' We say: "{rule.cue}".' if rule.cue else "")
    if not worked_on:
        yield "Playing points and naming the choice before each ball."
