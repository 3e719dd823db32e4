"""The hand-over page: what another coach has to know, in the words already in use."""

from collections.abc import Iterator
from dataclasses import dataclass

from tactics.engine.advisor import Advisor
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.report.audit_balls import background_of
from tactics.report.care import AID
from tactics.report.layout import counted
from tactics.report.people import Asked, lessons_words, nickname
from tactics.report.rates import rate_words
from tactics.report.reviews import change_words, headline, method, reasons
from tactics.report.sentences import facts_words
from tactics.review.ledger import Heading, Ledger
from tactics.review.priorities import Priorities
from tactics.review.rates import Rate
from tactics.review.season_marks import marked_rows
from tactics.review.trend import trend

_CUES = 8
_STRONG = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class RateLine:
    """A name and a share that kept the rules."""

    name: str
    rate: Rate


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRule:
    """A rule being worked on, with its reasons and its cue."""

    headline: str
    reasons: tuple[str, ...]
    cue: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOverPage:
    """One page for another coach."""

    name: str
    lessons: str
    rule_set: str
    throughout: str
    care: str
    situations: tuple[RateLine, ...]
    strong: tuple[str, ...]
    working_on: tuple[SetRule, ...]
    method: tuple[str, ...]
    cues: tuple[tuple[str, str], ...]
    changes: tuple[str, ...]
    open_questions: tuple[str, ...]
    goal: str
    aid: str = AID


def hand_over_page(
    ledger: Ledger,
    advisor: Advisor,
    player: str,
    found: Priorities,
    asked: Asked,
    *,
    is_restricted: bool = False,
) -> HandOverPage:
    """Return the page. About health it says no more than that a restriction is set."""
    rules = advisor.rules
    changed = trend(ledger)
    background = background_of(ledger.balls, rules.vocabulary)
    return HandOverPage(
        name=nickname(player),
        lessons=lessons_words(ledger),
        rule_set=ledger.rule_set,
        throughout=facts_words(Situation.of(background), rules.vocabulary),
        care=(
            "Restricted in the last lesson: no serve and smash drills, effort is not graded. Ask "
            "the player and the parents before anything fast."
            if is_restricted
            else ""
        ),
        situations=tuple(RateLine(name=e.name, rate=e.kept_rate) for e in ledger.by_situation()),
        strong=tuple(_strong(ledger, rules)),
        working_on=tuple(_set(found, rules)),
        method=tuple(method(found)),
        cues=tuple(_cues(ledger, found, rules)),
        changes=tuple(change_words(e, rules) for e in changed.changes[:3]) if changed else (),
        open_questions=tuple(_open(ledger, found)),
        goal=asked.goal,
    )


def _strong(ledger: Ledger, rules: RuleSet) -> Iterator[str]:
    fit = [each for each in ledger.by_rule() if each.kept_rate.n >= 10]
    for each in sorted(fit, key=lambda e: -e.kept_rate.interval[0])[:_STRONG]:
        yield f"{rules.rule(each.name).title} [{each.name}]: kept {rate_words(each.kept_rate)}."


def _set(found: Priorities, rules: RuleSet) -> Iterator[SetRule]:
    for place, each in enumerate(found.chosen):
        why = (text for text in reasons(each, place, rules) if not text.startswith("Cue:"))
        yield SetRule(
            headline=headline(each, rules), reasons=tuple(why), cue=rules.rule(each.rule).cue
        )


def _cues(ledger: Ledger, found: Priorities, rules: RuleSet) -> Iterator[tuple[str, str]]:
    """Yield cue words in use and what they mean: of the priorities, then of the rules met most."""
    met = sorted(ledger.by_rule(), key=_met, reverse=True)
    names = dict.fromkeys([*(each.rule for each in found.chosen), *(each.name for each in met)])
    cues = [(rules.rule(name).cue, rules.rule(name).title) for name in names]
    yield from [(cue, title) for cue, title in cues if cue][:_CUES]


def _met(heading: Heading) -> int:
    return heading.broken_rate.n


def _open(ledger: Ledger, found: Priorities) -> Iterator[str]:
    every, marks = ledger.all(), marked_rows(ledger)
    if len(every.open):
        yield f"{counted(len(every.open), 'ball')} could not be decided: a fact was not charted."
    if len(marks.apart):
        yield (
            f"The coach and the rules differ on {len(marks.apart)} of {marks.marked} marked balls; "
            "the coach's marks stand on the chart."
        )
    doubted = [each.rule for each in found.chosen if each.doubted]
    if doubted:
        yield f"The coach marked broken balls as good under: {', '.join(doubted)}."
    if ledger.not_covered:
        yield f"{counted(len(ledger.not_covered), 'ball')} of another format or stage: not graded."
