"""Tells how far something is that takes longer than a moment."""

import time
from typing import TextIO

MOMENT_S = 0.5


class Patience:
    """Says on `stream` what is being done, and on a console how far it is, after a moment."""

    def __init__(self, what: str, stream: TextIO) -> None:
        self._what, self._stream = what, stream
        self._is_console = stream.isatty()
        self._begun_s = time.monotonic()
        self._shown = ""

    def told(self, done: int, count: int) -> None:
        """Take notice that `done` of `count` is done."""
        if time.monotonic() - self._begun_s < MOMENT_S:
            return
        if self._is_console:
            self._show(f"{self._what}: {done} of {count}")
        elif not self._shown:
            self._shown = f"{self._what} ..."
            self._stream.write(f"{self._shown}\n")
            self._stream.flush()

    def end(self) -> None:
        """Clear the line of a console."""
        if self._shown and self._is_console:
            self._show("")
            self._stream.write("\r")
            self._stream.flush()

    def _show(self, text: str) -> None:
        """Write `text` over what is shown."""
        self._stream.write("\r" + text.ljust(len(self._shown)))
        self._stream.flush()
        self._shown = text
