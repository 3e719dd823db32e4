"""A question of the quiz as a screen: court, side view and facts above, answers below."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from tactics.model.scenario import Scenario
from tactics.model.vocabulary import Vocabulary
from tactics.report.court_picture import Picture, Spot
from tactics.report.quiz_court import Scale, court_rows, legend, scale_for
from tactics.report.quiz_ground import ground_of
from tactics.report.quiz_page import Page, Room, assembled, height_of, parting, stacked
from tactics.report.quiz_places import capital, clauses, is_serve, shown_picture, spot_words
from tactics.report.quiz_sheet import Ink, Row, Rows, beside, line, lines, wrapped_to
from tactics.report.quiz_side import contact_of, side_rows, side_words

_GAP, _LEAST_PANEL, _LEAST_BELOW = 2, 34, 15
_LEAST_SIDE_ROWS, _MOST_SIDE_ROWS, _MOST_SIDE_COLUMNS = 4, 9, 44
_HOW_TO_AIM = "Move the cross on the court with the arrow keys, then press Enter."
_CHANGED = "Changed: "
_SURE = (("s  ", "sure"), ("n  ", "not sure"))


class Reply(Protocol):
    """What is said to an answer. lines: (grade word, text, is picked, is best)."""

    @property
    def heading(self) -> str:
        """Return the credit in a sentence."""
        ...

    @property
    def lines(self) -> tuple[tuple[str, str, bool, bool], ...]:
        """Return the options with their grades."""
        ...

    @property
    def why(self) -> str:
        """Return the reason, in the coach's words."""
        ...

    @property
    def flip(self) -> str:
        """Return the one changed fact that would change the answer."""
        ...

    @property
    def then(self) -> str:
        """Return the rule as a plan to keep in mind."""
        ...

    @property
    def cue(self) -> str:
        """Return a few words for the court."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What all screens of a quiz have in common. scrolled: rows gone by below the court.

    before: the facts of the question that this one is the twin of.
    """

    words: Vocabulary
    marks: Mapping[str, str]
    room: Room
    title: str
    keys: str
    scrolled: int = 0
    before: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Own:
    """A target of the player's own: where it is, what it is called, and its grade word."""

    spot: Spot
    text: str
    grade: str


def question_page(shown: Shown, scenario: Scenario, focus: int, spot: Spot | None = None) -> Page:
    """Return the screen that asks. focus: the option the cursor is on.

    spot: the target being moved, where a place is asked for instead of one of the options.
    """
    asked = _text(shown, scenario.prompt, Ink.STRONG)
    if spot is None:
        return _court_page(shown, scenario, (asked, _options(shown, scenario, focus)))
    how = _text(shown, _HOW_TO_AIM)
    place = _text(shown, f"It is {spot_words(spot, ground_of(scenario.situation))}.", Ink.STRONG)
    return _court_page(shown, scenario, (asked, how, place), spot)


def sure_page(
    shown: Shown, scenario: Scenario, picked: int | None, focus: int, spot: Spot | None = None
) -> Page:
    """Return the screen that asks how sure the player is of the answer picked."""
    blocks = (
        _text(shown, scenario.prompt, Ink.QUIET),
        _picked(shown, scenario, picked),
        _text(shown, "How sure are you?", Ink.STRONG),
        tuple(
            row
            for place, (key, name) in enumerate(_SURE)
            for row in _choice(shown, key, name, is_on=place == focus)
        ),
    )
    return _court_page(shown, scenario, blocks, spot)


def feedback_page(
    shown: Shown,
    scenario: Scenario,
    reply: Reply,
    own: Own | None = None,
    heard: Rows = (),
) -> Page:
    """Return the screen that answers. own: a target of the player's; heard: words above."""
    then = reply.then or (f"In short: {reply.cue}" if reply.cue else "")
    blocks = (
        _text(shown, reply.heading, Ink.HEADING),
        heard,
        _graded(shown, reply, own),
        _text(shown, f"Why: {reply.why}" if reply.why else ""),
        _text(shown, reply.flip),
        _text(shown, then, Ink.STRONG),
        _text(shown, f"From your coach: {scenario.note}" if scenario.note else ""),
    )
    spot = None if own is None else own.spot
    return _court_page(shown, scenario, blocks, spot, is_answered=True)


def court_scale(room: Room) -> Scale:
    """Return the scale the court has on a screen of this size."""
    return scale_for(room.columns - _LEAST_PANEL - _GAP, room.rows - _LEAST_BELOW)


def typed_rows(shown: Shown, start: str, typed: str) -> Rows:
    """Return a line that is being written, the cursor behind its end."""
    rows = _text(shown, f"{start}{typed}", Ink.STRONG)
    return (*rows[:-1], (*rows[-1], (Ink.FOCUS, " ")))


def said_rows(shown: Shown, text: str) -> Rows:
    """Return a short message."""
    return _text(shown, text, Ink.QUIET)


def fact_rows(shown: Shown, scenario: Scenario, width: int) -> Rows:
    """Return the facts, each clause on a row of its own; one that changed stands out."""
    before = clauses(shown.before)
    found: list[Row] = []
    for clause in clauses(scenario.facts):
        if before and clause not in before:
            found += lines(f"{_CHANGED}{clause}", width, "  ", Ink.STRONG)
        else:
            found += lines(clause, width, "  ")
    return tuple(found)


def _text(shown: Shown, text: str, ink: Ink = Ink.PLAIN, indent: str = "") -> Rows:
    return lines(text, shown.room.columns - 1, indent, ink)


def _options(shown: Shown, scenario: Scenario, focus: int) -> Rows:
    return tuple(
        row
        for place, option in enumerate(scenario.options)
        for row in _choice(shown, f"{place + 1}  ", option.text, is_on=place == focus)
    )


def _picked(shown: Shown, scenario: Scenario, picked: int | None) -> Rows:
    text = "the cross on the court" if picked is None else scenario.options[picked].text
    return _hung(shown, "   Your answer: ", text, Ink.PLAIN)


def _choice(shown: Shown, key: str, text: str, *, is_on: bool) -> Rows:
    """Return a line that can be chosen, with a mark in front of the one in focus."""
    ink = Ink.FOCUS if is_on else Ink.PLAIN
    return _hung(shown, f" {shown.marks['chosen'] if is_on else ' '} {key}", text, ink)


def _hung(shown: Shown, start: str, text: str, ink: Ink) -> Rows:
    """Return a text behind a start of narrow characters, its later rows set in as far."""
    wrapped = wrapped_to(text, shown.room.columns - len(start) - 1)
    starts = (start, *(" " * len(start) for _ in wrapped[1:]))
    return tuple(
        line(f"{before}{behind}", ink) for before, behind in zip(starts, wrapped, strict=True)
    )


def _graded(shown: Shown, reply: Reply, own: Own | None) -> Rows:
    """Return the options with their grade words; the answer given has a mark in front."""
    said = [(str(place + 1), *each) for place, each in enumerate(reply.lines)]
    if own is not None:
        said.append((shown.marks["cursor"], own.grade, own.text, True, False))
    width = max((len(grade) for _, grade, *_ in said), default=0)
    return tuple(
        row
        for key, grade, text, is_picked, is_best in said
        for row in _hung(
            shown,
            f" {shown.marks['chosen'] if is_picked else ' '} {key}  {grade:<{width}}  ",
            text,
            Ink.STRONG if is_best else Ink.PLAIN,
        )
    )


def _court_page(
    shown: Shown,
    scenario: Scenario,
    blocks: Sequence[Rows],
    spot: Spot | None = None,
    *,
    is_answered: bool = False,
) -> Page:
    """Return the page with the largest court that leaves room for everything below it."""
    picture = shown_picture(scenario, is_answered=is_answered, words=shown.words)
    title, keys = line(shown.title, Ink.TITLE), line(shown.keys, Ink.QUIET)
    sheet = _Upper(shown, scenario, picture, spot)
    above, below = _fitted(shown, scenario, sheet, blocks, is_answered=is_answered)
    rule = parting(shown.room.columns, legend(picture, shown.marks, spot), shown.marks["rule"])
    return assembled(shown.room, title, (*above, rule), below, keys, shown.scrolled)


def _fitted(
    shown: Shown, scenario: Scenario, upper: "_Upper", blocks: Sequence[Rows], *, is_answered: bool
) -> tuple[Rows, Rows]:
    """Return the rows above and below: the first arrangement for which there is room.

    The facts stand beside the court, or below it where that leaves room to draw the side view;
    after the answer they give way, and come last where they fit nowhere else.
    """
    facts = fact_rows(shown, scenario, shown.room.columns - 1)
    low = () if is_answered else facts
    room = shown.room.rows - len(upper.court) - 3
    both, side, told = upper.with_both(), upper.with_side(), upper.with_facts()
    if both and height_of(blocks) <= room:
        return both, stacked(blocks, room)
    if low and height_of((facts, *blocks)) <= room:
        return side, stacked((facts, *blocks), room)
    if told and sum(map(len, blocks)) <= room:
        return told, stacked(blocks, room)
    order = (facts, *blocks) if low else (*blocks, facts)
    return side, stacked(order, room)


class _Upper:
    """The court with what stands beside it."""

    def __init__(
        self, shown: Shown, scenario: Scenario, picture: Picture, spot: Spot | None
    ) -> None:
        self.shown, self.scenario = shown, scenario
        scale = court_scale(shown.room)
        self.court = court_rows(picture, scale, shown.marks, spot, is_serve=is_serve(scenario))
        self.start = scale.columns + _GAP
        self.width = shown.room.columns - self.start
        self.facts = fact_rows(shown, scenario, self.width)

    def with_both(self) -> Rows:
        """Return facts over the side view; nothing where the two do not fit."""
        room = min(len(self.court) - len(self.facts) - 1, _MOST_SIDE_ROWS)
        if room < _LEAST_SIDE_ROWS:
            return ()
        return self._beside(self.facts, self._side(room))

    def with_side(self) -> Rows:
        """Return the side view alone."""
        return self._beside((), self._side(min(len(self.court), _MOST_SIDE_ROWS)))

    def with_facts(self) -> Rows:
        """Return facts alone, the height of the ball in words; nothing where they do not fit."""
        contact_m = contact_of(self.scenario, self.shown.words)
        net_m = ground_of(self.scenario.situation).net_m
        height = "" if contact_m is None else capital(side_words(contact_m, net_m))
        said = lines(height, self.width, "  ")
        paragraph = lines(self.scenario.facts, self.width)
        for panel in ((*self.facts, *said), self.facts, (*paragraph, *said), paragraph):
            if len(panel) <= len(self.court):
                return self._beside(panel, ())
        return ()

    def _side(self, rows: int) -> Rows:
        width = min(self.width, _MOST_SIDE_COLUMNS)
        return side_rows(self.scenario, width, rows, self.shown.words, self.shown.marks)

    def _beside(self, top: Rows, bottom: Rows) -> Rows:
        blank: Rows = ((),) * (len(self.court) - len(top) - len(bottom))
        return beside(self.court, (*top, *blank, *bottom), self.start, len(self.court))
