"""A whole audit as one HTML page."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tactics.engine.advisor import Advisor
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.problem import Problem
from tactics.report.audit_balls import background_of
from tactics.report.audits import CAUTION
from tactics.report.court_picture import Picture
from tactics.report.html.audit_change import ThenAndNow, then_and_now
from tactics.report.html.audit_notes import left_out, overall_words, standing_out, unknown
from tactics.report.html.audit_rates import (
    Number,
    RateRow,
    TableRow,
    cause_rows,
    grade_rows,
    outcome_rows,
    rate_row,
    rule_rows,
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
from tactics.report.html.beside_table import BesideTable, beside_table
from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.html.dots import ShownRate, shown_rate
from tactics.report.html.render import render
from tactics.report.layout import counted
from tactics.report.mix import CAUTION as SHARES_NOTE
from tactics.report.places import group_name, group_words, notes
from tactics.report.reviews import method, reasons
from tactics.report.sentences import facts_words
from tactics.report.side_by_side import BesideWords
from tactics.report.verdicts import find_rule
from tactics.review.ledger import GRADE_CODES, Ledger
from tactics.review.mix import review_mixes
from tactics.review.places import places
from tactics.review.priorities import Priority, priorities
from tactics.review.season_marks import MarkedRows, marked_rows
from tactics.review.serves import serves
from tactics.review.shown import judged_rows

_PICTURES = 5
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
    charts: str
    players: tuple[str, ...]
    facts: tuple[tuple[str, str], ...]
    overall_says: str
    overall: ShownRate
    standing_out: tuple[str, ...]
    priorities: tuple[_Priority, ...]
    has_pictures: bool
    method: tuple[str, ...]
    change: ThenAndNow | None
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
    beside: BesideTable | None
    marks: str
    differences: tuple[_Difference, ...]
    cards: tuple[Card, ...]
    not_shown: int
    court: CourtDrawing
    unknown: tuple[str, ...]
    left_out: tuple[str, ...]
    caution: str


def audit_html(
    ledger: Ledger,
    advisor: Advisor,
    problems: Sequence[Problem] = (),
    since: str = "",
    beside: BesideWords | None = None,
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
    outcomes, disturbed = outcome_rows(ledger, deck)
    chosen = tuple(_priority(p, e, deck, rules) for p, e in enumerate(found.chosen))
    page = _Page(
        title=f"Audit: {ledger.rule_set}",
        charts=", ".join(chart.name for chart in ledger.charts),
        players=ledger.players or ("not named",),
        facts=tuple(_facts(ledger, rules)),
        overall_says=overall_words(ledger.all()),
        overall=shown_rate(ledger.all().kept_rate),
        standing_out=tuple(standing_out(ledger, marks)),
        priorities=chosen,
        has_pictures=any(each.pictures for each in chosen),
        method=tuple(method(found)),
        change=then_and_now(ledger, rules, since),
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
        beside=beside_table(beside),
        marks=_marks_words(marks),
        differences=tuple(_differences(ledger, advisor, marks, deck)),
        cards=deck.cards,
        not_shown=len(ledger.balls) - len(deck.cards),
        court=draw_court(Picture(), ""),
        unknown=tuple(unknown(ledger, advisor)),
        left_out=tuple(left_out(ledger, problems)),
        caution=CAUTION,
    )
    return render("audit", page)


def _facts(ledger: Ledger, rules: RuleSet) -> Iterator[tuple[str, str]]:
    count = sum(len(chart.balls) for chart in ledger.charts)
    left_out = sum(len(chart.left_out) for chart in ledger.charts)
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
