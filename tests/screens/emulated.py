"""A scene on an emulated terminal: what stands on the screen after every key."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from io import StringIO

import pyte
from prompt_toolkit.application import Application, get_app
from prompt_toolkit.data_structures import Size as TerminalSize
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import ColorDepth
from prompt_toolkit.output.vt100 import Vt100_Output

from tactics.screens.frame import Scene, run_scene
from tactics.screens.view import LEAST, End, Size, View

_SENT = {
    "up": "\x1b[A", "down": "\x1b[B", "right": "\x1b[C", "left": "\x1b[D", "enter": "\r",
    "back": "\x7f", "page up": "\x1b[5~", "page down": "\x1b[6~", "stop": "\x03", "end": "\x04",
}  # fmt: skip


_PATIENCE_TICKS = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The screen after a step: its rows, the cursor, and the colours and looks that occur."""

    rows: tuple[str, ...]
    cursor_row: int
    cursor_column: int
    colours: frozenset[str]
    looks: frozenset[str]

    @property
    def text(self) -> str:
        """Return the rows without the space behind them."""
        return "\n".join(row.rstrip() for row in self.rows) + "\n"


class Terminal:
    """Feeds steps (keys, or a new size of the window) one by one, each after the last was drawn."""

    def __init__(self, scene: Scene, steps: Sequence[str | Size], size: Size) -> None:
        self.scene = replace(scene, draw=self._draw, tick=self._tick)
        self._inner = scene
        self._steps = list(steps)
        self._size = size
        self._out = StringIO()
        self._screen = pyte.Screen(size.columns, size.rows)
        self._stream = pyte.Stream(self._screen)
        self._is_waiting = False
        self._is_watched = False
        self._idle = 0
        self.frames: list[Frame] = []

    def run(self) -> End:
        """Return how the scene ended; the last frame is the one before its end."""
        with create_pipe_input() as keys:
            self._keys: PipeInput = keys
            output = Vt100_Output(
                self._out,
                self._terminal_size,
                term="xterm",
                default_color_depth=ColorDepth.from_env(),
                enable_cpr=False,
            )
            return run_scene(self.scene, keys, output)

    def _terminal_size(self) -> TerminalSize:
        return TerminalSize(rows=self._size.rows, columns=self._size.columns)

    def _draw(self, size: Size) -> View:
        self._watch()
        return self._inner.draw(size)

    def _watch(self) -> None:
        if not self._is_watched:
            self._is_watched = True
            get_app().after_render += self._drawn
            get_app().key_processor.after_key_press += self._taken

    def _taken(self, _: object) -> None:
        """Note that a key got through, whether or not anything was done with it."""
        self._is_waiting = False
        self._idle = 0

    def _tick(self) -> bool:
        """End a run that stands still, so that a wrong step fails instead of waiting for ever."""
        self._idle += 1
        if self._idle > _PATIENCE_TICKS and not get_app().is_done:
            get_app().exit(exception=TimeoutError(f"no answer; steps left: {self._steps}"))
        return self._inner.tick() if self._inner.tick is not None else False

    def _drawn(self, application: Application[End]) -> None:
        if self._is_waiting or application.is_done:
            return
        self.frames.append(self._frame())
        if not self._steps:
            application.exit(result=End.STOPPED)
            return
        step = self._steps.pop(0)
        if isinstance(step, Size):
            self._size = step
            self._screen.resize(step.rows, step.columns)
            application.invalidate()
        else:
            self._is_waiting = True
            self._keys.send_text(_SENT.get(step, step))

    def _frame(self) -> Frame:
        self._stream.feed(self._out.getvalue())
        self._out.seek(0)
        self._out.truncate()
        cells = [cell for row in self._screen.buffer.values() for cell in row.values()]
        looks = {name for cell in cells for name in ("bold", "reverse") if getattr(cell, name)}
        return Frame(
            rows=tuple(self._screen.display),
            cursor_row=self._screen.cursor.y,
            cursor_column=self._screen.cursor.x,
            colours=frozenset(cell.fg for cell in cells) | frozenset(cell.bg for cell in cells),
            looks=frozenset(looks),
        )


def shown(scene: Scene, *steps: str | Size, size: Size = LEAST) -> list[Frame]:
    """Return the frame at the start and after each step."""
    terminal = Terminal(scene, steps, size)
    terminal.run()
    return terminal.frames
