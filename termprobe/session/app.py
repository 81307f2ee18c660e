"""The full-screen application: keys and events in, the drawn console out.

Holds the only mutable thing, the present State.
"""

import asyncio
import contextlib
import errno
from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import partial
from typing import Any

from prompt_toolkit.application import Application
from prompt_toolkit.formatted_text import StyleAndTextTuples
from prompt_toolkit.input import Input
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.keys import Keys
from prompt_toolkit.layout import Layout, UIContent, UIControl, Window
from prompt_toolkit.output import Output
from prompt_toolkit.styles import Style

from termprobe.clock import Clock
from termprobe.runner.course import BY_BUILDER, INTERRUPTED, failed_by
from termprobe.session.draw.console_rows import draw_console, first_shown, paged
from termprobe.session.interrupts import interrupted_by_signals
from termprobe.session.messages import BoardScreen, Came, Quit, Ring, Trouble, Wanted, WorkerEvent
from termprobe.session.mode_table import MODES
from termprobe.session.react import dispatch, hearing
from termprobe.session.state import State
from termprobe.session.worker import Post, Worker

STYLE = Style.from_dict(
    {
        "bar": "reverse",
        "key": "bold",
        "strong": "bold",
        "question": "bold",
        "frame": "",
        "caption": "italic",
        "bytes": "",
        "notice": "bold",
        "screen": "",
        "cursor": "reverse",
        "marked": "bold underline",
        "pointer": "reverse bold",
        "pass": "ansigreen",
        "fail": "ansired bold",
        "chosen": "reverse",
        "line": "underline",
        "dim": "italic",
    }
)
"""Foregrounds of the console's own palette alone, so that it can be read on light and dark.

Every colour has a mark beside it.
"""
MIN_REDRAW_S = 0.02
BELL_APART_S = 0.2
"""Bells that are closer sound as one on many consoles."""
ESCAPE_LIMIT_S = 0.05
"""So soon the rest of a key that begins with Esc must come."""
KEY_NAMES = {
    Keys.ControlM: "enter",
    Keys.ControlJ: "enter",
    Keys.ControlH: "backspace",
    Keys.ControlI: "tab",
    " ": "space",
}
"""Keys that are called otherwise here than by prompt_toolkit."""
NAMED_KEYS = (
    Keys.ControlC,
    Keys.ControlG,
    Keys.ControlU,
    Keys.ControlW,
    Keys.ControlH,
    Keys.ControlM,
    Keys.ControlJ,
    Keys.Delete,
    Keys.F1,
    Keys.Up,
    Keys.Down,
    Keys.Left,
    Keys.Right,
    Keys.PageUp,
    Keys.PageDown,
    Keys.Home,
    Keys.End,
)
GONE = (errno.EIO, errno.EPIPE, errno.EBADF, errno.ENXIO)
"""What a console that was closed answers."""


def key_name(key: Keys | str) -> str:
    """Return what the session calls a key of prompt_toolkit."""
    if key in KEY_NAMES:
        return KEY_NAMES[key]
    return key.value if isinstance(key, Keys) else key


class FullScreen(UIControl):
    """The whole console, drawn row by row."""

    def __init__(self, state: Callable[[], State]) -> None:
        self._state = state

    def create_content(self, width: int, height: int) -> UIContent:
        """Return the rows of the present state."""
        rows = draw_console(self._state(), width, height)

        def row(index: int) -> StyleAndTextTuples:
            return [*rows[index]]

        return UIContent(get_line=row, line_count=len(rows), show_cursor=False)


class Session:
    """Runs the session on a console until the builder stops.

    `new_worker(post)` makes the worker, not started yet.
    """

    def __init__(
        self,
        state: State,
        new_worker: Callable[[Post], Worker],
        clock: Clock,
        console_input: Input | None = None,
        console_output: Output | None = None,
    ) -> None:
        self.state = state
        self._clock = clock
        self._loop: asyncio.AbstractEventLoop | None = None
        self._worker = new_worker(self._post)
        self._is_interrupted = False
        self._failure = ""
        """Why the session could not go on."""
        self.app: Application[None] = Application(
            layout=Layout(Window(FullScreen(lambda: self.state), always_hide_cursor=True)),
            key_bindings=self._bindings(),
            style=STYLE,
            full_screen=True,
            min_redraw_interval=MIN_REDRAW_S,
            input=console_input,
            output=console_output,
            enable_page_navigation_bindings=False,
        )
        self.app.ttimeoutlen = ESCAPE_LIMIT_S

    def run(self) -> bool:
        """Run to the end; return whether it was interrupted.

        Raises what broke it, after the run file got its last record.
        """
        try:
            asyncio.run(self._main())
        except (EOFError, KeyboardInterrupt):
            self._is_interrupted = True
        except OSError as error:
            if error.errno not in GONE:
                self._failure = failed_by(error)
                raise
            self._is_interrupted = True
        except Exception as error:
            self._failure = failed_by(error)
            raise
        finally:
            self._worker.end(self._reason)
        return self._is_interrupted

    @property
    def _reason(self) -> str:
        if self._is_interrupted:
            return INTERRUPTED
        return self._failure or BY_BUILDER

    async def _main(self) -> None:
        self._loop = asyncio.get_running_loop()
        self._loop.set_exception_handler(self._fail_in_loop)
        with interrupted_by_signals(self._loop, self._interrupt):
            self._worker.start()
            await self.app.run_async(set_exception_handler=False, handle_sigint=False)

    def _bindings(self) -> KeyBindings:
        bindings = KeyBindings()
        bindings.add(Keys.Any)(self._pressed)
        bindings.add(Keys.BracketedPaste)(self._pasted)
        for key in NAMED_KEYS:
            bindings.add(key)(self._pressed)
        return bindings

    def _pressed(self, event: KeyPressEvent) -> None:
        key = event.key_sequence[0].key
        self._guarded(partial(self.key, key))

    def _pasted(self, event: KeyPressEvent) -> None:
        for character in event.data:
            if MODES[self.state.mode].is_typing:
                self._guarded(partial(self.key, character))

    def _guarded(self, function: Callable[[], None]) -> None:
        """Call `function`.

        A mistake in a key or an event ends the session with a message; it must not hang or go on
        half done.
        """
        try:
            function()
        except Exception as error:  # pylint: disable=broad-except
            self._fail(error)

    def key(self, key: Keys | str) -> None:
        """Take one key, as prompt_toolkit names it."""
        size = self.app.output.get_size()
        state = paged(self.state, size.columns, size.rows)
        state = replace(state, shown_from=first_shown(state, size.columns, size.rows))
        self._take(*dispatch.press(state, key_name(key), self._clock.now_s()))
        self.app.invalidate()

    def hear(self, event: WorkerEvent | Trouble) -> None:
        """Take one event of the worker."""
        if isinstance(event, Trouble):
            self._fail(event.error)
            return
        self._take(*hearing.hear(self.state, event, self._clock.now_s()))
        is_more_to_come = MODES[self.state.mode].is_waiting
        if not (is_more_to_come and isinstance(event, Came | BoardScreen)):
            self.app.invalidate()

    def _take(self, state: State, requests: Iterable[Wanted]) -> None:
        self.state = state
        for request in requests:
            if isinstance(request, Quit):
                self._is_interrupted = request.is_interrupted
                self._exit()
            elif isinstance(request, Ring):
                self._ring(request.times)
            else:
                self._worker.requests.put(request)

    def _ring(self, times: int) -> None:
        """Sound the bell of the console, so slowly that each one is heard."""
        self.app.output.bell()
        self.app.output.flush()
        if times > 1 and self._loop is not None:
            self._loop.call_later(BELL_APART_S, self._ring, times - 1)

    def _post(self, event: WorkerEvent | Trouble) -> None:
        """Take an event from the worker's thread; the application may have ended meanwhile."""
        if self._loop is None:
            return
        with contextlib.suppress(RuntimeError):
            self._loop.call_soon_threadsafe(self._guarded, partial(self.hear, event))

    def _interrupt(self) -> None:
        self._is_interrupted = True
        self._exit()

    @property
    def _is_running(self) -> bool:
        return self.app.is_running and self.app.future is not None and not self.app.future.done()

    def _exit(self) -> None:
        if self._is_running:
            self.app.exit()

    def _fail(self, error: BaseException) -> None:
        if self._is_running:
            self.app.exit(exception=error)

    def _fail_in_loop(self, loop: asyncio.AbstractEventLoop, context: dict[str, Any]) -> None:
        self._fail(context.get("exception") or RuntimeError(context["message"]))
