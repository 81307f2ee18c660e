"""Lines of the standard input, read beside other work once something else is waited for as well."""

import io
import os
import queue
import sys
import threading

ENCODING = "utf-8"
SIZE = 4096


def typed_line() -> str:
    """Return the next line of the standard input with its end; what is no text is replaced."""
    if isinstance(sys.stdin, io.TextIOWrapper) and sys.stdin.errors == "strict":
        sys.stdin.reconfigure(errors="replace")
    return sys.stdin.readline()


class TypedLines:
    """Reads as sys.stdin does, until read() is called: from then on a thread does, line by line.

    That thread never ends, so whoever reads lines reads them here.
    """

    def __init__(self) -> None:
        self._lines: queue.Queue[str] = queue.Queue()
        self._thread: threading.Thread | None = None

    def next_line(self) -> str:
        """Return the next line with its end; empty at the end of the input."""
        if self._thread is None:
            return typed_line()
        line = None
        while line is None:
            line = self.read(1.0)
        return line

    def read(self, wait_s: float) -> str | None:
        """Return the next line, empty at the end of the input; None where none comes in time."""
        if self._thread is None:
            self._thread = threading.Thread(target=self._gather, name="typed lines", daemon=True)
            self._thread.start()
        try:
            line = self._lines.get(timeout=wait_s)
        except queue.Empty:
            return None
        if not line:
            self._lines.put("")  # it ends but once
        return line

    def _gather(self) -> None:
        """Read without the buffer of sys.stdin, whose lock would be held when the program ends."""
        descriptor, begun = sys.stdin.fileno(), b""
        while data := os.read(descriptor, SIZE):
            *lines, begun = (begun + data).split(b"\n")
            for line in lines:
                self._lines.put(line.decode(ENCODING, "replace") + "\n")
        self._lines.put(begun.decode(ENCODING, "replace"))
        self._lines.put("")


LINES = TypedLines()
"""Those of this program."""
