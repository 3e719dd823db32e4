"""The quiz on a full screen: what each key does, and what is drawn."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tactics.model.vocabulary import Vocabulary
from tactics.quiz.aiming import first_spot, moved
from tactics.quiz.steps import Pick, Skip, Stage, Sure, TimeOut
from tactics.report.court_picture import Spot
from tactics.report.quiz_ground import ground_of
from tactics.report.quiz_page import Page, Room
from tactics.report.quiz_places import capital, spot_words
from tactics.report.quiz_sheet import Ink, Row
from tactics.report.quiz_view import (
    Own,
    Shown,
    feedback_page,
    question_page,
    said_rows,
    sure_page,
    typed_rows,
)
from tactics.report.visible import visible
from tactics.screens import quiz_words as said
from tactics.screens.quiz_clock import Clock
from tactics.screens.quiz_sitting import Sitting
from tactics.screens.view import Line, Look, Piece, Place, Size, View

_LOOKS: Mapping[Ink, Look] = {
    Ink.TITLE: Look.TITLE,
    Ink.HEADING: Look.STRONG,
    Ink.STRONG: Look.STRONG,
    Ink.FOCUS: Look.FOCUS,
    Ink.QUIET: Look.FAINT,
    Ink.PLAYER: Look.OWN,
    Ink.AIM: Look.OWN,
    Ink.OPPONENT: Look.THEIRS,
    Ink.WAY_IN: Look.THEIRS,
}
_MOVES = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}
_NUMBERS = ("1", "2", "3")
_LONGEST_LINE, _PASTE = 200, "paste:"


@dataclass(slots=True)
class QuizScreen:
    """What stands on the screen beside the state of the quiz, and what the keys do to both.

    focus: the line the cursor is on. spot: the target being moved (None: answers to pick).
    typed: the line for the coach while it is written. limit_s: seconds a question, None: no clock.
    """

    sitting: Sitting
    words: Vocabulary
    marks: Mapping[str, str]
    nickname: str
    limit_s: float | None = None
    focus: int = 0
    spot: Spot | None = None
    typed: str | None = None
    heard: str = ""
    scrolled: int = 0
    clock: Clock | None = None
    _has_more: bool = False
    _shown_s: int | None = None

    def __post_init__(self) -> None:
        self._turn()

    def draw(self, size: Size) -> View:
        """Return what is to be seen; nothing once the quiz is over, while the screen closes."""
        if self.sitting.is_over:
            return View(lines=())
        room = Room(columns=size.columns, rows=size.rows)
        shown = Shown(
            words=self.words,
            marks=self.marks,
            room=room,
            title=self._title(),
            keys=self._keys(),
            scrolled=self.scrolled,
            before=self._before(),
        )
        page = self._page(shown)
        if page.has_more is not self._has_more:
            self._has_more = page.has_more
            page = self._page(replace(shown, keys=self._keys()))
        return as_view(page)

    def press(self, key: str) -> bool:
        """Take a key; return False when the quiz is over."""
        if self.typed is not None:
            self._type(key)
        elif key == "q":
            self.sitting.stops()
        elif key in ("page up", "page down"):
            self._scroll(key)
        else:
            self._act(key)
        return not self.sitting.is_over

    def tick(self) -> bool:
        """Look at the clock; say whether what it shows has changed."""
        self.sitting.rest.begin()
        if self.clock is None or self.sitting.state.stage is not Stage.ASKING:
            return False
        now = self.sitting.now()
        if self.clock.is_over(now):
            self.sitting.does(TimeOut())
            self._turn()
            return True
        before, self._shown_s = self._shown_s, self.clock.shown(now)
        return before != self._shown_s

    def rest(self, is_resting: bool) -> None:
        """Stop the clock while the window is too small to read, and go on afterwards."""
        if self.clock is not None:
            now = self.sitting.now()
            self.clock = self.clock.stopped(now) if is_resting else self.clock.started(now)

    def _turn(self) -> None:
        """Make ready for what is shown next."""
        self.focus, self.scrolled, self.heard = 0, 0, ""
        if self.sitting.is_over or self.sitting.state.stage is not Stage.ASKING:
            return
        self.spot = first_spot() if said.is_aimed(self.sitting.scenario) else None
        if self.limit_s is not None:
            self.clock = Clock(left_s=self.limit_s).started(self.sitting.now())
            self._shown_s = None

    def _act(self, key: str) -> None:
        match self.sitting.state.stage:
            case Stage.ASKING:
                self._ask(key)
            case Stage.SURE:
                self._sure(key)
            case Stage.FEEDBACK:
                self._answered(key)
            case Stage.SAVING | Stage.OVER:
                pass

    def _ask(self, key: str) -> None:
        if key == "l":
            self._does(Skip())
        elif key == "+" and self.clock is not None:
            self.clock = self.clock.extended()
        elif self.spot is not None:
            self._aim(self.spot, key)
        elif key == "enter":
            self._does(Pick(number=self.focus))
        elif key in _NUMBERS:
            self._does(Pick(number=int(key) - 1))
        else:
            self._move(key, len(self.sitting.scenario.options))

    def _aim(self, spot: Spot, key: str) -> None:
        if key == "enter":
            self.sitting.aims(spot)
            self._turn()
        elif key == "a":
            self.spot = None
        elif key in _MOVES:
            ground = ground_of(self.sitting.scenario.situation)
            self.spot = moved(spot, *_MOVES[key], ground.half_m)

    def _sure(self, key: str) -> None:
        if key in _NUMBERS and self.spot is None:
            self._does(Pick(number=int(key) - 1))  # a change of mind
        elif key in ("s", "n"):
            self._does(Sure(is_sure=key == "s"))
        elif key == "enter":
            self._does(Sure(is_sure=self.focus == 0))
        else:
            self._move(key, 2)

    def _answered(self, key: str) -> None:
        reply = self.sitting.reply
        if key == "i":
            self.typed = ""
        elif key in ("enter", " "):
            self.sitting.goes_on()
            self._turn()
        elif key == "c" and reply is not None and reply.can_twin:
            self.sitting.goes_on(with_twin=True)
            self._turn()

    def _does(self, event: Pick | Sure | Skip) -> None:
        self.sitting.does(event)
        self._turn()

    def _move(self, key: str, count: int) -> None:
        step = {"up": -1, "down": 1}.get(key, 0)
        self.focus = (self.focus + step) % count

    def _scroll(self, key: str) -> None:
        if key == "page up":
            self.scrolled = max(0, self.scrolled - 5)
        elif self._has_more:
            self.scrolled += 5

    def _type(self, key: str) -> None:
        typed = self.typed or ""
        if key == "enter":
            text = " ".join(typed.split())
            self.typed = None
            if text:
                self.sitting.disagrees(text)
                self.heard = said.KEPT_FOR_COACH
        elif key == "back":
            self.typed = typed[:-1]
        elif key.startswith(_PASTE) or len(key) == 1:
            marks = key.removeprefix(_PASTE)
            more = visible("".join(" " if mark.isspace() else mark for mark in marks))
            self.typed = (typed + more)[:_LONGEST_LINE]

    def _title(self) -> str:
        sitting = self.sitting
        state = sitting.state
        title = said.title(self.nickname, sitting.scenario, state.number, state.total)
        if self.clock is None or sitting.state.stage is not Stage.ASKING:
            return title
        return f"{title}   {self.clock.shown(sitting.now())} s left (+: more time)"

    def _before(self) -> str:
        before = self.sitting.state.before
        return "" if before is None else before.facts

    def _keys(self) -> str:
        if self.typed is not None:
            return said.TYPING_KEYS
        match self.sitting.state.stage:
            case Stage.ASKING:
                return said.ASK_KEYS if self.spot is None else said.AIM_KEYS
            case Stage.SURE:
                return said.SURE_KEYS if self.spot is None else said.AIM_SURE_KEYS
            case _:
                reply = self.sitting.reply
                return said.feedback_keys(
                    can_twin=reply is not None and reply.can_twin,
                    is_last=self.sitting.is_last,
                    has_more=self._has_more,
                    is_scrolled=self.scrolled > 0,
                )

    def _page(self, shown: Shown) -> Page:
        state, scenario = self.sitting.state, self.sitting.scenario
        if state.stage is Stage.ASKING:
            return question_page(shown, scenario, self.focus, self.spot)
        if state.stage is Stage.SURE:
            return sure_page(shown, scenario, _picked(state.pick), self.focus, self.spot)
        reply = self.sitting.reply
        if reply is None:
            raise ValueError("an answer is answered back only once it is kept")
        heard = said_rows(shown, self.heard)
        if self.typed is not None:
            heard = typed_rows(shown, said.SEEN_DIFFERENTLY, self.typed)
        return feedback_page(shown, scenario, reply, self._own(), heard)

    def _own(self) -> Own | None:
        """Return the target of the player's own, where one was the answer."""
        pick = self.sitting.state.pick
        if self.spot is None or pick is None or pick.free is None:
            return None
        ground = ground_of(self.sitting.scenario.situation)
        text = capital(spot_words(self.spot, ground))  # as it was called while it moved
        return Own(spot=self.spot, text=text, grade=pick.free.grade.value)


def _picked(pick: Pick | None) -> int | None:
    return None if pick is None else pick.number


def as_view(page: Page) -> View:
    """Return a page as the frame draws it."""
    return View(
        lines=tuple(map(_line, page.rows)),
        cursor=Place(page.cursor_row, page.cursor_column),
    )


def _line(row: Row) -> Line:
    return tuple(Piece(text, _LOOKS.get(ink, Look.PLAIN)) for ink, text in row)
