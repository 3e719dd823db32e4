"""The hand-over page: what another coach has to know, in the words already in use."""

from collections.abc import Iterator
from dataclasses import dataclass

from tactics.engine.advisor import Advisor
from tactics.model.ball import Ball
from tactics.model.known import Absent
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.report.audit_balls import background_of
from tactics.report.care import AID
from tactics.report.court_picture import Picture, picture_of
from tactics.report.layout import counted
from tactics.report.people import Asked, lessons_words, nickname, own_words, telling_rules
from tactics.report.player_words import asked_words, ball_words, tried_words
from tactics.report.rates import rate_words
from tactics.report.reviews import change_words, method
from tactics.report.sentences import facts_words
from tactics.report.worked_on import WorkedOn, priority_worked_on
from tactics.review.ledger import Heading, Ledger
from tactics.review.priorities import Priorities
from tactics.review.rates import Rate
from tactics.review.season_marks import marked_rows
from tactics.review.trend import trend

_CUES = 8
_STRONG = 4
_EXAMPLES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class RateLine:
    """A name and a share that kept the rules."""

    name: str
    rate: Rate


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """A ball on which a rule worked on was broken, and what to listen for instead."""

    ball: str
    tried: str
    wanted: str
    picture: Picture | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRule:
    """A rule being worked on, with its latest balls."""

    worked_on: WorkedOn
    examples: tuple[Example, ...]


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
    own_words: tuple[str, ...]
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
        working_on=tuple(_set(found, ledger, advisor)),
        method=tuple(method(found)),
        cues=tuple(_cues(ledger, found, rules)),
        changes=tuple(change_words(e, rules) for e in changed.changes[:3]) if changed else (),
        open_questions=tuple(_open(ledger, found)),
        own_words=own_words(ledger.balls, asked),
        goal=asked.goal,
    )


def _strong(ledger: Ledger, rules: RuleSet) -> Iterator[str]:
    fit = [each for each in telling_rules(ledger, rules) if each.kept_rate.n >= 10]
    for each in sorted(fit, key=lambda e: -e.kept_rate.interval[0])[:_STRONG]:
        yield f"{rules.rule(each.name).title} [{each.name}]: kept {rate_words(each.kept_rate)}."


def _set(found: Priorities, ledger: Ledger, advisor: Advisor) -> Iterator[SetRule]:
    for place, each in enumerate(found.chosen):
        rows = sorted(each.heading.broken.tolist(), key=lambda row: (ledger.balls[row].date, row))
        wanted = asked_words(dict(advisor.rules.rule(each.rule).advice), advisor.vocabulary)
        yield SetRule(
            worked_on=priority_worked_on(each, place, advisor.rules, to_another=True),
            examples=tuple(_example(ledger.balls[r], wanted, advisor) for r in rows[-_EXAMPLES:]),
        )


def _example(ball: Ball, wanted: str, advisor: Advisor) -> Example:
    words = advisor.vocabulary
    shot = {part: known for part, known in ball.choice.parts if not isinstance(known, Absent)}
    picture = picture_of(ball.situation, shot, words)
    return Example(
        ball=ball_words(ball.situation, words),
        tried=tried_words(ball.choice, words),
        wanted=wanted,
        picture=None if picture.player is None else picture,
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
