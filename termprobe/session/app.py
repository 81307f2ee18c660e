"""The full-screen application: keys and events in, the drawn console out. Holds the only mutable thing, the present State."""

import asyncio
import errno
import signal
import threading
from dataclasses import replace

from prompt_toolkit.application import Application
from prompt_toolkit.key_binding import KeyBindings
from prompt_toolkit.keys import Keys
from prompt_toolkit.layout import Layout, UIContent, UIControl, Window
from prompt_toolkit.styles import Style

from termprobe.session.react import dispatch, hearing
from termprobe.session.draw.console_rows import draw, first_shown
from termprobe.session.messages import BoardScreen, Came, Quit, Trouble

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
    }
)
"""Foregrounds of the console's own palette alone, so that it can be read on light and dark; every colour has a mark beside it."""
MIN_REDRAW_S = 0.02
KEY_NAMES = {
    Keys.ControlM: "enter",
    Keys.ControlJ: "enter",
    Keys.ControlH: "backspace",
    Keys.ControlI: "tab",
    " ": "space",
}
GONE = (errno.EIO, errno.EPIPE, errno.EBADF, errno.ENXIO)
"""What a console that was closed answers."""


class Console(UIControl):
    """The whole console, drawn row by row."""

    def __init__(self, state):
        self._state = state

    def create_content(self, width, height):
        """Return the rows of the present state."""
        rows = draw(self._state(), width, height)
        return UIContent(
            get_line=lambda place: rows[place], line_count=len(rows), show_cursor=False
        )


class Session:
    """Runs the session on a console until the builder stops; `worker(post)` makes the worker, not started yet."""

    def __init__(self, state, new_worker, clock, console_input=None, console_output=None):
        self.state = state
        self._clock = clock
        self._loop = None
        self._worker = new_worker(self._post)
        self._is_interrupted = False
        self.app = Application(
            layout=Layout(Window(Console(lambda: self.state), always_hide_cursor=True)),
            key_bindings=self._bindings(),
            style=STYLE,
            full_screen=True,
            min_redraw_interval=MIN_REDRAW_S,
            input=console_input,
            output=console_output,
            enable_page_navigation_bindings=False,
        )
        self.app.ttimeoutlen = 0.05

    def run(self):
        """Run to the end; return whether it was interrupted. Raises what broke it, after the run file got its last record."""
        try:
            asyncio.run(self._main())
        except (EOFError, KeyboardInterrupt):
            self._is_interrupted = True
        except OSError as error:
            if error.errno not in GONE:
                raise
            self._is_interrupted = True
        finally:
            self._worker.end("interrupted" if self._is_interrupted else "stopped by the builder")
        return self._is_interrupted

    async def _main(self):
        self._loop = asyncio.get_running_loop()
        self._loop.set_exception_handler(
            lambda loop, context: self._fail(
                context.get("exception") or RuntimeError(context["message"])
            )
        )
        for name in ("SIGHUP", "SIGTERM"):
            if hasattr(signal, name) and threading.current_thread() is threading.main_thread():
                self._loop.add_signal_handler(getattr(signal, name), self._interrupt)
        self._worker.start()
        await self.app.run_async(set_exception_handler=False)

    def _bindings(self):
        bindings = KeyBindings()
        bindings.add(Keys.Any)(self._pressed)
        bindings.add(Keys.BracketedPaste)(self._pasted)
        for key in (
            Keys.ControlC,
            Keys.ControlG,
            Keys.ControlU,
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
        ):
            bindings.add(key)(self._pressed)
        return bindings

    def _pressed(self, event):
        self._guarded(self.key, event.key_sequence[0].key)

    def _pasted(self, event):
        for character in event.data:
            if self.state.mode == "line":
                self._guarded(self.key, character)

    def _guarded(self, function, *arguments):
        """A mistake in a key or an event ends the session with a message; it must not hang or go on half done."""
        try:
            function(*arguments)
        except Exception as error:  # pylint: disable=broad-except
            self._fail(error)

    def key(self, key):
        """Take one key, as prompt_toolkit names it."""
        name = KEY_NAMES.get(key) or getattr(key, "value", key)
        size = self.app.output.get_size()
        state = replace(self.state, shown_from=first_shown(self.state, size.columns, size.rows))
        self._take(*dispatch.press(state, name, self._clock.now_s()))
        self.app.invalidate()

    def hear(self, event):
        """Take one event of the worker."""
        if isinstance(event, Trouble):
            self._fail(event.error)
            return
        self._take(*hearing.hear(self.state, event, self._clock.now_s()))
        if not (self.state.mode == "sending" and isinstance(event, (Came, BoardScreen))):
            self.app.invalidate()

    def _take(self, state, requests):
        self.state = state
        for request in requests:
            if isinstance(request, Quit):
                self._is_interrupted = request.is_interrupted
                self._exit()
            else:
                self._worker.requests.put(request)

    def _post(self, event):
        """Called from the worker's thread; the application may have ended meanwhile."""
        try:
            self._loop.call_soon_threadsafe(self._guarded, self.hear, event)
        except RuntimeError:
            pass

    def _interrupt(self):
        self._is_interrupted = True
        self._exit()

    def _exit(self):
        if self.app.is_running and not self.app.future.done():
            self.app.exit()

    def _fail(self, error):
        if self.app.is_running and not self.app.future.done():
            self.app.exit(exception=error)
