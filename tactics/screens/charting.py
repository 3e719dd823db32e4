"""Charting on the full screen and line by line: the same state, drawn twice."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from tactics.charting.entry import Entry, Page, Write
from tactics.charting.fields import fields_of, fields_of_day
from tactics.charting.menu import menu_of
from tactics.charting.noted import STANDING_FACTS
from tactics.charting.press import field_question, open_facts, phases_of, press
from tactics.charting.question import Question
from tactics.charting.summary import grade_lines
from tactics.engine.coverage import is_covered
from tactics.model.ball import Ball
from tactics.model.known import NOT_SEEN, OneOf
from tactics.model.names import fold
from tactics.model.situation import Situation
from tactics.report.layout import wrapped
from tactics.report.sentences import choice_words, facts_words, situation_sentence
from tactics.report.words import say_short, word_with_numbers
from tactics.screens.choices import choice_lines
from tactics.screens.view import Line, Look, Place, Size, View, line

NOT_COVERED = "These rules do not speak about such balls: they are kept, not graded."
_GRADE_ROWS = 6
_LAST_BALLS = 12
_KEYS = "Enter: as shown  -: not seen  Backspace: undo  Tab: menu  ?: words  Ctrl-C: stop"


@dataclass(slots=True)
class Charting:
    """One sitting: holds the state, and has every ball put on disk before the next question."""

    entry: Entry
    save: Callable[[Write], None]

    def press(self, key: str) -> bool:
        """Take a key; return whether charting goes on. OSError where the disk fails."""
        step = press(self.entry, key)
        for write in step.writes:
            self.save(write)
        self.entry = step.entry
        return step.goes_on

    def draw(self, size: Size) -> View:
        """Return what stands on the screen."""
        return view_of(self.entry, size)


def view_of(entry: Entry, size: Size) -> View:
    """Return the view of a state: heading, last grade, the ball so far, the question, the keys."""
    if entry.page is Page.PAUSED:
        return View(lines=(line("Paused. Everything is on disk.", Look.TITLE),
                           line("Any key goes on.")))  # fmt: skip
    top = [line(heading_of(entry), Look.TITLE), line("─" * size.columns, Look.FAINT)]
    if entry.page is Page.ASKING:
        top += [line(text) for text in last_grade(entry)[:_GRADE_ROWS]]
        top += [(), *(line(text) for text in so_far(entry))]
    if entry.page is Page.BALL:
        top += [*(line(text) for text in picked_grade(entry)[:_GRADE_ROWS]), ()]
    body = [line(text, Look.STRONG) for text in asked(entry)]
    row = len(top)
    rows = [*top, *body, *_choices(entry, size.columns)]
    bottom = [line(entry.notice, Look.STRONG), line(_foot(entry), Look.FAINT)]
    room = size.rows - len(bottom)
    return View(lines=(*rows[:room], *[()] * (room - len(rows)), *bottom), cursor=Place(row, 0))


def heading_of(entry: Entry) -> str:
    """Return who is charted, when, and which ball is next."""
    place = len(entry.balls) if entry.taken_up is None else entry.taken_up
    parts = [entry.player, entry.sitting.date, entry.sitting.lesson, f"ball {place + 1}"]
    return "Charting   " + "   ".join(part for part in parts if part)


def last_grade(entry: Entry) -> tuple[str, ...]:
    """Return the grade of the last ball, where the coach wants it now."""
    if len(entry.balls) <= entry.began_with or entry.standing_open:
        return ()
    if not entry.sitting.shows_grades:
        return (f"Ball {len(entry.balls)} is on disk.",)
    advisor = entry.sitting.form.decider.advisor
    return grade_lines(len(entry.balls), entry.balls[-1], advisor)


def picked_grade(entry: Entry) -> tuple[str, ...]:
    """Return the grade of the ball that is to be changed, where the coach wants grades now."""
    if not entry.sitting.shows_grades:
        return ()
    advisor = entry.sitting.form.decider.advisor
    return grade_lines(entry.picked + 1, entry.balls[entry.picked], advisor)


def so_far(entry: Entry) -> tuple[str, ...]:
    """Return what is noted of the ball in front, the pain line first where there is one."""
    words = entry.sitting.form.decider.advisor.vocabulary
    standing = dict(entry.standing)
    restricted = standing.get("restricted today")
    is_restricted = isinstance(restricted, OneOf) and "yes" in restricted.words
    first = ["Pain or a restriction today: effort is not graded."] if is_restricted else []
    rules = entry.sitting.form.decider.advisor.rules
    if not is_covered(rules, Situation.of(standing)):
        first += [NOT_COVERED]
    if entry.standing_open:
        return tuple(first)
    if entry.is_at_start:
        return (*first, *_at_start(entry))
    noted = entry.noted
    situation = Situation.of(
        (name, known) for name, known in noted.situation.facts if name not in standing
    )
    chosen = f" Choice: {choice_words(noted.choice, words)}." if noted.choice.parts else ""
    return (*first, *wrapped(f"{situation_sentence(situation, words)}{chosen}"))


def _at_start(entry: Entry) -> tuple[str, ...]:
    if entry.phase is NOT_SEEN:
        return ()
    trait = entry.sitting.form.trait("game situation")
    now = say_short(entry.phase, trait)
    same = " (same point)" if entry.is_same_point else ""
    others = ", ".join(f"{key} {name}" for key, name in phases_of(entry) if name != now)
    return (
        f"{now.capitalize()}, as on the last ball{same}.",
        *wrapped(f"Else: {others}", "", "  "),
    )


def asked(entry: Entry) -> tuple[str, ...]:
    """Return the question of the page, and what Enter would take as shown."""
    match entry.page:
        case Page.ASKING | Page.WORDS:
            question = entry.question
            return () if question is None else (*wrapped(question.text), *shown_lines(entry))
        case Page.MENU:
            return ("What would you like to do?",)
        case Page.PICKING:
            return (f"Which ball? Type its number, then Enter: {entry.text}",)
        case Page.BALL:
            return (f"Ball {entry.picked + 1}: what is to be changed? Enter: nothing more.",)
        case Page.TODAY:
            return ("Player and day: what is to be changed? Enter: nothing more.",)
        case Page.FIELD:
            return wrapped(field_question(entry).text)
        case Page.TEXT:
            label = "Nickname of the player" if entry.field == "player" else "Note"
            return (f"{label}, then Enter: {entry.text}",)
        case Page.PAUSED:
            return ()


def shown_lines(entry: Entry) -> tuple[str, ...]:
    """Return what Enter takes: the facts as on the last ball like this one."""
    question = entry.question
    if question is None or not question.shown:
        return ()
    words = entry.sitting.form.decider.advisor.vocabulary
    facts = ", ".join(
        f"{name} {say_short(known, words.trait(name))}" for name, known in question.shown
    )
    return wrapped(f"Enter: as before, {facts}", "", "  ")


def pairs_of(entry: Entry) -> list[tuple[str, str]]:
    """Return (key, word) of everything that can be chosen on the page."""
    words = entry.sitting.form.decider.advisor.vocabulary
    match entry.page:
        case Page.ASKING | Page.WORDS:
            return _words_of(entry.question)
        case Page.MENU:
            return [(item.key, item.word) for item in menu_of(entry)]
        case Page.BALL:
            fields = fields_of(entry.balls[entry.picked], words, open_facts(entry))
            return [(field.key, field.name) for field in fields]
        case Page.TODAY:
            return [(field.key, field.name) for field in fields_of_day(dict(entry.standing), words)]
        case Page.FIELD:
            return _words_of(field_question(entry))
        case _:
            return []


def _words_of(question: Question | None) -> list[tuple[str, str]]:
    return [] if question is None else [(each.key, each.word) for each in question.options]


def explained(entry: Entry) -> list[tuple[str, str, str]]:
    """Return (key, word, what it means or says now) for pages that have room for it."""
    words = entry.sitting.form.decider.advisor.vocabulary
    match entry.page:
        case Page.WORDS if entry.question is not None:
            trait = words.find(entry.question.name)
            return [
                (each.key, each.word, each.mark or (word_with_numbers(trait, each.word)
                                                    if trait is not None else ""))
                for each in entry.question.options
            ]  # fmt: skip
        case Page.MENU:
            return [(item.key, item.word, item.says) for item in menu_of(entry)]
        case Page.BALL:
            fields = fields_of(entry.balls[entry.picked], words, open_facts(entry))
        case Page.TODAY:
            fields = fields_of_day(dict(entry.standing), words)
        case _:
            return []
    return [(field.key, field.name, field.says) for field in fields]


def _choices(entry: Entry, columns: int) -> Sequence[Line]:
    if entry.page is Page.PICKING:
        return [line(text) for text in last_balls(entry)]
    rows = explained(entry)
    if not rows:
        return choice_lines(pairs_of(entry), columns)
    beside = 1 if entry.page in (Page.MENU, Page.WORDS) else 2
    pairs = [(key, f"{word}: {says}" if says else word) for key, word, says in rows]
    lines = choice_lines(pairs, columns, many=beside)
    more = tuple(line(text) for text in _by_eye(entry)) if entry.page is Page.WORDS else ()
    return (*lines, *more)


def _by_eye(entry: Entry) -> tuple[str, ...]:
    words = entry.sitting.form.decider.advisor.vocabulary
    trait = None if entry.question is None else words.find(entry.question.name)
    return wrapped(f"By eye: {trait.by_eye}") if trait is not None and trait.by_eye else ()


def last_balls(entry: Entry) -> tuple[str, ...]:
    """Return the last balls with their numbers, the latest last; facts of the day aside."""
    words = entry.sitting.form.decider.advisor.vocabulary
    first = max(0, len(entry.balls) - _LAST_BALLS)
    return tuple(
        f"{place + 1:4}  {_who(entry, ball)}{choice_words(ball.choice, words)}; "
        f"{facts_words(_of_the_ball(ball), words)}"
        for place, ball in enumerate(entry.balls[first:], start=first)
    )


def _who(entry: Entry, ball: Ball) -> str:
    return "" if fold(ball.player) == fold(entry.player) else f"{ball.player}: "


def _of_the_ball(ball: Ball) -> Situation:
    return Situation.of(pair for pair in ball.situation.facts if pair[0] not in STANDING_FACTS)


def _foot(entry: Entry) -> str:
    match entry.page:
        case Page.ASKING:
            return _KEYS
        case Page.TEXT | Page.PICKING:
            return "Enter: take it   Backspace: one sign back   Ctrl-C: stop"
        case Page.FIELD:
            return "-: nothing noted   Enter: leave it   Ctrl-C: stop"
        case _:
            return "Enter: back   Ctrl-C: stop"
