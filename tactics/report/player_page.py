"""The player's page: what went right first, their own words, one cue, one thing to try."""

from collections.abc import Iterator
from dataclasses import dataclass

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.coverage import as_covered
from tactics.engine.levels import level_of
from tactics.engine.scatter_rules import level_it_applies_to, metres, usual_scatter_m
from tactics.model.known import Absent, Allowed, Interval, ScatterWithin, Within
from tactics.model.rule import Rule, RuleSet
from tactics.report.court_picture import Picture, picture_of
from tactics.report.layout import counted
from tactics.report.people import (
    Asked,
    lessons_words,
    nickname,
    own_words,
    right_and_missed,
    telling_rules,
    well_chosen,
)
from tactics.report.player_words import asked_words, ball_words, tried_words
from tactics.report.targets import wanted_shot
from tactics.review.ledger import Ledger
from tactics.review.rates import Standing

CLOSING = "Questions about any of this? Ask your coach on court."
REST = (
    "Something hurts or is being spared at the moment: rest comes first, and nothing here asks you "
    "to try harder. Tell your coach, and at home tell an adult, if it gets worse."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownBall:
    """A ball in words and as a picture (None where nobody's place was seen). lead: a heading."""

    lead: str
    sentence: str
    picture: Picture | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayerPage:
    """One page for the player."""

    name: str
    lessons: str
    rest: str
    went_right: tuple[str, ...]
    balls: tuple[ShownBall, ...]
    own_words: tuple[str, ...]
    cue: str
    try_title: str
    try_words: str
    why: str
    try_ball: ShownBall | None
    goal: str
    closing: str = CLOSING


def player_page(
    ledger: Ledger,
    advisor: Advisor,
    player: str,
    worked_on: str,
    asked: Asked,
    *,
    is_restricted: bool = False,
) -> PlayerPage:
    """Return the page; worked_on: the one rule to try ("" where nothing stands out)."""
    rule = advisor.rules.rule(worked_on) if worked_on else None
    return PlayerPage(
        name=nickname(player),
        lessons=lessons_words(ledger),
        rest=REST if is_restricted else "",
        went_right=tuple(_went_right(ledger, advisor.rules)),
        balls=tuple(_good_balls(ledger, advisor)),
        own_words=own_words(ledger.balls, asked),
        cue=rule.cue if rule else "",
        try_title=rule.title if rule else "Keep choosing as you do",
        try_words=_to_try(rule, advisor, ledger),
        why=rule.because if rule else "",
        try_ball=_ball_to_try(ledger, advisor, worked_on),
        goal=asked.goal,
    )


def _went_right(ledger: Ledger, rules: RuleSet) -> Iterator[str]:
    every = ledger.all()
    if every.kept_rate.n:
        graded = counted(every.kept_rate.n, "graded choice")
        yield f"{len(every.kept)} of your {graded} kept the rules."
    fit = [
        each
        for each in ledger.by_situation()
        if each.kept_rate.standing is not Standing.NOT_ENOUGH and len(each.kept) > len(each.broken)
    ]
    if fit:
        best = max(fit, key=lambda each: each.kept_rate.interval[0])
        yield f"Your surest choices: {_PHASE[best.name]}, {len(best.kept)} of {best.kept_rate.n}."
    always = [e for e in telling_rules(ledger, rules) if not len(e.broken) and len(e.kept) >= 10]
    if always:
        most = max(always, key=lambda each: len(each.kept))
        title = rules.rule(most.name).title
        yield f"One rule you kept every time, {len(most.kept)} of {len(most.kept)}: {title}."


_PHASE = {
    "serving": "when you serve",
    "returning": "when you return",
    "baseline rally": "in rallies from the back",
    "approaching or at net": "on the way in and at the net",
    "opponent at net": "when they come to the net",
    "not seen": "where the kind of point was not noted",
}


def _good_balls(ledger: Ledger, advisor: Advisor) -> Iterator[ShownBall]:
    row = well_chosen(ledger, ledger.all().kept.tolist())
    if row is not None:
        yield _shown(ledger, advisor, row, "A ball you chose well")
    missed = right_and_missed(ledger)
    if missed is not None and missed != row:
        yield _shown(ledger, advisor, missed, "The right ball, and the best kind of miss")


def _shown(ledger: Ledger, advisor: Advisor, row: int, lead: str) -> ShownBall:
    ball, words = ledger.balls[row], advisor.vocabulary
    shot = {part: known for part, known in ball.choice.parts if not isinstance(known, Absent)}
    told = f"{_sentence(ledger, advisor, row)} You chose: {tried_words(ball.choice, words)}."
    return ShownBall(
        lead=lead, sentence=told, picture=_seen(picture_of(ball.situation, shot, words))
    )


def _sentence(ledger: Ledger, advisor: Advisor, row: int) -> str:
    return ball_words(ledger.balls[row].situation, advisor.vocabulary, who="you")


def _seen(picture: Picture) -> Picture | None:
    return None if picture.player is None and picture.opponent is None else picture


def _to_try(rule: Rule | None, advisor: Advisor, ledger: Ledger) -> str:
    if rule is None:
        return (
            "Nothing stands out from the rest. Play points, and say before each ball what you want."
        )
    level = (
        level_of(ledger.balls[-1].situation) if len(ledger.balls) else ""
    ) or level_it_applies_to(advisor.rules)
    # a player thinks in metres and not in multiples of scatter, and aims to no centimetre
    unit_m = usual_scatter_m(level)
    asked = {**dict(rule.advice), **dict(rule.aim)}
    parts = {
        part: _rounded(metres(each, unit_m)) if isinstance(each, ScatterWithin) else each
        for part, each in asked.items()
    }
    wanted = asked_words(parts, advisor.vocabulary)
    return f"Next time you are in this place, try: {wanted}."


def _rounded(allowed: Allowed) -> Allowed:
    if not isinstance(allowed, Within):
        return allowed
    return Within(
        tuple(
            Interval((round(each.low[0], 1), each.low[1]), (round(each.high[0], 1), each.high[1]))
            for each in allowed.intervals
        )
    )


def _ball_to_try(ledger: Ledger, advisor: Advisor, worked_on: str) -> ShownBall | None:
    heading = next((each for each in ledger.by_rule() if each.name == worked_on), None)
    if heading is None or not len(heading.broken):
        return None
    row = max(heading.broken.tolist(), key=lambda each: (ledger.balls[each].date, each))
    given = as_covered(advisor.rules, ledger.balls[row].situation)
    shot = wanted_shot(advise(advisor, given))
    return ShownBall(
        lead="",
        sentence=_sentence(ledger, advisor, row),
        picture=_seen(picture_of(given, shot, advisor.vocabulary)),
    )
