"""A second coach's rating, line by line and as a full screen. It shows no outcome and no grade."""

from collections.abc import Callable, Iterator

from tactics.charting.rating import KEYS, Rated, Sitting, finish, pick, typed, undo
from tactics.model.names import fold
from tactics.report.blind import BlindBalls
from tactics.report.layout import counted, wrapped
from tactics.screens.choices import choice_lines, listed
from tactics.screens.view import Line, Look, Place, Size, View, line

HOW = (
    "Grade the choice from what was seen, not the player. How the ball came out, the other "
    "coach's marks and the grades of the rules are hidden, and the balls are mixed up."
)
_ASK = "How good was the choice?"
_WHY = "Why? A few words, or an empty line."
_LINES = "Write a word or its letter; the reason may follow in the same line. undo, or stop."
_ASCII_BACK = "Back: one answer back. Ctrl-C: stop; every answer is on disk."


class RatingTalk:
    """A sitting and the balls it is about; `save` puts an answer on disk before it returns."""

    def __init__(self, sitting: Sitting, balls: BlindBalls, save: Callable[[Rated], None]) -> None:
        self.sitting = sitting
        self._balls = balls.balls
        self._throughout = (
            f"The same wherever charted: {balls.throughout}." if balls.throughout else ""
        )
        self._save = save
        self._said_how = False
        self._notice = ""

    def ask(self) -> Iterator[str]:
        """Yield the lines before the next answer, the question last."""
        if not self._said_how:
            self._said_how = True
            yield from (*wrapped(HOW), *wrapped(_LINES), *wrapped(self._throughout), "")
        if self._notice:
            yield from wrapped(self._notice)
        if self.sitting.picked:
            yield _WHY
            return
        yield from self._ball()
        yield _ASK
        yield from wrapped(listed(KEYS), "  ", "  ")

    def take(self, written: str) -> bool:
        """Take a line; return whether there is more to rate."""
        self._notice = ""
        if self.sitting.picked:
            self.sitting = typed(self.sitting, written)
            return self._finish()
        said = fold(written)
        if said in ("stop", "finish"):
            return False
        if said == "undo":
            return self._undo()
        word, reason = _answer(written)
        if not word:
            self._notice = f"That is none of the words: {listed(KEYS)}."
            return True
        self.sitting = pick(self.sitting, word)
        if not reason:
            return True
        self.sitting = typed(self.sitting, reason)
        return self._finish()

    def press(self, key: str) -> bool:
        """Take a key of the full screen; return whether there is more to rate."""
        self._notice = ""
        if key == "back" and not self.sitting.text:
            return self._undo()
        if not self.sitting.picked:
            word = dict(KEYS).get(key.casefold(), "")
            self.sitting = pick(self.sitting, word) if word else self.sitting
        elif key == "enter":
            return self._finish()
        elif key == "back":
            text = self.sitting.text[:-1]
            self.sitting = typed(pick(self.sitting, self.sitting.picked), text)
        elif len(key) == 1:
            self.sitting = typed(self.sitting, key)
        elif key.startswith("paste:"):
            self.sitting = typed(self.sitting, key.removeprefix("paste:"))
        return True

    def draw(self, size: Size) -> View:
        """Return the screen: the ball, the question, the words, and the reason being written."""
        lines: list[Line] = [line("Rating choices", Look.TITLE), *map(line, wrapped(HOW)), ()]
        lines += [line(text) for text in wrapped(self._throughout)]
        lines += [line(text) for text in self._ball()]
        lines += [line(_ASK, Look.STRONG)]
        question = Place(len(lines) - 1)
        if self.sitting.picked:
            lines += [line(f"  {self.sitting.picked}", Look.FOCUS), (), line(_WHY, Look.STRONG)]
            lines.append(line(f"> {self.sitting.text} "))  # the cursor needs a place behind it
            question = Place(len(lines) - 1, min(size.columns - 1, 2 + len(self.sitting.text)))
        else:
            lines += choice_lines(KEYS, size.columns)
        lines += [(), line(self._notice or _ASCII_BACK, Look.FAINT)]
        return View(lines=tuple(lines), cursor=question)

    def _ball(self) -> Iterator[str]:
        place = self.sitting.current
        if place is None:
            return
        left = len(self.sitting.waiting)
        yield f"Ball {self.sitting.done + 1} of {self.sitting.done + left}"
        yield from wrapped(self._balls[place].situation, "  ", "  ")
        yield from wrapped(f"Chosen: {self._balls[place].choice}.", "  ", "  ")
        yield ""

    def _finish(self) -> bool:
        step = finish(self.sitting)
        if step.save is not None:
            self._save(step.save)
        self.sitting = step.sitting
        return bool(self.sitting.waiting)

    def _undo(self) -> bool:
        before = self.sitting
        self.sitting = undo(before)
        if self.sitting == before:
            self._notice = "There is nothing to take back in this sitting."
        return True

    def rated(self) -> str:
        """Return how many balls are rated so far."""
        whole = self.sitting.done + len(self.sitting.waiting)
        return f"{self.sitting.done} of {counted(whole, 'ball')} rated"


def _answer(written: str) -> tuple[str, str]:
    """Return the word that starts an answer, and the reason behind it."""
    said = written.strip()
    for key, word in sorted(KEYS, key=lambda pair: -len(pair[1])):
        for name in (word, key):
            rest = said[len(name) :]
            if fold(said[: len(name)]) == fold(name) and (not rest or not rest[0].isalnum()):
                return word, rest.lstrip(" ,;:.-")
    return "", ""
