"""The full-screen frame: draws views, hands keys on, gives the terminal back as it was.

The only module that imports prompt_toolkit. Whether there is a terminal to draw on is decided
by `screens.plain.wants_lines` before this module is imported.
"""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, field

from prompt_toolkit.application import Application, get_app
from prompt_toolkit.formatted_text import StyleAndTextTuples
from prompt_toolkit.input import Input
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.keys import Keys
from prompt_toolkit.layout import Layout, Window
from prompt_toolkit.layout.controls import FormattedTextControl
from prompt_toolkit.output import Output
from prompt_toolkit.styles import Style

from tactics.screens.view import LEAST, End, Look, Size, View, fitted, too_small

_STYLE = Style.from_dict(
    {
        Look.PLAIN.value: "",
        Look.TITLE.value: "bold",
        Look.STRONG.value: "bold",
        Look.KEY.value: "bold underline",
        Look.FOCUS.value: "reverse",
        Look.FAINT.value: "",
        Look.OWN.value: "bold ansiblue",
        Look.THEIRS.value: "ansiyellow",
    }
)
_TICK_S = 0.25
_NAMED = {
    Keys.ControlM: "enter", Keys.ControlJ: "enter", Keys.ControlH: "back",
    Keys.Delete: "back", Keys.ControlI: "tab", Keys.Up: "up", Keys.Down: "down",
    Keys.Left: "left", Keys.Right: "right", Keys.PageUp: "page up", Keys.PageDown: "page down",
    Keys.Home: "home", Keys.End: "end",
}  # fmt: skip
_STOPPING = (Keys.ControlC, Keys.ControlD, Keys.SIGINT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What the frame runs.

    draw: the view for a window of this size. press: takes a key, returns False when it is the
    last one. Keys are single characters ("a", "A", "?", " ") or enter, back, tab, up, down,
    left, right, page up, page down, home, end; pasted text comes as "paste:..." in one piece.
    tick: called four times a second; returns whether something shown has changed. rest: called
    with True when the window becomes too small for `least` and False when it fits again.
    """

    draw: Callable[[Size], View]
    press: Callable[[str], bool]
    tick: Callable[[], bool] | None = None
    rest: Callable[[bool], None] | None = None
    least: Size = LEAST
    plain_signs: bool = False


def run_scene(scene: Scene, source: Input | None = None, screen: Output | None = None) -> End:
    """Return how the run ended; the terminal is given back in any case.

    Ctrl-C, Ctrl-D, an interrupt signal and a terminal that goes away all stop the run.
    """
    stage = _Stage(scene)
    application = stage.application(source, screen)

    def started() -> None:
        application.create_background_task(stage.beat())

    try:
        return asyncio.run(application.run_async(pre_run=started))
    except (EOFError, KeyboardInterrupt):
        return End.STOPPED


@dataclass(slots=True)
class _Stage:
    """One run of a scene on one terminal."""

    scene: Scene
    is_resting: bool = field(default=False)
    view: View = field(default_factory=lambda: View(lines=()))

    def application(self, source: Input | None, screen: Output | None) -> Application[End]:
        control = FormattedTextControl(self.fragments, focusable=True, show_cursor=True)
        return Application(
            layout=Layout(Window(control, wrap_lines=False, always_hide_cursor=False)),
            key_bindings=self.bindings(),
            style=_STYLE,
            full_screen=True,
            mouse_support=False,
            input=source,
            output=screen,
        )

    def fragments(self) -> StyleAndTextTuples:
        """Return the view as the toolkit wants it, made anew for the size of the window."""
        window = get_app().output.get_size()
        size = Size(window.columns, window.rows)
        self._notice(is_small=not size.holds(self.scene.least))
        self.view = too_small(size, self.scene.least) if self.is_resting else self.scene.draw(size)
        return _fragments(self.view, size, plain_signs=self.scene.plain_signs)

    def _notice(self, *, is_small: bool) -> None:
        if is_small is not self.is_resting:
            self.is_resting = is_small
            if self.scene.rest is not None:
                self.scene.rest(is_small)

    def bindings(self) -> KeyBindings:
        bindings = KeyBindings()
        for key in _STOPPING:
            bindings.add(key)(_stop)
        for key, name in _NAMED.items():
            bindings.add(key)(self._sends(name))
        bindings.add(Keys.BracketedPaste)(self.paste)
        bindings.add(Keys.Any)(self.typed)
        return bindings

    def _sends(self, name: str) -> Callable[[KeyPressEvent], None]:
        return lambda event: self.send(name, event)

    def paste(self, event: KeyPressEvent) -> None:
        """Hand on what was pasted in one piece."""
        self.send(f"paste:{event.data}", event)

    def typed(self, event: KeyPressEvent) -> None:
        """Hand on a character; keys without one (F1, Escape) say nothing."""
        if len(event.data) == 1 and event.data.isprintable():
            self.send(event.data, event)

    def send(self, key: str, event: KeyPressEvent) -> None:
        """Hand a key on, unless the window is too small to see what it would answer."""
        if self.is_resting or event.app.is_done:
            return
        try:
            goes_on = self.scene.press(key)
        except Exception as error:
            # out of the event loop first, so that the terminal is whole when it is reported
            event.app.exit(exception=error)
            return
        if not goes_on:
            event.app.exit(result=End.FINISHED)

    async def beat(self) -> None:
        """Redraw when the clock has moved something."""
        while self.scene.tick is not None:
            await asyncio.sleep(_TICK_S)
            if self.scene.tick():
                get_app().invalidate()


def _stop(event: KeyPressEvent) -> None:
    if not event.app.is_done:
        event.app.exit(result=End.STOPPED)


def _fragments(view: View, size: Size, *, plain_signs: bool) -> StyleAndTextTuples:
    shown: StyleAndTextTuples = []
    for row, pieces in enumerate(view.lines[: size.rows]):
        if row:
            shown.append(("", "\n"))
        column = 0
        for piece in fitted(pieces, size.columns, plain_signs=plain_signs):
            style = f"class:{piece.look.value}"
            if row == view.cursor.row and column <= view.cursor.column < column + len(piece.text):
                split = view.cursor.column - column
                shown.append((style, piece.text[:split]))
                shown.append(("[SetCursorPosition]", ""))
                shown.append((style, piece.text[split:]))
            else:
                shown.append((style, piece.text))
            column += len(piece.text)
        if row == view.cursor.row and column <= view.cursor.column:
            shown.append(("[SetCursorPosition]", ""))
    return shown
