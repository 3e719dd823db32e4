"""Balls on a page: a card with its court picture for some, and for every number its balls."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from tactics.engine.advisor import Advisor
from tactics.model.audit import JudgedBall
from tactics.model.ball import Ball
from tactics.model.known import Absent, Allowed, Known
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import KEPT
from tactics.report.audit_balls import background_of, place_words, short_ball
from tactics.report.court_picture import picture_of
from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.player_words import tried_words
from tactics.report.sentences import choice_words, situation_sentence
from tactics.report.verdicts import find_rule, finding_text, grade_line
from tactics.review.ledger import Ledger, Rows
from tactics.review.shown import judged_rows

MOST_CARDS = 300
MOST_LINKS = 40
_MOST_LETTERS = 400_000
"""Of all texts on all cards; long notes make for fewer cards."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """One ball. drawing: None where nobody's place was seen. remarks: (label, text).

    tried: every charted part of the choice; tried_short: the shot as one says it.
    """

    row: int
    is_kept: bool
    place: str
    grade: str
    sentence: str
    tried: str
    tried_short: str
    findings: tuple[tuple[str, str], ...]
    remarks: tuple[tuple[str, str], ...]
    drawing: CourtDrawing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A ball by its place; row: -1 where it has no card on this page."""

    row: int
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BallList:
    """The balls behind one number; more: how many are not listed."""

    links: tuple[Link, ...]
    more: int


class Deck:
    """The balls that have a card on this page, and lists of balls that lead to them."""

    def __init__(self, ledger: Ledger, advisor: Advisor, wanted: Iterable[int]) -> None:
        self._ledger = ledger
        self._with_file = len(ledger.charts) > 1
        self._with_player = len(ledger.players) > 1
        self._said_above = background_of(ledger.balls, advisor.vocabulary)
        rows = list(dict.fromkeys(wanted))[:MOST_CARDS]
        judged = judged_rows(ledger, advisor, rows)
        self.cards = tuple(
            sorted(
                _fitting(self._card(row, each, advisor.rules) for row, each in judged),
                key=lambda card: card.row,
            )
        )
        self._shown = {card.row for card in self.cards}

    def list_of(self, rows: Rows | Sequence[int]) -> BallList:
        """Return the balls in these rows, those with a card first."""
        every = [int(row) for row in rows[: 50 * MOST_LINKS]]
        first = sorted(every, key=lambda row: row not in self._shown)[:MOST_LINKS]
        links = (
            Link(row=row if row in self._shown else -1, place=self.place(row))
            for row in sorted(first)
        )
        return BallList(links=tuple(links), more=len(rows) - len(first))

    def place(self, row: int) -> str:
        """Return where a ball stands."""
        return place_words(self._ledger.balls[row].span, with_file=self._with_file)

    def _card(self, row: int, each: JudgedBall, rules: RuleSet) -> Card:
        ball, words = each.ball, rules.vocabulary
        shown = (f for f in each.verdict.findings if f.grade not in KEPT)
        told = (pair for pair in ball.situation.facts if pair not in self._said_above)
        return Card(
            row=row,
            is_kept=each.verdict.grade in KEPT,
            place=short_ball(ball, with_file=self._with_file),
            grade=grade_line(each.verdict),
            sentence=situation_sentence(Situation.of(told), words),
            tried=choice_words(ball.choice, words),
            tried_short=tried_words(ball.choice, words),
            findings=tuple((finding.part, finding_text(finding, rules)) for finding in shown),
            remarks=(*self._whose(ball), *_remarks(each, rules)),
            drawing=drawing_of(ball, rules),
        )

    def _whose(self, ball: Ball) -> tuple[tuple[str, str], ...]:
        return (("player", ball.player),) if self._with_player and ball.player else ()


def drawing_of(ball: Ball, rules: RuleSet) -> CourtDrawing | None:
    """Return the picture of a ball with the shot that was chosen, or None where nobody stands."""
    chosen = {part: known for part, known in ball.choice.parts if not isinstance(known, Absent)}
    return drawing(ball.situation, chosen, rules, "The ball and the shot that was chosen.")


def drawing(
    situation: Situation, shot: Mapping[str, Known | Allowed], rules: RuleSet, says: str
) -> CourtDrawing | None:
    """Return the picture of a situation and a shot, or None where nobody's place is known."""
    wanted = {part: known for part, known in shot.items() if not isinstance(known, Absent)}
    picture = picture_of(situation, wanted, rules.vocabulary)
    if picture.player is None and picture.opponent is None:
        return None
    return draw_court(picture, says)


def _remarks(each: JudgedBall, rules: RuleSet) -> Iterator[tuple[str, str]]:
    deciding = find_rule(rules, each.verdict.deciding)
    is_bad = each.verdict.grade not in KEPT
    if is_bad and deciding is not None and deciding.because:
        yield "why", deciding.because
    if each.cause is not None:
        yield "cause", f"{each.cause} ({'proposed' if each.cause_is_proposed else 'your word'})"
    if is_bad and deciding is not None and deciding.cue:
        yield "cue", deciding.cue
    if each.ball.mark is not None:
        yield "your mark", str(each.ball.mark)
    if each.ball.note:
        yield "note", each.ball.note


def _fitting(cards: Iterable[Card]) -> Iterator[Card]:
    """Yield cards as long as all their texts together stay within bounds."""
    letters = 0
    for card in cards:
        letters += sum(map(len, (card.sentence, card.tried, card.place)))
        letters += sum(len(text) for _, text in (*card.findings, *card.remarks))
        if letters > _MOST_LETTERS:
            return
        yield card


def cards_wanted(ledger: Ledger, first: Iterable[Rows]) -> Iterator[int]:
    """Yield the rows that deserve a card: those asked for, some of each rule, then the rest."""
    for rows in first:
        yield from rows[:12].tolist()
    for heading in ledger.by_rule():
        yield from heading.broken[:2].tolist()
    yield from np.flatnonzero(ledger.kept != 0)[:MOST_CARDS].tolist()
    yield from range(min(len(ledger.balls), MOST_CARDS))
