"""A console without a terminal, for tests of the full-screen session.

Keys come by a pipe, output goes into a screen model.
"""

import contextlib
import io
import threading
import time

import pyte
from prompt_toolkit.data_structures import Size
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output.vt100 import Vt100_Output

LIMIT_S = 15.0


class Console:
    """Stands for sys.stdout: what is written is shown on a screen model of `columns` x `rows`."""

    encoding = "utf-8"

    def __init__(self, columns=100, rows=32):
        self.size = Size(rows=rows, columns=columns)
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.Stream(self.screen)
        self._lock = threading.Lock()
        self.written = []
        self.output = Vt100_Output(self, lambda: self.size, term="xterm", enable_cpr=False)
        self.pipe = None

    def write(self, text):
        with self._lock:
            self.written.append(text)
            self._stream.feed(text)

    def flush(self):
        pass

    def isatty(self):
        return True

    def fileno(self):
        raise io.UnsupportedOperation("no descriptor")

    def text(self):
        """Return what the console shows."""
        with self._lock:
            return "\n".join(row.rstrip() for row in self.screen.display)

    # For the thread that plays the builder

    def wait(self, *words, limit_s=LIMIT_S):
        """Wait until all of `words` are shown; return the console's text."""
        end_s = time.monotonic() + limit_s
        while True:
            shown = self.text()
            if all(word in shown for word in words):
                return shown
            assert time.monotonic() < end_s, f"{words} must be shown, not:\n{shown}"
            time.sleep(0.01)

    def press(self, keys, *words):
        """Press keys as a terminal sends them, then wait for `words`."""
        self.pipe.send_text(keys)
        return self.wait(*words)


UP, DOWN, RIGHT, LEFT, END, INTERRUPT = "\x1b[A", "\x1b[B", "\x1b[C", "\x1b[D", "\x1b[F", "\x03"


def hold(session_of, builder, console):
    """Run the session that `session_of(input, output)` gives; return what its run() returns.

    Meanwhile `builder(console)` plays the person; what that asserts is raised here.
    """
    trouble = []

    def play():
        try:
            builder(console)
        except BaseException as error:  # pylint: disable=broad-except
            trouble.append(error)
        finally:
            with contextlib.suppress(OSError):  # the session may have ended, and its pipe with it
                console.pipe.send_text(INTERRUPT)

    with create_pipe_input() as pipe:
        console.pipe = pipe
        person = threading.Thread(target=play, daemon=True)
        session = session_of(pipe, console.output)
        person.start()
        try:
            return session.run()
        finally:
            person.join(LIMIT_S)
            if trouble:
                raise trouble[0]
