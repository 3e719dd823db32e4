"""A whole audit as one HTML page."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from tactics.engine.advisor import Advisor
from tactics.model.known import word
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import Grade, Reason
from tactics.problem import Problem
from tactics.report.audit_balls import background_of, place_words
from tactics.report.audits import CAUTION
from tactics.report.court_picture import Picture
from tactics.report.html.audit_rates import (
    ChangeRow,
    Number,
    RateRow,
    TableRow,
    cause_rows,
    change_row,
    grade_rows,
    outcome_rows,
    rate_row,
    rule_rows,
    session_rows,
)
from tactics.report.html.audit_shares import (
    ServeBlock,
    ShareBlock,
    serve_blocks,
    serve_notes,
    share_blocks,
)
from tactics.report.html.ball_cards import (
    BallList,
    Card,
    Deck,
    cards_wanted,
)
from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.html.dots import ShownRate, shown_rate
from tactics.report.html.render import render
from tactics.report.layout import counted
from tactics.report.mix import CAUTION as SHARES_NOTE
from tactics.report.places import group_name, group_words, notes
from tactics.report.rates import rate_words
from tactics.report.reviews import method, period_words, reasons, trend_notes
from tactics.report.sentences import facts_words
from tactics.report.verdicts import find_rule
from tactics.review.ledger import GRADE_CODES, KEPT_CODES, Ledger
from tactics.review.mix import review_mixes
from tactics.review.open_facts import open_facts
from tactics.review.places import places
from tactics.review.priorities import Priority, priorities
from tactics.review.rates import Standing
from tactics.review.season_marks import MarkedRows, marked_rows
from tactics.review.serves import serves
from tactics.review.shown import judged_rows
from tactics.review.trend import trend

_OPEN_LOOKED_AT = 300
_PICTURES = 5
_REMARKS_SHOWN = 200
_MARKS_SHOWN = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class _Priority:
    """A priority as the template places it."""

    id: str
    rule: str
    title: str
    says: str
    cue: str
    rate: ShownRate
    reasons: tuple[str, ...]
    balls: BallList
    pictures: tuple[Card, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Difference:
    """A ball on which the coach and the rules differ, with both reasons."""

    balls: BallList
    yours: str
    theirs: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """The one value the template gets."""

    title: str
    facts: tuple[tuple[str, str], ...]
    overall: ShownRate
    standing_out: tuple[str, ...]
    priorities: tuple[_Priority, ...]
    method: tuple[str, ...]
    periods: str
    changes: tuple[ChangeRow, ...]
    trend_notes: tuple[str, ...]
    sessions: tuple[RateRow, ...]
    earlier_sessions: int
    grades: tuple[Number, ...]
    situations: tuple[RateRow, ...]
    parts: tuple[RateRow, ...]
    rules: tuple[RateRow, ...]
    few: tuple[RateRow, ...]
    outcomes: tuple[TableRow, ...]
    disturbed: int
    causes: tuple[TableRow, ...]
    shares: tuple[ShareBlock, ...]
    shares_note: str
    serves: tuple[ServeBlock, ...]
    serve_notes: tuple[str, ...]
    places: tuple[tuple[str, str], ...]
    place_notes: tuple[str, ...]
    marks: str
    differences: tuple[_Difference, ...]
    cards: tuple[Card, ...]
    not_shown: int
    court: CourtDrawing
    unknown: tuple[str, ...]
    left_out: tuple[str, ...]
    caution: str


def audit_html(
    ledger: Ledger, advisor: Advisor, problems: Sequence[Problem] = (), since: str = ""
) -> str:
    """Return the audit as one page that stands alone: pictures and style inside, nothing fetched.

    Of many balls a sample gets pictures, chosen by fixed rules, and the page says so; every number
    counts all balls.
    """
    rules = advisor.rules
    found = priorities(ledger, rules)
    marks = marked_rows(ledger)
    first = [*(each.heading.broken for each in found.chosen), marks.apart[:_MARKS_SHOWN]]
    deck = Deck(ledger, advisor, cards_wanted(ledger, first))
    every = [ball for chart in ledger.charts for ball in chart.balls]
    by_rule = rule_rows(ledger, deck, rules)
    mixes, served = review_mixes(rules, every), serves(every)
    stood = places(rules, every)
    changed = trend(ledger, since)
    sessions, earlier = session_rows(ledger)
    outcomes, disturbed = outcome_rows(ledger, deck)
    page = _Page(
        title=f"Audit: {ledger.rule_set}",
        facts=tuple(_facts(ledger, rules)),
        overall=shown_rate(ledger.all().kept_rate),
        standing_out=tuple(_standing_out(ledger, marks)),
        priorities=tuple(_priority(p, e, deck, rules) for p, e in enumerate(found.chosen)),
        method=tuple(method(found)),
        periods=f"{period_words(changed.before)} against {period_words(changed.after)}"
        if changed
        else "",
        changes=tuple(change_row(e, rules) for e in changed.changes) if changed else (),
        trend_notes=tuple(trend_notes(changed)) if changed else (),
        sessions=sessions if len(sessions) > 1 else (),
        earlier_sessions=earlier,
        grades=tuple(grade_rows(ledger, deck, GRADE_CODES)),
        situations=tuple(rate_row(each, deck) for each in ledger.by_situation()),
        parts=tuple(rate_row(each, deck) for each in ledger.by_part()),
        rules=tuple(row for row in by_rule if row.rate.dot),
        few=tuple(row for row in by_rule if not row.rate.dot),
        outcomes=outcomes,
        disturbed=disturbed,
        causes=cause_rows(ledger, deck),
        shares=share_blocks(mixes, rules.vocabulary),
        shares_note=SHARES_NOTE if any(each.groups for each in mixes) else "",
        serves=serve_blocks(served),
        serve_notes=serve_notes(served),
        places=tuple((group_name(each), group_words(each)) for each in stood.groups),
        place_notes=tuple(notes(stood)) if stood.groups else (),
        marks=_marks_words(marks),
        differences=tuple(_differences(ledger, advisor, marks, deck)),
        cards=deck.cards,
        not_shown=len(ledger.balls) - len(deck.cards),
        court=draw_court(Picture(), ""),
        unknown=tuple(_unknown(ledger, advisor)),
        left_out=tuple(_left_out(ledger, problems)),
        caution=CAUTION,
    )
    return render("audit", page)


def _facts(ledger: Ledger, rules: RuleSet) -> Iterator[tuple[str, str]]:
    count = sum(len(chart.balls) for chart in ledger.charts)
    left_out = sum(len(chart.left_out) for chart in ledger.charts)
    yield "charts", ", ".join(chart.name for chart in ledger.charts)
    yield "players", ", ".join(ledger.players) or "not named"
    yield (
        "balls",
        f"{count} in {counted(len(ledger.sessions), 'lesson or match', 'lessons or matches')}: "
        f"{len(ledger.balls)} graded, {len(ledger.not_covered)} not covered; "
        f"{counted(left_out, 'row')} left out",
    )
    background = background_of(ledger.balls, rules.vocabulary)
    throughout = facts_words(Situation.of(background), rules.vocabulary)
    if throughout:
        yield "throughout", f"{throughout} (wherever charted)"


def _standing_out(ledger: Ledger, marks: MarkedRows) -> Iterator[str]:
    every = ledger.all()
    decided = every.kept_rate.n
    if decided:
        yield f"{len(every.kept)} of {counted(decided, 'decided choice')} kept the rules."
    fit = [
        each
        for each in ledger.by_situation()
        if each.kept_rate.standing is not Standing.NOT_ENOUGH and len(each.kept) > len(each.broken)
    ]
    if fit:
        best = max(fit, key=lambda each: each.kept_rate.interval[0])
        yield f"Best kept: {best.name}, {rate_words(best.kept_rate)}."
    missed = sum(_came(ledger, row, "no") for row in every.kept)
    came_off = sum(_came(ledger, row, "yes") for row in every.broken)
    if missed:
        yield (
            f"{counted(missed, 'ball')} well chosen and not hit as intended: keep the choice, work "
            "on stroke and timing."
        )
    if came_off:
        yield f"{counted(came_off, 'ball')} against the rules came off: worth a word all the same."
    if len(marks.apart):
        yield f"You and the rules differ on {counted(len(marks.apart), 'marked ball')}."
    if len(ledger.players) > 1:
        yield "The counts mix several players; --player NAME looks at one of them."


def _came(ledger: Ledger, row: int, as_intended: str) -> bool:
    outcome = ledger.balls[row].outcome
    return outcome.as_intended == as_intended and outcome.disturbed in ("", "no")


def _priority(place: int, each: Priority, deck: Deck, rules: RuleSet) -> _Priority:
    rows = set(each.heading.broken.tolist())
    rule = rules.rule(each.rule)
    cards = [card for card in deck.cards if card.row in rows and card.drawing is not None]
    return _Priority(
        id=f"priority-{place + 1}",
        rule=each.rule,
        title=rule.title,
        says=f"Broken on {each.broken.count} of {each.broken.n}",
        cue=rule.cue,
        rate=shown_rate(each.broken),
        reasons=tuple(t for t in reasons(each, place, rules) if not t.startswith("Cue:")),
        balls=deck.list_of(each.heading.broken),
        pictures=tuple(cards[:_PICTURES]),
    )


def _marks_words(marks: MarkedRows) -> str:
    if not marks.marked:
        return ""
    return (
        f"{counted(marks.marked, 'ball')} marked: {len(marks.same)} with the same word, "
        f"{len(marks.near)} on the same side, {len(marks.apart)} apart, "
        f"{len(marks.open)} undecided here. Nothing was overwritten."
    )


def _differences(
    ledger: Ledger, advisor: Advisor, marks: MarkedRows, deck: Deck
) -> Iterator[_Difference]:
    rows = [int(row) for row in marks.apart[:_MARKS_SHOWN]]
    for row, each in judged_rows(ledger, advisor, rows):
        rule = find_rule(advisor.rules, each.verdict.deciding)
        because = f" {rule.because}" if rule is not None and rule.because else ""
        named = f' ("{rule.title}")' if rule is not None else ""
        note = f": {each.ball.note}" if each.ball.note else ", no note"
        yield _Difference(
            balls=deck.list_of([row]),
            yours=f"{each.ball.mark}{note}",
            theirs=f"{each.verdict.grade}{named}.{because}",
        )


def _unknown(ledger: Ledger, advisor: Advisor) -> Iterator[str]:
    """Yield what is not known: why balls are undecided, and what was taken as given."""
    rows = np.flatnonzero(ledger.kept == len(KEPT_CODES) - 1)
    looked = [each for _, each in judged_rows(ledger, advisor, rows[:_OPEN_LOOKED_AT].tolist())]
    if len(rows):
        some = f" (why: from the first {len(looked)})" if len(looked) < len(rows) else ""
        yield f"{counted(len(rows), 'ball')} could not be decided{some}."
    for fact in open_facts(looked)[:5]:
        yield f"{fact.fact}: not seen, matters on {fact.matters}, decides most on {fact.decides}."
    for reason in (Reason.CONFLICT, Reason.NO_RULE):
        count = sum(
            e.verdict.grade is Grade.UNDECIDED and e.verdict.reason is reason for e in looked
        )
        if count:
            yield f"{reason}: {counted(count, 'ball')}."
    for fact_name, count in ledger.assumed:
        yield (
            f"{fact_name}: not charted on {counted(count, 'ball')}, taken as what the rules "
            "are for."
        )
    restricted = sum(b.situation.get("restricted today") == word("yes") for b in ledger.balls)
    if restricted:
        yield f"restricted today: on {counted(restricted, 'ball')}, where effort was not graded."
    if ledger.not_covered:
        yield f"{counted(len(ledger.not_covered), 'ball')} of another format or stage: not graded."


def _left_out(ledger: Ledger, problems: Sequence[Problem]) -> Iterator[str]:
    with_file = len(ledger.charts) > 1
    for problem in problems[:_REMARKS_SHOWN]:
        place = place_words(problem.span, with_file=with_file)
        yield f"{place}: {problem.sentence}"
    more = len(problems) - _REMARKS_SHOWN
    if more > 0:
        yield f"and {more} more remarks: tactics audit without --html lists them all"
